import { lotName, measuresOf, medicineName, type Measure, type Names } from '$lib/ledger';
import type { Task } from '$lib/planner';
import type { Lot, Run } from '$lib/run';

interface Choice {
	value: string;
	name: string;
}

/** What the fields of a fact offer in this run. */
export interface FactChoices {
	measures: readonly Measure[];
	lots: readonly Choice[];
	medicines: readonly Choice[];
	tasks: readonly Choice[];
}

/** Everybody who is or was in the tank. */
function lotsOf(run: Run): Lot[] {
	const joined = run.log.flatMap((entry) => (entry.kind === 'fish' && entry.lot ? [entry.lot] : []));
	return [...run.lots, ...joined];
}

/** Jobs that can be answered for: due by today, and nobody has; and `kept`, the one a correction speaks of. */
const answerable = (task: Task, today: string, kept: string): boolean =>
	task.id === kept || (task.date <= today && ['open', 'planned', 'late', 'partly'].includes(task.state));

export function factChoices(
	names: Names & { plan: { tasks: Task[] } },
	today: string,
	shortDay: (day: string) => string,
	kept = ''
): FactChoices {
	const { run, plan } = names;
	const tasks = plan.tasks
		.filter((task) => answerable(task, today, kept))
		.toReversed()
		.map((task) => ({ value: task.id, name: `${shortDay(task.date)} ${task.time}: ${task.text}` }));
	const gone = kept && !tasks.some(({ value }) => value === kept) ? [{ value: kept, name: kept }] : [];
	return {
		measures: measuresOf(run),
		lots: lotsOf(run).map(({ id }) => ({ value: id, name: lotName(names, id) })),
		medicines: run.medicines.map(({ id }) => ({ value: id, name: medicineName(names, id) })),
		tasks: [...gone, ...tasks]
	};
}
