import { nh3Share } from './hand-tank.ts';
import { says } from './says.ts';
import type { Part } from './sweep.ts';

/** A bag off a long journey, as rules of long-time keepers have it for an example: 8 mg/L TAN at 24 °C, 27 ppt and pH 6.8. */
export const bag = { tan: 8, temperature: 24, salinity: 27, pH: 6.8, fish: 4, grams: 28, breaths: 80 };

/** The toxic share of what is in the bag, there and in the tank of pH 8.1. */
const toxic = (pH: number) =>
	String(Number((bag.tan * nh3Share(bag.temperature, bag.salinity, pH)).toPrecision(3)));

/** The fish bear a step of 1 ppt (common practice, no source), and 2 ppt a day from there. */
const daysUp = Math.ceil((34 - bag.salinity) / 2);

const typed = [
	`${bag.temperature} C`,
	`${bag.salinity} ppt`,
	`${bag.pH}`,
	`${bag.tan} mg/L`,
	`${bag.fish}`,
	`${bag.grams} g`,
	`${bag.breaths}`
];
const examples = ['24 C', '27 ppt', '6.8', '8 mg/L', '5', '64 g', '80'];

/** The record in the log. */
export const arrivalWords = `Banded cardinalfish: ${bag.breaths} breaths a minute, arrived in a bag of ${bag.temperature} °C, ${bag.salinity} ppt, pH ${bag.pH}, ammonia ${bag.tan} mg/L as TAN, ${bag.fish} fish, ${bag.grams} g`;

/** The record of the arrival, filled in. */
export const arrivalParts = (): Part[] => [
	{
		where: '[aria-label="What the bag says"]',
		says: [
			says`Toxic ammonia (NH₃-N) is ${toxic(bag.pH)} mg/L in the bag at its pH, and would be ${toxic(8.1)} mg/L at the tank’s pH of 8.1. Bell et al. 2007; act at 0.02, common practice, no source.`,
			says`Bring the tank down to ${bag.salinity} ppt before the bag is opened, then raise it by at most 2 ppt a day: ${daysUp} days back to 34 ppt. Common practice, no source.`
		]
	},
	{
		where: 'html',
		says: [
			says`Arrival in Banded cardinalfish, Bay 4 · Lazaret`,
			says`Banded cardinalfish, Bay 4`,
			says`Open it and move the fish within 10 to 15 minutes, by hand or net. The bag’s water goes to the drain.`,
			says`Raise the salinity afterwards, at most 2 ppt a day.`,
			...[...typed, ...examples].map((text) => says`${text}`)
		]
	}
];
