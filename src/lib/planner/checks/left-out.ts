import { unsourced } from '../../formulary/index.ts';
import { levelText } from '../words.ts';
import { called, dosing, firstPer, withheld, type Check } from './check.ts';

/** A series whose doses fall away because nothing is missing when their day comes. */
export const dosesLeftOut: Check = {
	rule: 'doses-left-out',
	severity: 'caution',
	appliesTo: 'phase',
	about: 'doses that a row asks for and the plan does not have, as the level never falls',
	source: unsourced.J,
	find: (seen) =>
		dosing(seen).flatMap(({ phase, bottle, from, to }) => {
			const asked = phase.lasts && 'doses' in phase.lasts ? phase.lasts.doses : 0;
			const doses = seen.plan.tasks.filter(
				({ kind, phase: of, id }) => kind === 'dose' && of === phase.id && !id.includes('.')
			);
			const planned = firstPer(doses, ({ id }) => id).length;
			// what waits for a retest, or was never placed, is said elsewhere
			if (to === null || planned === 0 || planned >= asked || withheld(seen, bottle)) return [];
			const level = (phase.level ?? bottle.medicine.level)?.high;
			if (level === undefined) return [];
			return [
				{
					date: from,
					phase: phase.id,
					cell: `phases.${phase.id}.change`,
					message: `phases.${phase.id} asks for ${asked} doses of ${called(bottle)}; only ${planned} can be given.`,
					because: `It is topped up to ${levelText(bottle, level)} and never past it: without a change before the dose the forecast, at the least loss, finds nothing missing.`
				}
			];
		}),
	repairs: ({ cell }) =>
		cell ? [{ title: 'Change half before each dose', cells: { [cell]: '50% before dose' } }] : []
};
