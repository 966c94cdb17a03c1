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
	| { does: 'salt'; pptL: number };

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
}

export interface ForecastRates {
	central: Rates;
	low: Rates;
	high: Rates;
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

export const afterAll = (forecast: Forecast, effect: Effect): Forecast => ({
	central: after(forecast.central, effect),
	low: after(forecast.low, effect),
	high: after(forecast.high, effect)
});

export const ageAll = (forecast: Forecast, rates: ForecastRates, days: number): Forecast => ({
	central: age(forecast.central, rates.central, days),
	low: age(forecast.low, rates.low, days),
	high: age(forecast.high, rates.high, days)
});

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
		medicineBands[bottle.id] = { low: levelOf(low, bottle), high: levelOf(high, bottle) };
	}
	const tan: Band = { low: per(low), high: per(high) };
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
