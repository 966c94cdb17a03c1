import { unsourced } from '../../formulary/index.ts';
import {
	fishOxygenMgPerKgPerHour,
	formalinOxygenMgPerL,
	oxygenFloorMgPerL,
	oxygenMargin
} from '../../water/index.ts';
import { figure } from '../words.ts';
import { called, dosing, type Check, type Given, type Seen } from './check.ts';

/** Always aerate while medicating. */
export const noAir: Check = {
	rule: 'no-air',
	severity: 'stop',
	appliesTo: 'tank',
	about: 'no aeration while medicating',
	source: unsourced.CP,
	find(seen) {
		const { aeration } = seen.run.tank;
		const first = dosing(seen).find(({ bottle }) => bottle.row.oxygenDemand) ?? dosing(seen)[0];
		if (!first || (aeration !== 'none' && aeration !== null)) return [];
		const { phase, bottle, from } = first;
		return [
			{
				severity: aeration === 'none' ? 'stop' : 'note',
				date: from,
				phase: phase.id,
				cell: 'tank.aeration',
				message:
					aeration === 'none'
						? `No air runs in the tank when ${called(bottle)} begins on ${from}.`
						: `Nothing says that air runs in the tank when ${called(bottle)} begins on ${from}.`,
				because: demandOf(first)
			}
		];
	},
	repairs: () => [{ title: 'Run coarse air', cells: { 'tank.aeration': 'coarse' } }]
};

function demandOf({ phase, bottle }: Given): string {
	const demand = bottle.row.oxygenDemand?.value;
	if (!demand) return 'Sick fish breathe harder, and a bare tank takes up little oxygen by itself.';
	const level = phase.level?.high ?? demand.perLevel;
	const perHour = (demand.mgPerLPerHour * level) / demand.perLevel;
	return `${figure(level, 1)} ${bottle.row.unit} uses oxygen itself, about ${figure(perHour, 2)} mg/L an hour, of some 6.7 mg/L that warm sea water holds.`;
}

/** Fine bubbles carry an oily botanical out of the water as foam; a skimmer is made to do that. */
export const foaming: Check = {
	rule: 'foaming',
	severity: 'caution',
	appliesTo: 'tank',
	about: 'fine bubbles or a skimmer with a medicine that foams',
	source: unsourced.CP,
	find: (seen) =>
		dosing(seen).flatMap(({ phase, bottle, from }) => {
			const { aeration, skimmer } = seen.run.tank;
			const oily = bottle.row.active.startsWith('botanical');
			const taken = bottle.row.removedBy.value.some((by) => by === 'skimmer');
			const by = oily && aeration === 'fine' ? 'aeration' : skimmer && !taken ? 'skimmer' : null;
			if (!bottle.row.foams.value || !by) return [];
			return [
				{
					date: from,
					phase: phase.id,
					cell: `tank.${by}`,
					message: `${by === 'aeration' ? 'Fine bubbles carry' : 'The skimmer carries'} ${called(bottle)} out of the water as foam.`,
					because:
						by === 'aeration'
							? 'Coarse bubbles aerate as well and leave it in.'
							: 'It overflows and throws the medicine out: off while it acts.',
					source: bottle.row.foams.source
				}
			];
		}),
	repairs: ({ cell }) =>
		cell === 'tank.skimmer'
			? [{ title: 'Turn the skimmer off for the course', cells: { 'tank.skimmer': false } }]
			: [{ title: 'Run coarse air', cells: { 'tank.aeration': 'coarse' } }]
};

/** Too little time if the air stops in the night: nobody is woken by a quiet pump. */
const LEAST_HOURS = 6;

/** Formalin, warmth and fish take oxygen together. With air in the tank this is a caution at most. */
export const oxygenScarce: Check = {
	rule: 'oxygen-scarce',
	severity: 'caution',
	appliesTo: 'tank',
	about: 'how long the oxygen lasts if the air stops: medicine, warmth and load together',
	source: `UF/IFAS VM-77: 1 mg/L oxygen per 5 mg/L formalin; ${fishOxygenMgPerKgPerHour.usual} mg per kg of fish and hour ${unsourced.M}`,
	find(seen) {
		const { tank, source } = seen.run;
		const salinityPpt = tank.salinityPpt ?? source.salinityPpt;
		if (tank.netL === null || tank.temperatureC === null || salinityPpt === null) return [];
		const first = dosing(seen).find(({ bottle }) => bottle.row.oxygenDemand) ?? dosing(seen)[0];
		if (!first) return [];
		const level = first.bottle.row.oxygenDemand ? (first.phase.level?.high ?? 0) : 0;
		const margin = oxygenMargin({
			temperatureC: tank.temperatureC,
			salinityPpt,
			volumeL: tank.netL,
			fishMassG: fishMassG(seen),
			formalinUlPerL: level
		});
		const hours = margin.ok ? margin.value.hoursWithoutAir : null;
		if (!margin.ok || hours === null || hours >= LEAST_HOURS) return [];
		const taken =
			level > 0
				? ` ${figure(level, 0)} ${first.bottle.row.unit} takes ${figure(formalinOxygenMgPerL(level), 0)} mg/L in all;`
				: '';
		return [
			{
				severity: level > 0 ? 'caution' : 'note',
				date: first.from,
				phase: first.phase.id,
				cell: level > 0 ? `phases.${first.phase.id}.level` : 'tank.aeration',
				message: `If the air stops, oxygen falls from ${figure(margin.value.saturationMgPerL, 1)} to ${oxygenFloorMgPerL} mg/L in about ${figure(hours, 1)} h.`,
				because: `At ${figure(tank.temperatureC, 1)} °C${taken ? ':' : ''}${taken} the fish take ${figure(margin.value.fishMgPerLPerHour, 2)} mg/L an hour: two air stones on two pumps, one of them on a battery.`
			}
		];
	}
};

const fishMassG = ({ run }: Seen): number => run.lots.reduce((sum, { massG }) => sum + (massG ?? 0), 0);
