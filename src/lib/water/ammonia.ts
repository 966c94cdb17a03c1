import { read, zeroCelsiusK, type Read } from '../units/index.ts';
import { outsideAny, type Range } from './range.ts';

/** Standard atomic weights (IUPAC 2021, abridged): N 14.007, H 1.008, O 15.999. */
const nitrogen = 14.007;
export const nh3PerN = 17.031 / nitrogen;
export const nh4PerN = 18.039 / nitrogen;
/** 62.004/14.007, to the four decimals that the plan file's contract fixes. */
export const no3PerN = 4.4266;
export const no2PerN = 46.005 / nitrogen;

export interface AmmoniaWater {
	temperatureC: number;
	salinityPpt: number;
	pH: number;
}

/** Below this salinity the fresh-water constant is used, from it on the sea-water one. */
export const freshBelowPpt = 1;

export const ammoniaRanges = {
	temperature: { name: 'temperature', unit: '°C', low: 0, high: 40 },
	salinity: { name: 'salinity', unit: 'ppt', low: 0, high: 45 },
	pH: { name: 'pH', unit: '', low: 4, high: 12 }
} as const satisfies Record<string, Range>;

/**
 * pKa of ammonium in sea water, temperature in °C (fed kelvin it gives 0.7: a known trap).
 * Bell, Twigg and Carpenter 2007, Environ. Chem. 4:183-186, with the correction of 2008.
 */
export const pKaSeaWater = (temperatureC: number, salinityPpt: number): number =>
	10.0423 - 0.0315536 * temperatureC + 0.003071 * salinityPpt;

/** pKa of ammonium in fresh water, temperature in °C. Emerson et al. 1975, J. Fish. Res. Board Can. 32:2379-2383. */
export const pKaFreshWater = (temperatureC: number): number =>
	0.09018 + 2729.92 / (temperatureC + zeroCelsiusK);

/** Share of total ammonia that is NH3 at a pH, given the pKa. */
export const shareAt = (pKa: number, pH: number): number => 1 / (1 + 10 ** (pKa - pH));

/**
 * Share of total ammonia that is un-ionised: Bell et al. from 1 ppt up, Emerson et al. below. The pH is what an
 * electrode or kit on ordinary (NBS) buffers shows; on the total scale the same water reads about 0.1 lower (from
 * memory), and these constants would then understate NH3. Outside 0-40 °C, 0-45 ppt or pH 4-12 it is a problem.
 */
export function unionisedFraction(water: AmmoniaWater): Read<{ pKa: number; fraction: number }> {
	const { temperatureC, salinityPpt, pH } = water;
	const problem = outsideAny(
		[ammoniaRanges.temperature, temperatureC],
		[ammoniaRanges.salinity, salinityPpt],
		[ammoniaRanges.pH, pH]
	);
	if (problem) return problem;
	const pKa = pKaOf(temperatureC, salinityPpt);
	return read({ pKa, fraction: shareAt(pKa, pH) });
}

/** The constant for this salinity: fresh below 1 ppt, sea water from there. No range check. */
export const pKaOf = (temperatureC: number, salinityPpt: number): number =>
	salinityPpt < freshBelowPpt ? pKaFreshWater(temperatureC) : pKaSeaWater(temperatureC, salinityPpt);

/** NH3-N in mg/L from total ammonia nitrogen in mg/L. */
export function nh3N(tanMgNPerL: number, water: AmmoniaWater): Read<number> {
	const share = unionisedFraction(water);
	return share.ok ? read(tanMgNPerL * share.value.fraction) : share;
}

/** What an ammonia kit's number means. */
export type AmmoniaReading = 'tan' | 'nh3-total' | 'nh4-total' | 'nh3-free';

/**
 * TAN (mg N/L) behind a kit's number: `tan` is total as N, `nh3-total` and `nh4-total` are total given as NH3 or NH4, `nh3-free` is the
 * un-ionised part as NH3 and needs the water. A problem outside the formula's range.
 */
export function tanFromKit(valueMgPerL: number, as: AmmoniaReading, water: AmmoniaWater): Read<number> {
	if (as === 'tan') return read(valueMgPerL);
	if (as === 'nh3-total') return read(valueMgPerL / nh3PerN);
	if (as === 'nh4-total') return read(valueMgPerL / nh4PerN);
	const share = unionisedFraction(water);
	return share.ok ? read(valueMgPerL / nh3PerN / share.value.fraction) : share;
}

/** The kit's number for a TAN, the way back of `tanFromKit`. */
export function kitFromTan(tanMgNPerL: number, as: AmmoniaReading, water: AmmoniaWater): Read<number> {
	if (as === 'tan') return read(tanMgNPerL);
	if (as === 'nh3-total') return read(tanMgNPerL * nh3PerN);
	if (as === 'nh4-total') return read(tanMgNPerL * nh4PerN);
	const share = unionisedFraction(water);
	return share.ok ? read(tanMgNPerL * nh3PerN * share.value.fraction) : share;
}
