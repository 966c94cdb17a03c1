import { dayNumber, type Day } from '../run/index.ts';
import { findingsBetween } from './compare-findings.ts';
import type { Amount, Finding, PhaseSpan, Plan, Task, TaskKind, TaskState } from './plan.ts';

/** One value in two plans. */
export interface Both<T> {
	from: T;
	to: T;
}

/** A task, named for people. */
export interface TaskNote {
	id: string;
	phase: string;
	kind: TaskKind;
	text: string;
	date: Day;
	time: string;
}

/** What one phase is in two plans; `earned` is the credit so far, null for phases that count none. */
export interface PhaseChange {
	id: string;
	begins: Both<Day | null>;
	ends: Both<Day | null>;
	/** days, see `PhaseSpan.creditedSoFar` */
	earned: Both<number> | null;
}

/** What became of a plan. Tasks are matched by id, findings by what they are about; lists are in order of time. */
export interface Comparison {
	/** tasks on another day or at another hour */
	moved: (TaskNote & { at: Both<{ date: Day; time: string }> })[];
	/** tasks with another amount, or that have or lost one */
	amounts: (TaskNote & { amount: Both<Amount | null> })[];
	/** tasks in another state, such as open and now missed */
	states: (TaskNote & { state: Both<TaskState> })[];
	come: TaskNote[];
	gone: TaskNote[];
	release: Both<Day | null> & { daysLater: number | null };
	/** every phase of both plans, changed or not */
	phases: PhaseChange[];
	/** litres of new water: more is positive */
	waterL: number;
	/** out of each bottle: more is positive; only what differs. `total` is what the plan then needs in all */
	medicines: { id: string; value: number; total: number; unit: Amount['unit'] }[];
	findings: { come: Finding[]; gone: Finding[] };
}

/** Two computed numbers closer than this are one. */
const NEAR = 1e-9;

/** What differs between two plans of one run. Plain data: nothing in it is shared with the plans but their findings. */
export function compare(before: Plan, after: Plan): Comparison {
	const was = new Map(before.tasks.map((task) => [task.id, task]));
	const is = new Map(after.tasks.map((task) => [task.id, task]));
	const kept = after.tasks.flatMap((to) => {
		const from = was.get(to.id);
		return from ? [{ from, to }] : [];
	});
	return {
		moved: kept
			.filter(({ from, to }) => from.at !== to.at)
			.map(({ from, to }) => ({
				...noteOf(to),
				at: { from: { date: from.date, time: from.time }, to: { date: to.date, time: to.time } }
			})),
		amounts: kept
			.filter(({ from, to }) => !sameAmount(from.amount, to.amount))
			.map(({ from, to }) => ({ ...noteOf(to), amount: { from: from.amount, to: to.amount } })),
		states: kept
			.filter(({ from, to }) => from.state !== to.state)
			.map(({ from, to }) => ({ ...noteOf(to), state: { from: from.state, to: to.state } })),
		come: after.tasks.filter(({ id }) => !was.has(id)).map(noteOf),
		gone: before.tasks.filter(({ id }) => !is.has(id)).map(noteOf),
		release: releaseBetween(before.release, after.release),
		phases: after.phases.flatMap((to) => {
			const from = before.phases.find(({ id }) => id === to.id);
			return from ? [phaseChange(from, to)] : [];
		}),
		waterL: rounded(after.supplies.waterL - before.supplies.waterL),
		medicines: bottles(before, after),
		findings: findingsBetween(before, after)
	};
}

/** Nothing a keeper would notice. */
export const isSame = (one: Comparison): boolean =>
	[one.moved, one.amounts, one.states, one.come, one.gone, one.medicines].every(
		(list) => list.length === 0
	) &&
	one.release.from === one.release.to &&
	one.waterL === 0 &&
	one.findings.come.length + one.findings.gone.length === 0;

const noteOf = ({ id, phase, kind, text, date, time }: Task): TaskNote => ({
	id,
	phase,
	kind,
	text,
	date,
	time
});

const rounded = (value: number) => (Math.abs(value) < NEAR ? 0 : value);

function sameAmount(a: Amount | null, b: Amount | null): boolean {
	if (a === null || b === null) return a === b;
	return a.unit === b.unit && Math.abs(a.value - b.value) <= NEAR * Math.max(1, Math.abs(a.value));
}

/** The day of release in two plans. */
export const releaseBetween = (from: Day | null, to: Day | null): Comparison['release'] => ({
	from,
	to,
	daysLater: from === null || to === null ? null : dayNumber(to) - dayNumber(from)
});

function phaseChange(from: PhaseSpan, to: PhaseSpan): PhaseChange {
	const counts = from.creditedDays !== undefined || to.creditedDays !== undefined;
	return {
		id: to.id,
		begins: { from: from.from, to: to.from },
		ends: { from: from.to, to: to.to },
		earned: counts ? { from: from.creditedSoFar ?? 0, to: to.creditedSoFar ?? 0 } : null
	};
}

function bottles({ supplies: from }: Plan, { supplies: to }: Plan): Comparison['medicines'] {
	const ids = [...new Set([...from.medicines, ...to.medicines].map(({ id }) => id))];
	return ids.flatMap((id) => {
		const [was, is] = [from, to].map(({ medicines }) => medicines.find((one) => one.id === id));
		const value = rounded((is?.value ?? 0) - (was?.value ?? 0));
		const unit = (is ?? was)?.unit;
		return value === 0 || !unit ? [] : [{ id, value, total: is?.value ?? 0, unit }];
	});
}
