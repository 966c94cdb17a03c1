import type { Plan, Task, TaskKind } from '../planner/index.ts';
import type { Day } from '../run/index.ts';

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

/** A test that was moved may have joined one that was there: then each thing it measures is measured on that day. */
function joined(task: Task, tried: Plan, day: Day): boolean {
	if (task.kind !== 'test') return false;
	const there = tried.tasks.filter(({ kind, date }) => kind === 'test' && date === day);
	return (task.what ?? []).every((what) => there.some((test) => test.what?.includes(what)));
}

/** Why a job that was put on `day` did not come to lie there when the plan was marched again; null when it did. */
export function staysBecause(task: Task, tried: Plan, day: Day): string | null {
	const found = tried.tasks.find(({ id }) => id === task.id);
	if (found ? found.date === day : joined(task, tried, day)) return null;
	const span = tried.phases.find(({ id }) => id === task.phase);
	const outside = span?.from && (day < span.from || (span.to !== null && day > span.to));
	const why = outside
		? `its row runs from ${span.from}${span.to === null ? '' : ` to ${span.to}`}`
		: (bound[task.kind] ?? 'its row gives it that day');
	return `${task.text} stays on ${task.date}: ${why}.`;
}
