import { compare, compareWords, dayOfInstant, plan, type Comparison } from '../planner/index.ts';
import { applyAll, dayText, readRun, type Day, type Edit } from '../run/index.ts';
import type { Document } from './document.ts';
import { readLog } from './log.ts';
import { getRun } from './runs.ts';
import type { Store } from './store.ts';

/** What a wished move would do. `edits` write it into the plan document of `version`. */
export type Judged =
	{ allowed: true; version: number; edits: Edit[]; changes: string[] } | { allowed: false; sentence: string };

/**
 * A task wished to another day, judged as a drag in the calendar is: the plan is marched with it, the phase has to
 * give that day, and no stop may come up that was not there. The past is not touched.
 */
export async function judgeMove(
	store: Store,
	wish: { run: string; task: string; day: Day },
	now: string
): Promise<Judged> {
	const stored = await getRun(store, wish.run);
	if (!stored || stored.deleted !== null) return no('The run is not there any more.');
	const log = await readLog(store, wish.run);
	const marched = (document: Document) => {
		const run = readRun({ ...document, id: stored.id, log }, { today: now.slice(0, 10) });
		return { run, made: plan(run, now) };
	};
	const { run, made: before } = marched(stored.document);
	const task = before.tasks.find(({ id }) => id === wish.task);
	if (!task) return no('The plan has this task no more.');
	if (task.state !== 'planned' && task.state !== 'open') return no(`It is logged as ${task.state} already.`);
	if (wish.day === task.date) return no(`It is due on ${task.date} anyway; its time is that of the service.`);
	const today = dayText(dayOfInstant(run.timeZone, Date.parse(now)));
	if (wish.day < today) return no(`${wish.day} is past.`);
	const moves = stored.document.moves as Record<string, string> | undefined;
	const edits: Edit[] = [{ path: ['moves'], was: moves, to: { ...moves, [wish.task]: wish.day } }];
	const { made: after } = marched(applyAll(stored.document, edits));
	const there = after.tasks.find(({ id }) => id === wish.task);
	if (there?.date !== wish.day) return no(`Its phase does not give ${wish.day}.`);
	const differs = compare(before, after);
	const stop = differs.findings.come.find(({ severity }) => severity === 'stop');
	if (stop) return no(stop.message);
	return { allowed: true, version: stored.version, edits, changes: changesOf(differs, wish.task) };
}

const no = (sentence: string): Judged => ({ allowed: false, sentence });

/** What else would be another: other tasks' days, the release, what the checks would say. */
function changesOf(differs: Comparison, moved: string): string[] {
	const words = compareWords({
		...differs,
		moved: differs.moved.filter(({ id }) => id !== moved),
		findings: { come: differs.findings.come, gone: [] }
	});
	const lines = [
		...words.tasks,
		...(differs.release.from === differs.release.to ? [] : [`Release ${words.release}.`]),
		...(differs.waterL === 0 ? [] : [`${words.water} of new water.`]),
		...words.medicines.map((medicine) => `${medicine}.`),
		...words.findings
	];
	if (lines.length > mostLines)
		return [...lines.slice(0, mostLines), `and ${lines.length - mostLines} more changes`];
	return lines.length ? lines : ['Nothing else would change.'];
}

/** Lines of a proposal; the rest is counted. */
const mostLines = 8;
