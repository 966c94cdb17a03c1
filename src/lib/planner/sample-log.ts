import { exampleNow, exampleWith, runOf } from './example.ts';
import { plan, type Plan, type Task } from './index.ts';

export type Entry = Record<string, unknown>;

/** The n-th day of the run. */
export const day = (n: number) => new Date(Date.UTC(2026, 10, 27 + n)).toISOString().slice(0, 10);
/** An instant on the n-th day of the run, Chicago winter time. */
export const at = (n: number, time = '08:10') => `${day(n)}T${time}:00-06:00`;
/** The worked example without a day away. */
export const known = exampleWith({ away: [] });
/** Its plan before anything is logged. */
export const untouched = plan(runOf(known), exampleNow);

/** Everything of the first days logged exactly as planned, at the minute it was planned for. */
export function asPlanned(until: number, except: string[] = []): Entry[] {
	const first = untouched.tasks.filter(({ date }) => date < day(until));
	return first.flatMap((task, i) => (except.includes(task.id) ? [] : [entryFor(task, String(i + 1000))]));
}

export function entryFor(task: Task, id: string): Entry {
	if (task.kind !== 'test') return { id, at: task.at, kind: 'done', task: task.id };
	const sample = untouched.levels.find((one) => one.at === task.at && one.when === 'before');
	if (task.what?.includes('Cu'))
		return {
			id,
			at: task.at,
			kind: 'reading',
			task: task.id,
			what: 'Cu',
			value: `${sample?.medicinesMgPerL.cu} mg/L`
		};
	return { id, at: task.at, kind: 'done', task: task.id };
}

/** Its plan at a moment with a log. */
export const withLog = (log: Entry[], now: string, extra: object = {}): Plan =>
	plan(runOf({ ...known, ...extra, log }), now);
/** A job by its id. */
export const task = ({ tasks }: Plan, id: string) => tasks.find((one) => one.id === id);
/** What is still to come from a day on: job, day, amount. */
export const future = ({ tasks }: Plan, from: string) =>
	tasks.filter(({ date }) => date >= from).map(({ id, date, amount }) => [id, date, amount?.value ?? null]);

/** Every job before a day done as planned, for a document of one's own. */
export function doneUntil(document: object, until: number): Entry[] {
	const { tasks } = plan(runOf(document), exampleNow);
	return tasks
		.filter(({ date }) => date < day(until))
		.map(({ id, at: when }, i) => ({ id: `p${i}`, at: when, kind: 'done', task: id }));
}
