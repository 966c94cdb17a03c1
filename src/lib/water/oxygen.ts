import { read, zeroCelsiusK, type Read } from '../units/index.ts';
import { ipts68FromIts90, polynomial } from './density.ts';
import { outsideAny, type Range } from './range.ts';

export const oxygenRanges = {
	temperature: { name: 'temperature', unit: '°C', low: 0, high: 40 },
	salinity: { name: 'salinity', unit: 'ppt', low: 0, high: 40 },
	pressure: { name: 'pressure', unit: 'atm', low: 0.5, high: 1.1 }
} as const satisfies Record<string, Range>;

/**
 * Oxygen in water in balance with moist air, mg/L, 0-40 °C, 0-40 ppt, 0.5-1.1 atm, else a problem. Benson and Krause
 * 1984, Limnol. Oceanogr. 29:620-632. The thermometer's degree stands for IPTS-68: 0.01 %, against 0.1 % of the fit.
 */
export function oxygenSaturationMgPerL(water: {
	temperatureC: number;
	salinityPpt: number;
	pressureAtm?: number;
}): Read<number> {
	const { temperatureC, salinityPpt, pressureAtm = 1 } = water;
	const problem = outsideAny(
		[oxygenRanges.temperature, temperatureC],
		[oxygenRanges.salinity, salinityPpt],
		[oxygenRanges.pressure, pressureAtm]
	);
	if (problem) return problem;
	const inverse = 1 / (temperatureC + zeroCelsiusK);
	const fresh = polynomial([-139.34411, 1.575701e5, -6.642308e7, 1.2438e10, -8.621949e11], inverse);
	const salting = polynomial([0.017674, -10.754, 2140.7], inverse);
	return read(Math.exp(fresh - salinityPpt * salting) * pressureShare(temperatureC, pressureAtm));
}

/** Saturation at another pressure over that at 1 atm; vapour pressure of water and the second virial term. Same paper. */
function pressureShare(temperatureC: number, pressureAtm: number): number {
	if (pressureAtm === 1) return 1;
	const inverse = 1 / (temperatureC + zeroCelsiusK);
	const vapour = Math.exp(polynomial([11.8571, -3840.7, -216961], inverse));
	const theta = polynomial([0.000975, -1.426e-5, 6.436e-8], temperatureC);
	return (
		(pressureAtm * (1 - vapour / pressureAtm) * (1 - theta * pressureAtm)) / ((1 - vapour) * (1 - theta))
	);
}

/**
 * Garcia and Gordon 1992 (Limnol. Oceanogr. 37:1307-1312), coefficients fitted to Benson and Krause, umol/kg;
 * temperature on IPTS-68. No range check.
 */
export function garciaGordonUmolPerKg(salinityPpt: number, temperature68C: number): number {
	const scaled = Math.log((298.15 - temperature68C) / (zeroCelsiusK + temperature68C));
	const fresh = polynomial([5.80871, 3.20291, 4.17887, 5.10006, -9.86643e-2, 3.80369], scaled);
	const salting = polynomial([-7.01577e-3, -7.70028e-3, -1.13864e-2, -9.51519e-3], scaled);
	return Math.exp(fresh + salinityPpt * salting - 2.75915e-7 * salinityPpt ** 2);
}

/** The same in umol/kg from a thermometer (ITS-90), 0-40 °C and 0-40 ppt, else a problem. */
export function oxygenSaturationUmolPerKg(water: {
	temperatureC: number;
	salinityPpt: number;
}): Read<number> {
	const problem = outsideAny(
		[oxygenRanges.temperature, water.temperatureC],
		[oxygenRanges.salinity, water.salinityPpt]
	);
	return problem ?? read(garciaGordonUmolPerKg(water.salinityPpt, ipts68FromIts90(water.temperatureC)));
}

/** Formalin takes 1 mg/L of oxygen per 5 uL/L in all (UF/IFAS VM-77), over about 36 h (judgment, no source). */
export const formalinDemand = { mgPerUl: 1 / 5, hours: 36 } as const;

/** All the oxygen that formalin will take, mg/L, from its level in uL/L of the whole liquid. */
export const formalinOxygenMgPerL = (formalinUlPerL: number): number =>
	formalinUlPerL * formalinDemand.mgPerUl;

/** Oxygen fish take at rest to feeding, mg per kg of fish and hour: from memory; a small fish takes more per kg. */
export const fishOxygenMgPerKgPerHour = { low: 150, usual: 300, high: 500 } as const;

/** Below this oxygen small marine fish are at risk, mg/L: common practice, no source. */
export const oxygenFloorMgPerL = 5;

export interface OxygenDemandWater {
	temperatureC: number;
	salinityPpt: number;
	volumeL: number;
	fishMassG: number;
	formalinUlPerL: number;
}

export interface OxygenMargin {
	saturationMgPerL: number;
	fishMgPerLPerHour: number;
	formalinMgPerLPerHour: number;
	/** hours from saturation to the floor with no air at all; null when nothing takes oxygen */
	hoursWithoutAir: number | null;
}

/** How long the water lasts if the air stops: an estimate, since the fish's own rate is from memory. */
export function oxygenMargin(water: OxygenDemandWater): Read<OxygenMargin> {
	const saturation = oxygenSaturationMgPerL(water);
	if (!saturation.ok) return saturation;
	const fish = (fishOxygenMgPerKgPerHour.usual * water.fishMassG) / 1000 / water.volumeL;
	const formalin = formalinOxygenMgPerL(water.formalinUlPerL) / formalinDemand.hours;
	const spare = Math.max(0, saturation.value - oxygenFloorMgPerL);
	return read({
		saturationMgPerL: saturation.value,
		fishMgPerLPerHour: fish,
		formalinMgPerLPerHour: formalin,
		hoursWithoutAir: fish + formalin > 0 ? spare / (fish + formalin) : null
	});
}
