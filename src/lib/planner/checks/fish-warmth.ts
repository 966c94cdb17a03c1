import { unsourced } from '../../formulary/index.ts';
import { figure } from '../words.ts';
import { NEAR, type Check } from './check.ts';

/** What tropical marine fish are kept at, and what they do not stand for long (common practice, no source). */
const FINE_C = { low: 22, high: 28 };
const BORNE_C = { low: 18, high: 31 };

const toCelsius = (fahrenheit: number) => ((fahrenheit - 32) * 5) / 9;
const toFahrenheit = (celsius: number) => (celsius * 9) / 5 + 32;
const fine = (c: number) => c >= FINE_C.low - NEAR && c <= FINE_C.high + NEAR;

/** The number itself, read in the other scale, if that is what a tank has: `26 F` or `79 C`. */
function otherScale(temperatureC: number): string {
	const typed = figure(toFahrenheit(temperatureC), 1);
	if (fine(toFahrenheit(temperatureC))) return `, or ${typed} °C is meant and not ${typed} °F`;
	const shown = figure(temperatureC, 1);
	return fine(toCelsius(temperatureC)) ? `, or ${shown} °F is meant and not ${shown} °C` : '';
}

/** Water that the fish cannot live in, or live in badly. */
export const fishTemperature: Check = {
	rule: 'fish-temperature',
	severity: 'stop',
	appliesTo: 'fish',
	about: 'a tank colder or warmer than tropical marine fish stand',
	source: unsourced.CP,
	find({ run: { tank } }) {
		const { temperatureC } = tank;
		if (temperatureC === null || fine(temperatureC)) return [];
		const borne = temperatureC >= BORNE_C.low - NEAR && temperatureC <= BORNE_C.high + NEAR;
		return [
			{
				severity: borne ? 'caution' : 'stop',
				date: null,
				phase: null,
				cell: 'tank.temperature',
				message: `The tank is at ${figure(temperatureC, 1)} °C${otherScale(temperatureC)}; tropical marine fish are kept at ${FINE_C.low} to ${FINE_C.high} °C.`,
				because: `${
					temperatureC < FINE_C.low
						? 'In colder water they stop eating, their defence fails, and parasites keep another time than the plan counts on.'
						: 'Warmer water holds less oxygen, and medicines bite harder in it.'
				}${borne ? '' : ` Outside ${BORNE_C.low} to ${BORNE_C.high} °C few live long.`}`
			}
		];
	}
};
