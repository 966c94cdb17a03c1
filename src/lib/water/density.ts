import { read, type Read } from '../units/index.ts';
import { outsideAny, type Range } from './range.ts';

export const densityRanges = {
	temperature: { name: 'temperature', unit: '°C', low: -2, high: 40 },
	salinity: { name: 'salinity', unit: 'ppt', low: 0, high: 42 }
} as const satisfies Record<string, Range>;

/** Saunders 1990: t68 = 1.00024 t90. Old formulas want the scale of 1968, thermometers show that of 1990. */
export const ipts68FromIts90 = (temperatureC: number): number => temperatureC * 1.00024;

/** Sum of c[i] x^i. */
export const polynomial = (coefficients: readonly number[], x: number): number =>
	coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);

const pureWater = [999.842594, 6.793952e-2, -9.09529e-3, 1.001685e-4, -1.120083e-6, 6.536332e-9];
const linear = [8.24493e-1, -4.0899e-3, 7.6438e-5, -8.2467e-7, 5.3875e-9];
const threeHalves = [-5.72466e-3, 1.0227e-4, -1.6546e-6];
const square = 4.8314e-4;

/** EOS-80 at one atmosphere, kg/m3, no range check. UNESCO Technical Papers in Marine Science 44 (1983). */
export function eos80KgPerM3(salinityPpt: number, temperatureC: number): number {
	return (
		polynomial(pureWater, temperatureC) +
		polynomial(linear, temperatureC) * salinityPpt +
		polynomial(threeHalves, temperatureC) * salinityPpt ** 1.5 +
		square * salinityPpt ** 2
	);
}

/**
 * Density of sea water at one atmosphere, kg/m3, -2 to 40 °C and 0 to 42 ppt, else a problem. EOS-80. The formula
 * wants IPTS-68; the thermometer's degree is put in as it is, which moves density by less than 0.003 kg/m3 below
 * 40 °C, within EOS-80's own distance (0.006) from TEOS-10, and keeps the published check table to its last digit.
 */
export function densityKgPerM3(water: { salinityPpt: number; temperatureC: number }): Read<number> {
	const problem = outsideAny(
		[densityRanges.temperature, water.temperatureC],
		[densityRanges.salinity, water.salinityPpt]
	);
	return problem ?? read(eos80KgPerM3(water.salinityPpt, water.temperatureC));
}
