import type { Band } from '../run/index.ts';
import { age, nh3N, type WaterState } from '../water/index.ts';
import type { Bottle } from './bottle.ts';
import type { Sample } from './plan.ts';

/** What water poured in brings along. */
export interface NewWater {
	tanMgNPerL: number;
	nitrateMgPerL: number;
	salinityPpt: number;
}

export const freshWater: NewWater = { tanMgNPerL: 0, nitrateMgPerL: 0, salinityPpt: 0 };

/** Everything that can happen to the water in a service. Medicines are mg, or uL of whole liquid. */
export type Effect =
	| { does: 'change'; fraction: number; water: NewWater }
	/** all of it, in a vessel that may be of another size */
	| { does: 'renew'; water: NewWater; volumeL: number }
	| { does: 'dose'; medicine: number; active: number }
	| { does: 'topoff'; litres: number }
	| { does: 'salt'; pptL: number }
	/** a test that is planned agrees with the forecast: what may be left of a medicine is counted from here again */
	| { does: 'agree'; medicine: number };

/** What works on the water between two services. */
export interface Rates {
	tanMgPerDay: number;
	clearsLPerDay: number;
	evaporatesLPerDay: number;
	lossPerDay: number[];
}

/** The water of the forecast, and the two that bound it: least production with greatest loss, and the reverse. */
export interface Forecast {
	central: WaterState;
	low: WaterState;
	high: WaterState;
	/** once a loss was learned: the most there may be, judged at the published least loss; doses go by it */
	most?: WaterState;
	/** what all readings together say is in the water, while doses still go by the last one */
	believed?: WaterState;
}

export interface ForecastRates {
	central: Rates;
	low: Rates;
	high: Rates;
	most: Rates;
}

export const sides = ['central', 'low', 'high'] as const;
export type Side = (typeof sides)[number];

export function fill(volumeL: number, water: NewWater, medicines: number): WaterState {
	return {
		volumeL,
		tanMg: water.tanMgNPerL * volumeL,
		nitrateMg: water.nitrateMgPerL * volumeL,
		saltG: water.salinityPpt * volumeL,
		medicinesMg: new Array<number>(medicines).fill(0)
	};
}

/** The water after an effect; the volume a change leaves is the volume it found. */
export function after(tank: WaterState, effect: Effect): WaterState {
	switch (effect.does) {
		case 'change':
			return exchange(tank, effect.fraction, effect.water);
		case 'renew':
			return fill(effect.volumeL, effect.water, tank.medicinesMg.length);
		case 'dose': {
			const medicinesMg = tank.medicinesMg.slice();
			medicinesMg[effect.medicine] = (medicinesMg[effect.medicine] ?? 0) + effect.active;
			return { ...tank, medicinesMg };
		}
		case 'topoff':
			return { ...tank, volumeL: tank.volumeL + effect.litres };
		case 'salt':
			return { ...tank, saltG: tank.saltG + effect.pptL };
		case 'agree':
			return tank;
	}
}

function exchange(tank: WaterState, fraction: number, water: NewWater): WaterState {
	const keep = 1 - fraction;
	const litres = fraction * tank.volumeL;
	return {
		volumeL: tank.volumeL,
		tanMg: tank.tanMg * keep + litres * water.tanMgNPerL,
		nitrateMg: tank.nitrateMg * keep + litres * water.nitrateMgPerL,
		saltG: tank.saltG * keep + litres * water.salinityPpt,
		medicinesMg: tank.medicinesMg.map((mg) => mg * keep)
	};
}

export function afterAll(forecast: Forecast, effect: Effect): Forecast {
	const { central, low, high, most, believed } = forecast;
	if (effect.does === 'agree')
		return most
			? { ...forecast, most: withMedicine(most, effect.medicine, massOf(central, effect.medicine)) }
			: forecast;
	return {
		central: after(central, effect),
		low: after(low, effect),
		high: after(high, effect),
		...(most ? { most: after(most, effect) } : {}),
		...(believed ? { believed: after(believed, effect) } : {})
	};
}

export function ageAll(
	{ central, low, high, most, believed }: Forecast,
	rates: ForecastRates,
	days: number
): Forecast {
	return {
		central: age(central, rates.central, days),
		low: age(low, rates.low, days),
		high: age(high, rates.high, days),
		...(most ? { most: age(most, rates.most, days) } : {}),
		...(believed ? { believed: age(believed, rates.central, days) } : {})
	};
}

/** Mass of a medicine, mg or uL. */
export const massOf = (tank: WaterState, medicine: number): number => tank.medicinesMg[medicine] ?? 0;

/** The same water with another mass of one medicine. */
export function withMedicine(tank: WaterState, medicine: number, mass: number): WaterState {
	const medicinesMg = tank.medicinesMg.slice();
	medicinesMg[medicine] = mass;
	return { ...tank, medicinesMg };
}

/** The most of a medicine that may be in the water: what doses leave room for, and what has to be gone when it is clear. */
export const mostOf = ({ central, high, most }: Forecast, bottle: Bottle): number =>
	most ? Math.max(levelOf(most, bottle), levelOf(central, bottle)) : levelOf(high, bottle);

/** Concentration of a medicine, mg/L or uL/L. */
export const levelOf = (tank: WaterState, bottle: Bottle): number =>
	(tank.medicinesMg[bottle.index] ?? 0) / tank.volumeL;

export interface Surroundings {
	temperatureC: number | null;
	pH: number | null;
	/** the salinity the tank was said to have; null leaves salinity unknown */
	salinityKnown: boolean;
}

/** Share of TAN that is toxic NH3-N at the tank's present salinity; null when temperature, pH or salinity is unknown or out of range. */
export function toxicShare(
	tank: WaterState,
	{ temperatureC, pH, salinityKnown }: Surroundings
): number | null {
	if (temperatureC === null || pH === null || !salinityKnown) return null;
	const share = nh3N(1, { temperatureC, pH, salinityPpt: tank.saltG / tank.volumeL });
	return share.ok ? share.value : null;
}

/** A band never leaves its forecast outside: right after a reading the number on the card stands, whatever is believed. */
const bandAround = (low: number, central: number, high: number): Band => ({
	low: Math.min(low, central),
	high: Math.max(high, central)
});

/** A sample of the forecast. */
export function sampleOf(
	forecast: Forecast,
	bottles: readonly Bottle[],
	around: Surroundings,
	moment: Pick<Sample, 'at' | 'date' | 'when'>
): Sample {
	const { central, low, high } = forecast;
	const share = toxicShare(central, around);
	const per = (tank: WaterState) => tank.tanMg / tank.volumeL;
	const medicinesMgPerL: Record<string, number> = {};
	const medicineBands: Record<string, Band> = {};
	for (const bottle of bottles) {
		medicinesMgPerL[bottle.id] = levelOf(central, bottle);
		medicineBands[bottle.id] = bandAround(
			levelOf(low, bottle),
			levelOf(central, bottle),
			levelOf(high, bottle)
		);
	}
	const tan = bandAround(per(low), per(central), per(high));
	return {
		...moment,
		volumeL: central.volumeL,
		salinityPpt: around.salinityKnown ? central.saltG / central.volumeL : null,
		temperatureC: around.temperatureC,
		tanMgNPerL: per(central),
		nh3MgNPerL: share === null ? null : per(central) * share,
		nitrateMgPerL: central.nitrateMg / central.volumeL,
		medicinesMgPerL,
		band: {
			tanMgNPerL: tan,
			...(share === null ? {} : { nh3MgNPerL: { low: tan.low * share, high: tan.high * share } }),
			medicinesMgPerL: medicineBands
		}
	};
}
