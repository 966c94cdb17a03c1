import { gapBounds } from '../../formulary/index.ts';
import { targetOf } from '../phases/pulse.ts';
import { figure } from '../words.ts';
import { called, dosing, type Check, type Draft, type Given, type Seen } from './check.ts';
import { dosesOf, pairs, wrongGap } from './jobs-apart.ts';

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

/** Days between two doses that the life cycle, or else the course on record, proposes; null if neither is known. */
export function proposedDays({ run: { tank } }: Seen, { phase, bottle }: Given): number | null {
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
