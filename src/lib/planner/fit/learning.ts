import type { Bottle } from '../bottle.ts';
import type { ForecastRates, Rates } from '../tank-water.ts';
import type { LossFit } from './loss.ts';
import type { AmmoniaFit } from './production.ts';

/** What a walk has learned by now. */
export interface Learning {
	ammonia: AmmoniaFit | null;
	/** by the bottle's place in the run's list */
	losses: Map<number, LossFit>;
	/** medicines whose forecast still stands on the last reading alone */
	pending: Pending[];
}

export interface Pending {
	bottle: Bottle;
	readAtMs: number;
	/** mg/L or uL/L */
	reading: number;
}

/** Rates of the forecast with what was learned put in; `most` stays at the published least loss. */
export function taughtRates(
	{ central, low, high, most }: ForecastRates,
	{ ammonia, losses }: Learning,
	bottles: readonly Bottle[]
): ForecastRates {
	if (!ammonia && losses.size === 0) return { central, low, high, most };
	// every edge makes a share of what feed and mass make on the average, so that one factor fits all
	const tanMgPerDay = central.tanMgPerDay;
	const taught = (
		rates: Rates,
		made: number | undefined,
		loss: (fit: LossFit) => number,
		own: (bottle: Bottle) => number
	): Rates => ({
		...rates,
		tanMgPerDay: made === undefined ? rates.tanMgPerDay : tanMgPerDay * made,
		clearsLPerDay: rates.clearsLPerDay * (ammonia?.clears ?? 1),
		lossPerDay: rates.lossPerDay.map((perDay, i) => {
			const [fit, bottle] = [losses.get(i), bottles[i]];
			return fit && bottle ? perDay - own(bottle) + loss(fit) : perDay;
		})
	});
	return {
		central: taught(
			central,
			ammonia?.made.central,
			(fit) => fit.perDay.central,
			({ loss }) => loss.central
		),
		low: taught(
			low,
			ammonia?.made.low,
			(fit) => fit.edges.low,
			({ loss }) => loss.greatest
		),
		high: taught(
			high,
			ammonia?.made.high,
			(fit) => fit.edges.high,
			({ loss }) => loss.least
		),
		most
	};
}
