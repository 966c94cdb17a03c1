import { gapBounds, methods, unsourced } from '../../formulary/index.ts';
import { dayNumber, dayText } from '../../run/index.ts';
import type { Bottle } from '../bottle.ts';
import { targetOf } from '../phases/pulse.ts';
import type { Task } from '../plan.ts';
import { figure } from '../words.ts';
import {
	ahead,
	bottlesIn,
	called,
	dosing,
	logOf,
	MS_PER_HOUR,
	phaseOf,
	type Candidate,
	type Check,
	type Draft,
	type Given,
	type Seen
} from './check.ts';

const HOURS_PER_DAY = 24;
/** Hands are early or late by this much, and a spring day has 23 hours. */
const GRACE_HOURS = 2;

/** The doses of a row, without those that only give back what a change took. */
const dosesOf = ({ plan }: Seen, id: string): Task[] =>
	plan.tasks.filter(
		(task) => task.phase === id && task.kind === 'dose' && !task.id.includes('.') && task.state !== 'missed'
	);

/** Jobs with the one before each, where the two belong to the same round: a series begun anew counts from there. */
function pairs(seen: Seen, phase: string, jobs: readonly Task[]): [Task, Task][] {
	const anew = logOf(seen).flatMap((entry) =>
		entry.kind === 'choice' && entry.taken === 'restart' && entry.task.startsWith(`${phase}/`)
			? [entry.atMs]
			: []
	);
	return jobs.slice(1).flatMap((job, i): [Task, Task][] => {
		const before = jobs[i];
		if (!before) return [];
		const [from, to] = [Date.parse(before.at), Date.parse(job.at)];
		return anew.some((atMs) => from < atMs && atMs <= to) ? [] : [[before, job]];
	});
}

/** Days by the clock on the wall; work that is early or late by the grace is of the same hour. */
function daysBetween(before: Task, dose: Task): number {
	const days = wallDay(dose) - wallDay(before);
	const whole = Math.round(days);
	return Math.abs(days - whole) * HOURS_PER_DAY <= GRACE_HOURS ? whole : days;
}

const wallDay = ({ date, time }: Task) =>
	dayNumber(date) +
	Number(time.slice(0, 2)) / HOURS_PER_DAY +
	Number(time.slice(3, 5)) / (HOURS_PER_DAY * 60);

/** The first dose of a row that comes so many days after the one before. */
function wrongGap(doses: readonly [Task, Task][], wrong: (days: number) => boolean) {
	for (const [before, dose] of doses) {
		const days = daysBetween(before, dose);
		if (wrong(days)) return { dose, days };
	}
	return null;
}

/** A second dose before the last egg has hatched, or after new worms lay. */
export const pulseGap: Check = {
	rule: 'pulse-gap',
	severity: 'stop',
	appliesTo: 'phase',
	about: 'a second dose too early or too late for the life cycle at this temperature',
	source: 'the life cycles of the shelf',
	find: (seen) =>
		dosing(seen)
			.filter(({ phase }) => phase.kind === 'pulse')
			.flatMap((given) => lifeCycleGap(seen, given) ?? courseGap(seen, given) ?? []),
	repairs(draft, seen) {
		const given = dosing(seen).find(({ phase }) => phase.id === draft.phase);
		if (!given || !draft.cell) return [];
		const days = proposedDays(seen, given);
		const moves = Object.keys(seen.run.moves).filter((id) => id.startsWith(`${given.phase.id}/dose/`));
		return [
			...(moves.length > 0
				? [
						{
							title: 'Put moved doses back on their days',
							cells: Object.fromEntries(moves.map((id) => [`moves|${id}`, null]))
						}
					]
				: []),
			...(days === null
				? []
				: [{ title: `Dose every ${days} days`, cells: { [draft.cell]: `every ${days} d` } }])
		];
	}
};

function proposedDays({ run: { tank } }: Seen, { phase, bottle }: Given): number | null {
	const target = targetOf(phase, bottle);
	const bounds = target && tank.temperatureC !== null ? gapBounds(target, tank.temperatureC) : null;
	return bounds?.ok ? bounds.value.proposedDays : (bottle.row.course?.value.gapDays ?? null);
}

function lifeCycleGap(seen: Seen, { phase, bottle }: Given): Draft | null {
	const { temperatureC } = seen.run.tank;
	const target = targetOf(phase, bottle);
	const doses = dosesOf(seen, phase.id);
	if (!target || temperatureC === null || doses.length < 2) return null;
	const cell = `phases.${phase.id}.repeat`;
	const bounds = gapBounds(target, temperatureC);
	if (!bounds.ok)
		return bounds.problem.code === 'gap-temperature'
			? {
					severity: 'caution',
					date: null,
					phase: phase.id,
					cell,
					message: `No timetable of ${target} is known at ${figure(temperatureC, 1)} °C: nobody can say when the second dose is due.`,
					because: `Eggs hatch later the colder it is; known is ${bounds.problem.expected}.`
				}
			: null;
	const { earliestDays, latestDays, because, source } = bounds.value;
	const wrong = wrongGap(pairs(seen, phase.id, doses), (days) => days < earliestDays || days >= latestDays);
	if (!wrong) return null;
	const late = wrong.days >= latestDays;
	return {
		severity: late ? 'stop' : 'caution',
		date: wrong.dose.date,
		phase: phase.id,
		cell,
		message: `The dose of ${wrong.dose.date} comes ${figure(wrong.days, 1)} days after the one before; at ${figure(temperatureC, 1)} °C it belongs on day ${earliestDays} to ${latestDays - 1}.`,
		because: `${because.charAt(0).toUpperCase()}${because.slice(1)}${late ? ': a late dose meets the next generation’s eggs' : ': an early one meets eggs, which outlive it'}.`,
		source
	};
}

