import { unsourced } from '../../formulary/index.ts';
import { amountText, figure } from '../words.ts';
import { ahead, bottleOf, called, firstPer, NEAR, type Check } from './check.ts';

/** More of a liquid than this share of the water it goes into is no dose but a slip in the strength (judgment, no source). */
const MOST_SHARE = 0.02;

/** A volume of medicine that no keeper pours: the strength of the bottle was mistyped, most often mg/L for mg/mL. */
export const doseTooBig: Check = {
	rule: 'dose-too-big',
	severity: 'stop',
	appliesTo: 'task',
	about: 'one dose of a liquid that is more than a few per cent of the water it goes into',
	source: unsourced.J,
	find(seen) {
		const { netL } = seen.run.tank;
		const big = ahead(seen).flatMap((task) => {
			const bottle = bottleOf(seen, task.medicine);
			const row = seen.run.phases.find(({ id }) => id === task.phase);
			const waterL = task.kind === 'dip' ? (row?.bathL ?? null) : task.kind === 'dose' ? netL : null;
			if (!bottle || waterL === null || task.amount?.unit !== 'mL') return [];
			const { amount } = task;
			const share = amount.value / 1000 / waterL;
			return share > MOST_SHARE + NEAR ? [{ task, amount, bottle, share, waterL }] : [];
		});
		return firstPer(big, ({ bottle }) => bottle.id).map(({ task, amount, bottle, share, waterL }) => ({
			date: task.date,
			phase: task.phase,
			cell: `medicines.${bottle.id}.strength`,
			task: task.id,
			message: `One dose of ${called(bottle)} comes to ${amountText(amount)}, ${figure(share * 100, 1)} % of ${figure(waterL, 1)} L of water: do not pour it.`,
			because: `No bottle of ${called(bottle)} is that thin: one dose is far less than ${MOST_SHARE * 100} % of the water. Read the strength off the label again: mg/L may stand for mg/mL, a thousand times stronger, or a zero may be lost.`
		}));
	}
};
