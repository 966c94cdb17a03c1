import {
	fixedBecause,
	hourBecause,
	hourForbidden,
	hourOf,
	putThere,
	staysBecause
} from '../calendar/index.ts';
import { compare, compareWords, dayOfInstant, plan, type Comparison, type Task } from '../planner/index.ts';
import { applyAll, dayText, readRun, type Edit } from '../run/index.ts';
import type { Document } from './document.ts';
import { readLog } from './log.ts';
import { getRun } from './runs.ts';
import type { Store } from './store.ts';

/** What a wished move would do. `edits` write it into the plan document of `version`. */
export type Judged =
	{ allowed: true; version: number; edits: Edit[]; changes: string[] } | { allowed: false; sentence: string };

/** A day, or a day with a local time, as a proposal keeps it: `2026-12-05T18:30`. */
const placeOf = (wished: string) => {
	const [day = '', time] = wished.split('T');
	return { day, time };
};

/**
 * A task, or those of a service, wished to another day or hour, judged as a drag in the calendar is: the plan is marched with
 * it, each row has to give that day, and no stop may come up that was not there. The past is not touched.
 */
export async function judgeMove(
	store: Store,
	wish: { run: string; tasks: readonly string[]; day: string },
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
	const tasks = before.tasks.filter(({ id }) => wish.tasks.includes(id));
	if (tasks.length === 0) return no('The plan has this task no more.');
	const place = placeOf(wish.day);
	const hour = hourOf(place, run);
	if (tasks.every(({ date, time }) => date === place.day && (hour === null || time === hour)))
		return no(`It is due on ${place.day}${hour === null ? '' : ` at ${hour}`} anyway.`);
	const today = dayText(dayOfInstant(run.timeZone, Date.parse(now)));
	const fixed = firstOf(
		tasks,
		(task) => fixedBecause(task, place.day, today) ?? hourBecause(task, place, run, now)
	);
	if (fixed !== null) return no(fixed);
	const moves = stored.document.moves as Record<string, string> | undefined;
	const moved = putThere(
		run,
		tasks.map(({ id }) => id),
		place
	);
	const edits: Edit[] = [{ path: ['moves'], was: moves, to: { ...moves, ...moved } }];
	const { made: after } = marched(applyAll(stored.document, edits));
	const stays = firstOf(tasks, (task) => staysBecause(task, after, place.day, hour));
	if (stays !== null) return no(stays);
	const differs = compare(before, after);
	const stop = differs.findings.come.find(({ severity }) => severity === 'stop')?.message;
	const forbidden = stop ?? (hour === null ? null : hourForbidden(before, after));
	if (forbidden) return no(forbidden);
	return { allowed: true, version: stored.version, edits, changes: changesOf(differs, wish.tasks) };
}

const firstOf = (tasks: readonly Task[], why: (task: Task) => string | null): string | null =>
	tasks.map(why).find((sentence) => sentence !== null) ?? null;

const no = (sentence: string): Judged => ({ allowed: false, sentence });

/** What else would be another: other tasks' days, the release, what the checks would say. */
function changesOf(differs: Comparison, moved: readonly string[]): string[] {
	const words = compareWords({
		...differs,
		moved: differs.moved.filter(({ id }) => !moved.includes(id)),
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
