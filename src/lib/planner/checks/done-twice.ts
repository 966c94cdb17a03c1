import { unsourced } from '../../formulary/index.ts';
import type { Fact } from '../../run/index.ts';
import { momentOf } from '../clock.ts';
import { dayAt, logOf, type Check, type Draft, type Seen } from './check.ts';

type Done = Extract<Fact, { kind: 'done' }>;

/** Amounts so close to each other are the same one, measured twice (judgment, no source). */
const SAME = 0.1;

/** One job, touched on two devices or by two people: what it does to the water is counted twice. */
export const doneTwice: Check = {
	rule: 'done-twice',
	severity: 'caution',
	appliesTo: 'log',
	about: 'a job logged as done twice with its whole amount',
	source: unsourced.J,
	find: (seen) =>
		[...Map.groupBy(poured(seen), ({ task }) => task).values()].flatMap((all) => told(seen, all))
};

/** What was logged as done of jobs that move water or medicine. */
const poured = (seen: Seen): Done[] =>
	logOf(seen).flatMap((entry) =>
		entry.kind === 'done' && /\/(dose|change|washout|topoff)\//.test(entry.task) ? [entry] : []
	);

function told(seen: Seen, all: readonly Done[]): Draft[] {
	const due = seen.walked?.walk.due.get(all[0]?.task ?? '');
	const last = all.at(-1);
	const before = all.at(-2);
	if (!due || !last || !before) return [];
	const whole = due.deed.amount?.value ?? 0;
	const [a, b] = [before, last].map(({ amount }) => amount?.value ?? whole) as [number, number];
	if (Math.min(a, b) < (1 - SAME) * Math.max(a, b, whole)) return [];
	const hour = ({ atMs }: Done) => momentOf(seen.run.timeZone, atMs).time;
	return [
		{
			date: dayAt(seen, last.atMs),
			phase: due.task.phase,
			cell: `log.${last.id}`,
			message: `${due.task.text} of ${due.task.date} is logged as done twice, at ${hour(before)} and at ${hour(last)}.`,
			because:
				'Both are counted, so the levels that are forecast are wrong if it was done once: then take one of the entries back. Where nobody knows, read the level before anything is given.'
		}
	];
}
