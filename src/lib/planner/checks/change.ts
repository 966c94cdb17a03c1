import { unsourced } from '../../formulary/index.ts';
import { dayNumber, dayText } from '../../run/index.ts';
import { figure } from '../words.ts';
import { moreChanges, rowOn } from './ammonia.ts';
import { dayAt, firstPer, logOf, NEAR, type Check, type Seen } from './check.ts';

const LONGEST_DAYS = 7;
const LEAST = 0.2;
const MOST = 0.5;

/** Days on which water is, or was, renewed; the salt of a rising step renews nothing. */
function changed(seen: Seen): string[] {
	const planned = seen.plan.tasks
		.filter(
			({ kind, fraction, state }) => (fraction !== undefined || kind === 'transfer') && state !== 'missed'
		)
		.map(({ date }) => date);
	const logged = logOf(seen).flatMap((entry) => (entry.kind === 'change' ? [dayAt(seen, entry.atMs)] : []));
	return [...planned, ...logged];
}

/** Something must renew the water at least once a week. */
export const weekWithoutChange: Check = {
	rule: 'week-without-change',
	severity: 'caution',
	appliesTo: 'tank',
	about: 'more than seven days without a water change',
	source: unsourced.CP,
	find(seen) {
		const { begins, tasks } = seen.plan;
		const end = seen.plan.release ?? tasks.at(-1)?.date;
		if (!begins || !end || seen.run.lots.length === 0) return [];
		const arrived = seen.run.lots.flatMap((lot) => lot.arrived ?? []).sort()[0] ?? begins;
		const start = arrived > begins ? arrived : begins;
		const marks = [...new Set([start, ...changed(seen), end])]
			.filter((day) => day >= start && day <= end)
			.sort();
		const today = dayAt(seen, seen.nowMs);
		const gap = marks.findIndex(
			(day, i) => i > 0 && day > today && dayNumber(day) - dayNumber(marks[i - 1] ?? day) > LONGEST_DAYS
		);
		const from = marks[gap - 1];
		const to = marks[gap];
		if (!from || !to) return [];
		const row = rowOn(seen, dayText(dayNumber(from) + LONGEST_DAYS)) ?? rowOn(seen, from);
		return [
			{
				date: from,
				phase: row?.id ?? null,
				...(row ? { cell: `phases.${row.id}.change` } : {}),
				message: `No water is changed from ${from} to ${to}, ${dayNumber(to) - dayNumber(from)} days.`,
				because: 'What no test shows gathers all the same; a bare tank is renewed at least weekly.'
			}
		];
	},
	repairs: (draft, seen) =>
		draft.cell
			? [
					{ title: 'Change a quarter weekly', cells: { [draft.cell]: '25% weekly' } },
					...moreChanges(seen, draft.phase)
				]
			: []
};

/** Smaller does little, larger shocks; wash-outs, moves and salinity steps are another matter. */
export const changeSize: Check = {
	rule: 'change-size',
	severity: 'note',
	appliesTo: 'phase',
	about: 'a planned change outside 20 to 50 percent',
	source: unsourced.CP,
	find: (seen) =>
		firstPer(
			seen.plan.tasks.filter(
				({ kind, fraction, urgent }) =>
					kind === 'change' &&
					!urgent &&
					fraction !== undefined &&
					(fraction < LEAST - NEAR || fraction > MOST + NEAR)
			),
			({ phase }) => phase
		).map((task) => {
			const share = task.fraction ?? 0;
			return {
				date: task.date,
				phase: task.phase,
				cell: `phases.${task.phase}.change`,
				message: `Changes of ${figure(share * 100, 1)} % in phases.${task.phase} are outside ${LEAST * 100} to ${MOST * 100} %.`,
				because:
					share < LEAST
						? `One of ${figure(share * 100, 1)} % leaves ${figure((1 - share) * 100, 1)} % of what it was made for.`
						: 'Larger ones shock fish unless temperature, salinity and pH are all matched.'
			};
		}),
	repairs(draft, seen) {
		const change = seen.run.phases.find(({ id }) => id === draft.phase)?.change;
		if (!draft.cell || !change || 'auto' in change) return [];
		const share = change.fraction < LEAST ? LEAST : MOST;
		const when =
			'beforeDose' in change
				? 'before dose'
				: 'everyDays' in change.repeat
					? `every ${change.repeat.everyDays} d`
					: null;
		return when
			? [{ title: `Change ${share * 100} %`, cells: { [draft.cell]: `${share * 100}% ${when}` } }]
			: [];
	}
};
