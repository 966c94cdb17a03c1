import { read, unreadable, type Read } from '../units/index.ts';
import { densityRanges, eos80KgPerM3, ipts68FromIts90, polynomial } from './density.ts';
import { outside, outsideAny, type Range } from './range.ts';
import { solveRising } from './solve.ts';

export const conductivityRanges = {
	temperature: { name: 'temperature', unit: '°C', low: -2, high: 35 },
	salinity: { name: 'salinity', unit: 'ppt', low: 2, high: 42 },
	pressure: { name: 'pressure', unit: 'dbar', low: 0, high: 10000 }
} as const satisfies Record<string, Range>;

/** C(35, 15 °C, 0): conductivity of standard sea water, mS/cm. Culkin and Smith 1980. */
export const standardConductivityMSPerCm = 42.914;

const a = [0.008, -0.1692, 25.3851, 14.0941, -7.0261, 2.7081];
const b = [0.0005, -0.0056, -0.0066, -0.0375, 0.0636, -0.0144];
const c = [0.6766097, 2.00564e-2, 1.104259e-4, -6.9698e-7, 1.0031e-9];
const k = 0.0162;

/**
 * PSS-78 from the conductivity ratio R = C / C(35, 15, 0); temperature on IPTS-68, pressure in dbar. No range check.
 * UNESCO Technical Papers in Marine Science 44 (1983).
 */
export function pss78(ratio: number, temperature68C: number, pressureDbar = 0): number {
	const rp =
		1 +
		(pressureDbar * polynomial([2.07e-5, -6.37e-10, 3.989e-15], pressureDbar)) /
			(1 +
				3.426e-2 * temperature68C +
				4.464e-4 * temperature68C ** 2 +
				(4.215e-1 - 3.107e-3 * temperature68C) * ratio);
	const root = Math.sqrt(ratio / (rp * polynomial(c, temperature68C)));
	const warmer = temperature68C - 15;
	return polynomial(a, root) + (warmer / (1 + k * warmer)) * polynomial(b, root);
}

/**
 * Practical salinity from a meter's conductivity (mS/cm, not compensated for temperature) at one atmosphere.
 * PSS-78, the thermometer's ITS-90 turned into IPTS-68. Holds from 2 to 42 ppt and -2 to 35 °C, else a problem.
 */
export function salinityFromConductivity(
	conductivityMSPerCm: number,
	temperatureC: number,
	pressureDbar = 0
): Read<number> {
	const { temperature, pressure, salinity } = conductivityRanges;
	const problem = outsideAny([temperature, temperatureC], [pressure, pressureDbar]);
	if (problem) return problem;
	const positive = { name: 'conductivity', unit: 'mS/cm', low: 0, high: 100 };
	const salinityPpt = pss78(
		conductivityMSPerCm / standardConductivityMSPerCm,
		ipts68FromIts90(temperatureC),
		pressureDbar
	);
	return outside(positive, conductivityMSPerCm) ?? outside(salinity, salinityPpt) ?? read(salinityPpt);
}

/** Conductivity in mS/cm of a salinity, the way back; same ranges. */
export function conductivityFromSalinity(
	salinityPpt: number,
	temperatureC: number,
	pressureDbar = 0
): Read<number> {
	const { temperature, pressure, salinity } = conductivityRanges;
	const problem = outsideAny([salinity, salinityPpt], [temperature, temperatureC], [pressure, pressureDbar]);
	if (problem) return problem;
	const temperature68C = ipts68FromIts90(temperatureC);
	const ratio = solveRising((guess) => pss78(guess, temperature68C, pressureDbar), salinityPpt, 0.01, 3);
	return read(ratio * standardConductivityMSPerCm);
}

/** Reference salinity of standard sea water, g/kg. Millero et al. 2008: 35.16504/35 per unit of practical salinity. */
export const referenceSalinityGPerKg = (salinityPpt: number): number => (salinityPpt * 35.16504) / 35;

/** Dissolved salts in g per litre: reference salinity times EOS-80 density. A problem outside EOS-80's range. */
export function soluteGPerL(water: { salinityPpt: number; temperatureC: number }): Read<number> {
	const problem = outsideAny(
		[densityRanges.temperature, water.temperatureC],
		[densityRanges.salinity, water.salinityPpt]
	);
	if (problem) return problem;
	const densityKgPerL = eos80KgPerM3(water.salinityPpt, water.temperatureC) / 1000;
	return read(referenceSalinityGPerKg(water.salinityPpt) * densityKgPerL);
}

export interface SaltToRaise {
	volumeL: number;
	fromPpt: number;
	toPpt: number;
	temperatureC: number;
	/** share of the dry mix that is salt and not bound water; 1 for wholly dry salts */
	dryShare?: number;
}

/** Grams of salt that lift a volume from one salinity to another. Real mixes hold water: weigh, stir, measure, adjust. */
export function saltToRaiseG(wish: SaltToRaise): Read<number> {
	const before = soluteGPerL({ salinityPpt: wish.fromPpt, temperatureC: wish.temperatureC });
	if (!before.ok) return before;
	const after = soluteGPerL({ salinityPpt: wish.toPpt, temperatureC: wish.temperatureC });
	if (!after.ok) return after;
	if (wish.toPpt < wish.fromPpt) {
		return unreadable(
			'order',
			`${wish.fromPpt} to ${wish.toPpt} ppt`,
			'a salinity to reach that is not below the present one'
		);
	}
	return read(((after.value - before.value) * wish.volumeL) / (wish.dryShare ?? 1));
}

/**
 * Share of the tank to replace with thinner water (fresh: 0 ppt) to come down from one salinity to another, mixing by
 * volume; the error against mixing by mass stays under 0.1 ppt. A problem if that water cannot bring it down so far.
 */
export function replaceToLower(fromPpt: number, toPpt: number, thinnerPpt = 0): Read<number> {
	if (toPpt === fromPpt) return read(0);
	if (!(toPpt < fromPpt) || !(thinnerPpt <= toPpt) || thinnerPpt >= fromPpt) {
		return unreadable(
			'order',
			`${fromPpt} to ${toPpt} ppt with ${thinnerPpt} ppt`,
			'a target between the new water and the tank'
		);
	}
	return read((fromPpt - toPpt) / (fromPpt - thinnerPpt));
}

/** Salinity of two waters poured together, by volume. */
export function mixPpt(
	one: { volumeL: number; salinityPpt: number },
	other: { volumeL: number; salinityPpt: number }
): number {
	return (one.volumeL * one.salinityPpt + other.volumeL * other.salinityPpt) / (one.volumeL + other.volumeL);
}

/** Chlorinity in g/kg: S = 1.80655 Cl (Wooster, Lee and Dietrich 1969). */
export const chlorinityFromSalinity = (salinityPpt: number): number => salinityPpt / 1.80655;
