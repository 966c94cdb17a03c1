import { formalinOxygenMgPerL, oxygenFloorMgPerL, oxygenMargin } from '../../water/index.ts';
import { figure } from '../words.ts';
import { dosing, type Check } from './check.ts';

/** Too little time if the air stops: nobody is woken by a quiet pump. */
const LEAST_HOURS = 6;

/** Formalin, warmth and fish take oxygen together. */
export const oxygenScarce: Check = {
	rule: 'oxygen-scarce',
	severity: 'caution',
	about: 'oxygen with formalin, heat and load',
	source: 'UF/IFAS VM-77 (1 mg/L oxygen per 5 uL/L formalin); rates of fish from memory',
	find(seen) {
		const { tank, source, lots } = seen.run;
		const salinityPpt = tank.salinityPpt ?? source.salinityPpt;
		const formalin = dosing(seen).find(({ bottle }) => bottle.row.oxygenDemand !== null);
		if (
			!formalin ||
			tank.netL === null ||
			tank.temperatureC === null ||
			salinityPpt === null ||
			tank.aeration === 'none'
		)
			return [];
		const level = formalin.phase.level?.high ?? 0;
		const margin = oxygenMargin({
			temperatureC: tank.temperatureC,
			salinityPpt,
			volumeL: tank.netL,
			fishMassG: lots.reduce((sum, { massG }) => sum + (massG ?? 0), 0),
			formalinUlPerL: level
		});
		const hours = margin.ok ? margin.value.hoursWithoutAir : null;
		if (!margin.ok || hours === null || hours >= LEAST_HOURS) return [];
		return [
			{
				date: formalin.from,
				phase: formalin.phase.id,
				cell: `phases.${formalin.phase.id}.level`,
				message: `If the air stops, oxygen falls from ${figure(margin.value.saturationMgPerL, 1)} to ${oxygenFloorMgPerL} mg/L in about ${figure(hours, 1)} h.`,
				because: `${figure(level, 0)} uL/L takes ${figure(formalinOxygenMgPerL(level), 0)} mg/L in all, the fish ${figure(margin.value.fishMgPerLPerHour, 2)} mg/L an hour: two air stones on two pumps.`
			}
		];
	}
};
