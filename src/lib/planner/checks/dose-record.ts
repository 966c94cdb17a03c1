import { unsourced } from '../../formulary/index.ts';
import { dayText } from '../../run/index.ts';
import type { Bottle } from '../bottle.ts';
import { slippedUnit } from '../slipped-unit.ts';
import { levelText } from '../words.ts';
import type { Doubt } from '../doubt.ts';
import { bottlesIn, called, dosing, type Check, type Draft, type Seen } from './check.ts';

const doubts = (seen: Seen): { bottle: Bottle; doubt: Doubt }[] =>
	bottlesIn(seen).flatMap((bottle) => {
		const doubt = seen.walked?.walk.doubts[bottle.index];
		return doubt ? [{ bottle, doubt }] : [];
	});

const rowOf = (seen: Seen, bottle: Bottle) =>
	dosing(seen).find((given) => given.bottle === bottle)?.phase.id ?? null;

/** The last reading of a medicine, with the day it was made. */
function reading(seen: Seen, bottle: Bottle) {
	const readings = seen.walked?.walk.readings;
	const last = readings?.get(bottle.measuredAs) ?? readings?.get(bottle.id);
	return last && { value: last.value, day: dayText(Math.floor(last.wall)) };
}

/** A dose nobody answered for: what is in the water is not known. */
export const doseUnanswered: Check = {
	rule: 'dose-unanswered',
	severity: 'stop',
	appliesTo: 'log',
	about: 'a dose of an earlier service that nobody logged',
	source: 'a bath dose is never doubled: from memory',
	find: (seen) =>
		doubts(seen).flatMap(({ bottle, doubt }): Draft[] => {
			const due = doubt.unanswered === null ? undefined : seen.walked?.walk.due.get(doubt.unanswered);
			if (!due) return [];
			return [
				{
					date: due.task.date,
					phase: due.task.phase,
					task: due.task.id,
					message: `Nobody logged whether ${due.task.text} of ${due.task.date} was given.`,
					because: `What is in the water is not known, so no later dose of ${called(bottle)} has an amount: log it as done or missed, or read the level.`
				}
			];
		})
};

/** A reading that cannot be true, or that is not safe: no dose until a retest. */
export const readingDoubtful: Check = {
	rule: 'reading-doubtful',
	severity: 'stop',
	appliesTo: 'log',
	about: 'a reading above the ceiling, or ten-fold off the forecast',
	source: unsourced.J,
	find: (seen) =>
		doubts(seen).flatMap(({ bottle, doubt }): Draft[] => {
			const last = reading(seen, bottle);
			if (!doubt.implausible || !last) return [];
			const over = bottle.ceiling !== null && last.value > bottle.ceiling;
			return [
				{
					date: last.day,
					phase: rowOf(seen, bottle),
					message: over
						? `${bottle.row.name} was read at ${levelText(bottle, last.value)} on ${last.day}, over its ceiling of ${levelText(bottle, bottle.ceiling ?? 0)}.`
						: `${bottle.row.name}, ${last.day}: ${doubt.implausible}.`,
					because: over
						? doubt.tenfold !== null
							? `That is ${slippedUnit(last.value, doubt.tenfold, bottle.row.unit)}. Read the unit and the scale again, and test again at once. If that confirms it the fish are in danger: look at them, change water; nothing is given to make up for the change. No dose has an amount until then.`
							: 'If it is true the fish are in danger: look at them, change water, read again; nothing is given to make up for the change. No dose has an amount until then.'
						: 'A wrong unit, scale or slip of the pen, or a dose gone wrong: read again. No dose has an amount until then.'
				}
			];
		})
};

/** A low reading that nobody has confirmed: half an answer until a second one. */
export const readingUnconfirmed: Check = {
	rule: 'reading-unconfirmed',
	severity: 'caution',
	appliesTo: 'log',
	about: 'a reading below the floor that the forecast contradicts',
	source: unsourced.J,
	find: (seen) =>
		bottlesIn(seen).flatMap((bottle): Draft[] => {
			const asks = doubts(seen).find(({ bottle: of }) => of === bottle)?.doubt.asks;
			if (!asks) return [];
			const date = dayText(Math.floor(asks.wall));
			return [
				{
					date,
					phase: rowOf(seen, bottle),
					cell: `log.${asks.id}`,
					message: `${bottle.row.name} was read at ${levelText(bottle, asks.read)} on ${date}, where ${levelText(bottle, asks.forecast)} was expected.`,
					because:
						'Read again: until a second reading says the same, the make-up stays so small that even the forecast would not pass the ceiling with it.'
				}
			];
		})
};
