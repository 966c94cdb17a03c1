import { read, zeroCelsiusK, type Read } from '../units/index.ts';
import { shareAt, type AmmoniaWater } from './ammonia.ts';
import { polynomial } from './density.ts';
import { outsideAny, type Range } from './range.ts';

/** Which hydrogen ion a pH counts: with what sulfate holds (total) or without (free). Ordinary buffers sit nearer to free. */
export type PhScale = 'total' | 'free';

export const cleggWhitfieldRanges = {
	temperature: { name: 'temperature', unit: '°C', low: -2, high: 40 },
	salinity: { name: 'salinity', unit: 'ppt', low: 0, high: 40 },
	pH: { name: 'pH', unit: '', low: 4, high: 12 }
} as const satisfies Record<string, Range>;

/**
 * Un-ionised share by Clegg and Whitfield 1995 (Geochim. Cosmochim. Acta 59:2403-2421), for comparison only; accuracy
 * about 5 %. Coefficients of the total scale from memory, found right against the printed examples of the R package
 * wq. The free scale is derived from the total one with Dickson 1990 for bisulfate (from memory), within 0.0001 of
 * those examples. Holds from -2 to 40 °C and 0 to 40 ppt, else a problem.
 */
export function cleggWhitfieldFraction(
	water: AmmoniaWater,
	scale: PhScale
): Read<{ pKa: number; fraction: number }> {
	const { temperatureC, salinityPpt, pH } = water;
	const { temperature, salinity, pH: acidity } = cleggWhitfieldRanges;
	const problem = outsideAny([temperature, temperatureC], [salinity, salinityPpt], [acidity, pH]);
	if (problem) return problem;
	const total = pKaTotal(temperatureC + zeroCelsiusK, salinityPpt);
	const pKa = scale === 'total' ? total : total + sulfateShift(temperatureC + zeroCelsiusK, salinityPpt);
	return read({ pKa, fraction: shareAt(pKa, pH) });
}

function pKaTotal(kelvin: number, salinityPpt: number): number {
	const root = Math.sqrt(kelvin);
	return (
		9.244605 -
		2729.33 * (1 / 298.15 - 1 / kelvin) +
		(0.04203362 - 11.24742 / kelvin) * salinityPpt ** 0.25 +
		(-13.6416 + 1.176949 * root - 0.02860785 * kelvin + 545.4834 / kelvin) * salinityPpt ** 0.5 +
		(-0.1462507 + 0.0090226468 * root - 0.0001471361 * kelvin + 10.5425 / kelvin) * salinityPpt ** 1.5 +
		(0.004669309 - 0.0001691742 * root - 0.5677934 / kelvin) * salinityPpt ** 2 +
		(-2.354039e-5 + 0.009698623 / kelvin) * salinityPpt ** 2.5
	);
}

/** log10(1 + total sulfate / K of bisulfate): how much higher a pKa is on the free scale. */
function sulfateShift(kelvin: number, salinityPpt: number): number {
	const sulfateMolPerKg = ((0.14 / 96.062) * salinityPpt) / 1.80655;
	return Math.log10(1 + sulfateMolPerKg / bisulfateK(kelvin, salinityPpt));
}

/** Dissociation of bisulfate, mol per kg of solution, free scale. Dickson 1990, J. Chem. Thermodyn. 22:113-127. */
function bisulfateK(kelvin: number, salinityPpt: number): number {
	const ionic = (19.924 * salinityPpt) / (1000 - 1.005 * salinityPpt);
	const ln = Math.log(kelvin);
	const terms = [
		-4276.1 / kelvin + 141.328 - 23.093 * ln,
		-13856 / kelvin + 324.57 - 47.986 * ln,
		35474 / kelvin - 771.54 + 114.723 * ln,
		-2698 / kelvin,
		1776 / kelvin
	];
	return Math.exp(polynomial(terms, Math.sqrt(ionic)) + Math.log(1 - 0.001005 * salinityPpt));
}
