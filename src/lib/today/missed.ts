import { servicesOf, type Task, type TaskKind } from '../planner/index.ts';
import { dayNumber, type Run } from '../run/index.ts';
import type { Asking } from './asked.ts';

/** What an unanswered job leaves behind, in one sentence (judgment, no source). */
const leaves: Partial<Record<TaskKind, string>> = {
	dose: 'No later dose of this medicine has an amount until this one is answered or the level is read.',
	test: 'The forecast stands unproved, and a hold earns no day while its last test is older than 48 hours.',
	change: 'Waste and medicine stand higher than they were planned.',
	washout: 'The medicine is still in the water, and the wash-out takes a day more.',
	transfer: 'A move later than three days starts the series again.',
	dip: 'The course stands still until it is given or dropped.',
	salinity: 'The salinity is not where the plan has it.',
	observe: 'A look that nobody logged does not count as a clean one.',
	feed: 'The medicine did not reach the fish that day.'
};

/** What moves water or medicine, and is taken as done until the service after it. */
const moving: readonly TaskKind[] = ['dose', 'change', 'washout', 'salinity'];

/**
 * Until the service after it the plan takes a job as done, and says so. Once the level was read, the doses to come, of all
 * `tasks` of the plan, have their amounts again.
 */
export function leavesBehind({ task, others }: OpenSeries, { run, plan: { tasks }, nowMs }: Asking): string {
	if (moving.includes(task.kind) && nextService(run, task) > nowMs)
		return 'Until the next service the plan takes it as done: say before then what became of it.';
	const toCome = tasks.filter((one) => !others.includes(one));
	if (task.kind === 'dose' && !toCome.some((other) => waitsFor(other, task)))
		return 'Later doses are figured without it: say what became of it.';
	return leaves[task.kind] ?? 'Log it, or skip it with a reason.';
}

/** When the service after that of a job begins. */
function nextService({ timeZone, services }: Run, { at, date }: Task): number {
	const day = dayNumber(date);
	const later = [day, day + 1].flatMap((one) => servicesOf(timeZone, one, services));
	return later.find(({ atMs }) => atMs > Date.parse(at))?.atMs ?? -Infinity;
}

const waitsFor = (other: Task, { phase, at }: Task): boolean =>
	other.kind === 'dose' && other.phase === phase && other.at > at && other.amount === null;

/** The weightiest first; kinds that are not named come last. */
const weighty: readonly TaskKind[] = ['dose', 'transfer', 'dip', 'change', 'washout', 'salinity', 'test'];

/** Of these the first one missed holds up the others; of all else the latest is the one worth doing. */
const firstCounts: readonly TaskKind[] = ['dose', 'transfer', 'dip', 'salinity'];

/** Open jobs of one phase and kind: the one to answer, and the others that stand behind it. */
export interface OpenSeries {
	task: Task;
	others: Task[];
}

/** Jobs of earlier services that nobody answered for, folded by phase and kind, the weightiest first. */
export function stillOpen(tasks: readonly Task[]): OpenSeries[] {
	const weight = ({ task: { kind } }: OpenSeries) =>
		weighty.includes(kind) ? weighty.indexOf(kind) : weighty.length;
	return [...Map.groupBy(tasks, ({ phase, kind }) => `${phase}/${kind}`).values()]
		.flatMap((series) => {
			const inTime = series.toSorted((a, b) => (a.at < b.at ? -1 : 1));
			const task = firstCounts.includes(inTime[0]?.kind ?? 'test') ? inTime[0] : inTime.at(-1);
			return task ? [{ task, others: inTime.filter((one) => one !== task) }] : [];
		})
		.sort((a, b) => weight(a) - weight(b) || (a.task.at < b.task.at ? 1 : -1));
}
