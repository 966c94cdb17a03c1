import { medicines, unsourced } from '../../formulary/index.ts';
import { figure, levelText } from '../words.ts';
import { dosing, type Check } from './check.ts';

/** Chelated copper held at so little is on the scale of ionic copper (judgment, no source). */
const TIMES_IONIC = 2;

/** The window of ionic copper written for chelated copper, which is read as total copper. */
export const ionicWindow: Check = {
	rule: 'ionic-window',
	severity: 'caution',
	appliesTo: 'medicine',
	about: 'chelated copper held in the window of ionic copper',
	source: unsourced.J,
	find: (seen) =>
		dosing(seen).flatMap(({ phase, bottle, from }) => {
			const ionic = medicines['copper-ionic'].window?.value;
			const level = phase.level ?? bottle.medicine.level;
			if (bottle.row.active !== 'copper-chelated' || !ionic || !level) return [];
			if (level.high > TIMES_IONIC * ionic.high) return [];
			return [
				{
					date: from,
					phase: phase.id,
					cell: `phases.${phase.id}.level`,
					message: `phases.${phase.id} holds ${level.low < level.high ? `${figure(level.low, 3)} to ` : ''}${levelText(bottle, level.high)} of chelated copper: that looks like the window of ionic copper.`,
					because:
						'Chelated copper is read as total copper and works at several times the ionic figures: at this level days would be credited while the parasite lives. Take the range from the label of the bottle.'
				}
			];
		})
};
