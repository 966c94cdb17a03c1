import { unsourced } from '../../formulary/index.ts';
import { dayNumber, type Phase } from '../../run/index.ts';
import { servicesOf } from '../clock.ts';
import { hoursBeside } from '../put.ts';
import { LONGEST_PLAN_DAYS } from '../recurrence.ts';
import { holdHigher } from './hold.ts';
import { withTest } from './with-test.ts';
import { bottleOf, firstPer, phaseOf, withheld, type Check, type Draft, type Seen } from './check.ts';

/** What a row that never ends is waiting for, and the cell that would bring it about. */
function waitsFor(seen: Seen, phase: Phase): { cell: string; what: string } {
	const bottle = bottleOf(seen, phase.medicine);
	switch (phase.kind) {
		case 'hold':
			return phase.test.some(({ what }) => what === bottle?.measuredAs)
				? { cell: 'level', what: 'days inside its window' }
				: {
						cell: 'test',
						what: `tests of ${bottle?.measuredAs ?? 'its medicine'}: a day counts only with one at most 48 h old`
					};
		case 'low-salinity':
			return { cell: 'level', what: 'a salinity of 16 ppt or less' };
		default:
			return { cell: 'change', what: 'changes, or a loss, that bring the medicine down' };
	}
}

/** What cannot be placed on the calendar. */
export const neverEnds: Check = {
	rule: 'never-ends',
	severity: 'stop',
	appliesTo: 'phase',
	about: 'a phase that cannot be placed, or never ends by itself',
	source: unsourced.J,
	find: (seen) => [...undated(seen), ...unplaced(seen)],
	repairs(draft, seen) {
		const phase = phaseOf(seen, draft.phase);
		if (!phase || !draft.cell || draft.cell.endsWith('.starts')) return [];
		if (phase.kind === 'washout')
			return [25, 50].map((share) => ({
				title: `Change ${share} % daily`,
				cells: { [draft.cell ?? '']: `${share}% daily` }
			}));
		const what = bottleOf(seen, phase.medicine)?.measuredAs;
		if (phase.kind === 'hold' && draft.cell.endsWith('.test') && what)
			return [{ title: `Test ${what} daily`, cells: { [draft.cell]: withTest(phase, what) } }];
		if (phase.kind === 'hold') return holdHigher(seen, phase.id);
		return phase.kind === 'low-salinity' ? [{ title: 'Hold 14 ppt', cells: { [draft.cell]: '14 ppt' } }] : [];
	}
};

function undated({ run, walked }: Seen): Draft[] {
	const [first] = run.phases;
	if (!first || walked) return [];
	return [
		{
			date: null,
			phase: first.id,
			cell: `phases.${first.id}.starts`,
			message: 'No row says on which day the run begins.',
			because: 'Every row waits for another: one needs a date, such as `on 2026-11-27`.'
		}
	];
}

/** Rows that never end, with what waits behind them; or, where none has begun, the rows that wait for nothing that comes. */
function unplaced(seen: Seen): Draft[] {
	const all = seen.walked?.unplaced ?? [];
	const begun = all.filter((id) => seen.plan.phases.find((phase) => phase.id === id)?.from);
	const waiting = all.filter((id) => !begun.includes(id));
	if (begun.length > 0) return begun.map((id, i) => endless(seen, id, i === 0 ? waiting : []));
	return waiting.map((id) => ({
		date: null,
		phase: id,
		cell: `phases.${id}.starts`,
		message: `phases.${id} cannot be placed: what it waits for never comes.`,
		because: 'It has no day until the row it waits for has one.'
	}));
}

function endless(seen: Seen, id: string, waiting: readonly string[]): Draft {
	const from = seen.plan.phases.find((phase) => phase.id === id)?.from ?? null;
	const phase = phaseOf(seen, id);
	const held = withheld(seen, bottleOf(seen, phase?.medicine));
	const { cell, what } = phase ? waitsFor(seen, phase) : { cell: 'lasts', what: 'its end' };
	const behind =
		waiting.length > 0 ? ` ${waiting.join(', ')} wait${waiting.length === 1 ? 's' : ''} behind it.` : '';
	if (held)
		return {
			severity: 'note',
			date: from,
			phase: id,
			message: `phases.${id} has no end for now: its doses have no amount.`,
			because: `Doses wait because ${held}.${behind}`
		};
	return {
		date: from,
		phase: id,
		cell: `phases.${id}.${cell}`,
		message: `phases.${id} begins on ${from} and never ends: nothing in the plan brings about what it waits for.`,
		because: `It waits for ${what}.${behind}`
	};
}

/** A plan is walked so far and no further. */
export const planCut: Check = {
	rule: 'plan-cut',
	severity: 'caution',
	appliesTo: 'run',
	about: `a plan longer than ${LONGEST_PLAN_DAYS} days`,
	source: unsourced.J,
	find: ({ walked }) =>
		walked?.cut
			? [
					{
						date: null,
						phase: null,
						message: `The plan is cut after ${LONGEST_PLAN_DAYS} days.`,
						because: 'No quarantine takes more than a year: a row lasts too long or begins too late.'
					}
				]
			: []
};

/** A wall-clock time that a clock change skips. */
export const timeMoved: Check = {
	rule: 'time-moved',
	severity: 'note',
	appliesTo: 'task',
	about: 'a service at a local time that does not exist',
	source:
		'Temporal, disambiguation `compatible`: a time inside the gap moves forward by the gap (ECMA-262 proposal)',
	find: ({ run, plan }) =>
		firstPer(
			plan.tasks.filter(
				({ date, time }) =>
					!run.services.includes(time) &&
					servicesOf(run.timeZone, dayNumber(date), run.services, hoursBeside(run)(dayNumber(date))).some(
						(one) => one.gap && one.time === time
					)
			),
			({ at }) => at
		).map((task) => ({
			date: task.date,
			phase: task.phase,
			task: task.id,
			message: `The clocks go forward on ${task.date}: the service is at ${task.time}.`,
			because: `The written time (${[...run.services, ...hoursBeside(run)(dayNumber(task.date))].join(', ')}) does not exist on that day.`
		}))
};
