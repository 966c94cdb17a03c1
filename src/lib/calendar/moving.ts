import {
	findingsBetween,
	servicesOf,
	type Finding,
	type Plan,
	type Task,
	type TaskKind
} from '../planner/index.ts';
import { dayNumber, moveText, type Day, type Run } from '../run/index.ts';

/** Where jobs are put: a day, and an hour `HH:MM` where one is meant. */
export interface Place {
	day: Day;
	time?: string | undefined;
}

/** Why jobs of a kind keep their day; kinds that are not here may move while their row is under way. */
const bound: Partial<Record<TaskKind, string>> = {
	observe: 'the clean look belongs to the last day of its row',
	topoff: 'what evaporates goes back at every service',
	dose: 'a dose that holds a level follows the changes and readings of its day',
	salinity: 'each step of salinity follows from the one before',
	dip: 'the dips of a course keep their days apart',
	transfer: 'moves between tanks count the hours from the one before',
	equipment: 'it goes with the change or the dose of its day',
	supply: 'new water is made a day before it is used',
	acclimate: 'the day the fish come is written with their lot',
	feed: 'medicated food is given every day of its row',
	release: 'the release follows the row before it: change what that one lasts',
	clean: 'the tank is stripped once the fish have left it'
};

const logged = (task: Task) => task.state !== 'planned' && task.state !== 'open';

/** What forbids a move before it is tried: what is done stays done, and nothing is planned into the past. */
export function fixedBecause(task: Task, day: Day, today: Day): string | null {
	if (logged(task))
		return `${task.text} stays on ${task.date}: it is in the log, and the past stays as it was.`;
	if (day < today) return `${task.text} stays on ${task.date}: ${day} is over.`;
	return null;
}

/** Between these hours fish sleep in the dark and hands do (judgment, no source); a service of the run may lie there. */
const night = { from: '22:00', to: '06:00' };

/** Jobs that no hour can be given, whatever the plan. */
export const keepsPlace = ({ kind }: Task): boolean => kind !== 'dose' && bound[kind] !== undefined;

/** Why nothing is put at an hour; null where it may be tried. */
export function hourBecause(task: Task, { day, time }: Place, run: Run, now: string): string | null {
	if (time === undefined || run.services.includes(time)) return null;
	const stays = `${task.text} stays at ${task.time} on ${task.date}`;
	const [placed] = servicesOf(run.timeZone, dayNumber(day), [time]);
	if (placed && placed.atMs < Date.parse(now)) return `${stays}: ${time} on ${day} is over.`;
	if (time >= night.to && time < night.from) return null;
	return `${stays}: ${time} is night, between ${night.from} and ${night.to}.`;
}

/**
 * What a plan file writes for jobs put there. The first service of a day is said by the day alone; where no hour is
 * meant each keeps the one it has.
 */
export function putThere(run: Run, ids: readonly string[], { day, time }: Place): Record<string, string> {
	const hourOf = (id: string) =>
		time === undefined ? (run.moves[id]?.time ?? null) : time === run.services[0] ? null : time;
	return Object.fromEntries(ids.map((id) => [id, moveText({ day, time: hourOf(id) })]));
}

/** Rules that forbid an hour though they do not always stop a plan: two doses too near, a dose before its test. */
const tooNear: readonly Finding['rule'][] = ['pulse-gap', 'test-after-dose'];

/** What the checks would say to jobs put at an hour, where that forbids it; null where nothing does. */
export function hourForbidden(before: Plan, tried: Plan): string | null {
	const { come } = findingsBetween(before, tried);
	const grave = come.find(({ severity, rule }) => severity === 'stop' || tooNear.includes(rule));
	return grave?.message ?? null;
}

/** The wall-clock time that a place leads to, later where a clock change skips it; null where none is meant. */
export function hourOf({ day, time }: Place, { timeZone }: Run): string | null {
	if (time === undefined) return null;
	return servicesOf(timeZone, dayNumber(day), [time])[0]?.time ?? null;
}

/** A test that was moved may have joined one that was there: then each thing it measures is measured then. */
function joined(task: Task, tried: Plan, day: Day, hour: string | null): boolean {
	if (task.kind !== 'test') return false;
	const there = tried.tasks.filter(
		({ kind, date, time }) => kind === 'test' && date === day && (hour === null || time === hour)
	);
	return (task.what ?? []).every((what) => there.some((test) => test.what?.includes(what)));
}

/**
 * Why a job that was put on `day`, at `hour` where one is said, did not come to lie there when the plan was marched
 * again; null when it did.
 */
export function staysBecause(task: Task, tried: Plan, day: Day, hour: string | null = null): string | null {
	const found = tried.tasks.find(({ id }) => id === task.id);
	const lies = found && found.date === day && (hour === null || found.time === hour);
	if (found ? lies : joined(task, tried, day, hour)) return null;
	const span = tried.phases.find(({ id }) => id === task.phase);
	const outside = span?.from && (day < span.from || (span.to !== null && day > span.to));
	const where = hour === null || task.date !== day ? `on ${task.date}` : `at ${task.time} on ${task.date}`;
	const why = outside
		? `its row runs from ${span.from}${span.to === null ? '' : ` to ${span.to}`}`
		: (bound[task.kind] ?? `its row gives it that ${task.date === day ? 'hour' : 'day'}`);
	return `${task.text} stays ${where}: ${why}.`;
}