/** Where no life cycle sets the time: not sooner than the course on record. */
function courseGap(seen: Seen, { phase, bottle, from, to }: Given): Draft | null {
	const course = bottle.row.course;
	const least = bottle.medicine.gapDays ?? course?.value.gapDays;
	const timed = targetOf(phase, bottle);
	if (
		least === undefined ||
		(timed && seen.run.tank.temperatureC !== null && gapBounds(timed, seen.run.tank.temperatureC).ok)
	)
		return null;
	const wrong = wrongGap(pairs(seen, phase.id, dosesOf(seen, phase.id)), (days) => days < least);
	if (!wrong) return writtenGap({ phase, bottle, from, to }, least);
	return {
		severity: 'caution',
		date: wrong.dose.date,
		phase: phase.id,
		cell: `phases.${phase.id}.repeat`,
		message: `The dose of ${wrong.dose.date} comes ${figure(wrong.days, 1)} day${wrong.days === 1 ? '' : 's'} after the one before; a course of ${called(bottle)} leaves ${least} between.`,
		because: 'Sooner than that, fish bear more of it than the course on record was tried with.',
		source: bottle.medicine.gapDays === undefined ? course?.source : 'the gap of the bottle in the plan'
	};
}

/** The gap as the row writes it, where doses that fall away hide it. */
function writtenGap({ phase, bottle, from }: Given, least: number): Draft | null {
	const days = phase.repeat && 'everyDays' in phase.repeat ? phase.repeat.everyDays : least;
	const several = phase.lasts && 'doses' in phase.lasts && phase.lasts.doses > 1;
	if (!several || days >= least) return null;
	return {
		severity: 'caution',
		date: from,
		phase: phase.id,
		cell: `phases.${phase.id}.repeat`,
		message: `phases.${phase.id} doses every ${figure(days, 0)} day${days === 1 ? '' : 's'}; a course of ${called(bottle)} leaves ${least} between.`,
		because: 'Sooner than that, fish bear more of it than the course on record was tried with.',
		source:
			bottle.medicine.gapDays === undefined ? bottle.row.course?.source : 'the gap of the bottle in the plan'
	};
}

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

/** Cysts open from day 3: a later move carries the disease along. */
export const transferGap: Check = {
	rule: 'transfer-gap',
	severity: 'stop',
	appliesTo: 'phase',
	about: 'moves further apart than 72 hours and six of grace',
	source: 'Colorni 1985: moves 3 days apart; six hours of grace: judgment, no source',
	find: (seen) =>
		seen.run.phases
			.filter(({ kind }) => kind === 'transfer')
			.flatMap(({ id }): Draft[] => {
				const moves = seen.plan.tasks.filter(
					(task) => task.phase === id && task.kind === 'transfer' && task.state !== 'missed'
				);
				const { hoursApart, graceHours, restartHours } = methods.transfer;
				const most = (hoursApart?.value ?? 0) + (graceHours?.value ?? 0);
				for (const [before, move] of pairs(seen, id, moves)) {
					const hours = (Date.parse(move.at) - Date.parse(before.at)) / MS_PER_HOUR;
					if (hours <= most) continue;
					const restart = restartHours && hours >= restartHours.value;
					return [
						{
							date: move.date,
							phase: id,
							cell: `phases.${id}.repeat`,
							message: `The move of ${move.date} comes ${figure(hours, 0)} h after the one before; ${most} h is the most.`,
							because: `Cysts open from day 3 on: what hatched has found the fish again${restart ? `, and after ${restartHours.value} h the series starts again` : ''}.`
						}
					];
				}
				return [];
			}),
	repairs: (draft) => [{ title: 'Move every 72 hours', cells: { [draft.cell ?? '']: 'every 3 d' } }]
};

/** A move needs a place to move to. */
export const spareMissing: Check = {
	rule: 'spare-missing',
	severity: 'note',
	appliesTo: 'phase',
	about: 'a move without a second tank in the plan',
	source: unsourced.CP,
	find(seen) {
		const move = ahead(seen).find(({ kind }) => kind === 'transfer');
		if (seen.run.spare || !move || phaseOf(seen, move.phase)?.kind !== 'transfer') return [];
		return [
			{
				date: move.date,
				phase: move.phase,
				cell: 'spare',
				message: `The fish move on ${move.date}, and the plan names no second tank.`,
				because:
					'Two suffice if each is stripped, disinfected and dried between moves; its own volume counts for what is dosed there.'
			}
		];
	},
	repairs: () => [{ title: 'Add a second tank', cells: { spare: { name: 'Second tank' } } }]
};
