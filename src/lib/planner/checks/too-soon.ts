import { dayNumber, dayText } from '../../run/index.ts';
import type { Bottle } from '../bottle.ts';
import type { Task } from '../plan.ts';
import { figure } from '../words.ts';
import {
	bottlesIn,
	dosing,
	logOf,
	MS_PER_HOUR,
	type Candidate,
	type Check,
	type Draft,
	type Seen
} from './check.ts';
import { proposedDays } from './gap.ts';
import { dosesOf, GRACE_HOURS, HOURS_PER_DAY } from './jobs-apart.ts';

/** Days between two doses of the same medicine, whatever row or entry gives them. */
export const doseTooSoon: Check = {
	rule: 'dose-too-soon',
	severity: 'stop',
	appliesTo: 'task',
	about: 'two full doses of a medicine while the first still acts',
	source: 'a bath dose is never doubled: from memory',
	find: (seen) => bottlesIn(seen).flatMap((bottle) => doubled(seen, bottle) ?? []),
	repairs(draft, seen): Candidate[] {
		const given = dosing(seen).find(({ phase }) => phase.id === draft.phase);
		if (!given || !draft.cell || !draft.date) return [];
		const least = Math.ceil((given.bottle.contactDays * HOURS_PER_DAY - GRACE_HOURS) / HOURS_PER_DAY);
		const days = [...new Set([least, proposedDays(seen, given) ?? least])];
		if (draft.cell.endsWith('.repeat'))
			return days.map((n) => ({
				title: `Dose every ${n} days`,
				cells: { [draft.cell ?? '']: `every ${n} d` }
			}));
		const at = dayNumber(draft.date);
		return days.map((n) => ({
			title: `Begin phases.${given.phase.id} ${n} days later`,
			cells: { [draft.cell ?? '']: `on ${dayText(at + n)}` }
		}));
	}
};

interface Dosed {
	atMs: number;
	phase: string | null;
	task: Task | null;
	what: string;
}

/** Full doses, planned, given or logged outside the plan, in order of time. */
function dosedOf(seen: Seen, bottle: Bottle): Dosed[] {
	const done = new Map(
		logOf(seen).flatMap((entry) => (entry.kind === 'done' ? [[entry.task, entry.atMs] as const] : []))
	);
	const rows = dosing(seen).filter((given) => given.bottle === bottle && given.phase.kind !== 'hold');
	const planned = rows.flatMap(({ phase }) =>
		dosesOf(seen, phase.id).map((task): Dosed => ({
			atMs: done.get(task.id) ?? Date.parse(task.at),
			phase: phase.id,
			task,
			what: task.text
		}))
	);
	const extra =
		rows.length === 0
			? []
			: logOf(seen).flatMap((entry): Dosed[] =>
					entry.kind === 'dose' && entry.medicine === bottle.id
						? [{ atMs: entry.atMs, phase: null, task: null, what: 'a dose outside the plan' }]
						: []
				);
	return [...planned, ...extra].sort((a, b) => a.atMs - b.atMs);
}

function doubled(seen: Seen, bottle: Bottle): Draft | null {
	const doses = dosedOf(seen, bottle);
	const acts = bottle.contactDays * HOURS_PER_DAY;
	for (const [i, dose] of doses.entries()) {
		const before = doses[i - 1];
		const hours = before ? (dose.atMs - before.atMs) / MS_PER_HOUR : Infinity;
		if (!before || !dose.task || hours >= acts - GRACE_HOURS) continue;
		const sameRow = before.phase === dose.phase;
		return {
			date: dose.task.date,
			phase: dose.phase,
			cell: `phases.${dose.phase}.${sameRow ? 'repeat' : 'starts'}`,
			task: dose.task.id,
			message: `${dose.what} on ${dose.task.date} comes ${figure(hours, 0)} h after ${before.what}; a dose acts for ${figure(acts, 0)} h.`,
			because: 'Two doses on top of each other are a double dose.',
			source: bottle.row.contactHours.source
		};
	}
	return null;
}
