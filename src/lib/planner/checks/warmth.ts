import { unsourced } from '../../formulary/index.ts';
import { figure } from '../words.ts';
import { dayAt, logOf, NEAR, type Check } from './check.ts';

const MOST_C = 2;

/** The heater holds more loosely than fish and life cycles bear, or a reading says so. */
export const heatLoose: Check = {
	rule: 'heat-loose',
	severity: 'caution',
	appliesTo: 'tank',
	about: 'temperature not held within two degrees',
	source: unsourced.CP,
	find(seen) {
		const { heaterWithinC: within, temperatureC: wanted } = seen.run.tank;
		const because = `Swings of more than ${MOST_C} °C weaken fish; cysts and eggs also keep another time than the plan counts on.`;
		const loose =
			within !== null && within > MOST_C + NEAR
				? [
						{
							date: null,
							phase: null,
							cell: 'tank.heater.holdsWithin',
							message: `The heater holds within ${figure(within, 1)} °C; ${MOST_C} °C is the most.`,
							because
						}
					]
				: [];
		const last = logOf(seen).findLast((entry) => entry.kind === 'reading' && entry.what === 'T');
		if (last?.kind !== 'reading' || wanted === null || Math.abs(last.value - wanted) <= MOST_C + NEAR)
			return loose;
		return [
			...loose,
			{
				date: dayAt(seen, last.atMs),
				phase: null,
				cell: 'tank.temperature',
				message: `The latest reading is ${figure(last.value, 1)} °C, the plan counts on ${figure(wanted, 1)} °C.`,
				because: `${because} Bring it back by 1 °C an hour at most.`
			}
		];
	},
	repairs: (draft) =>
		draft.cell === 'tank.heater.holdsWithin'
			? [{ title: 'Use a heater that holds within 1 °C', cells: { 'tank.heater.holdsWithin': '1 C' } }]
			: []
};
