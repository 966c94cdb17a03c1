import { no3PerN } from './ammonia.ts';

/** What a tank holds, as masses: water that evaporates takes none of them along. */
export interface WaterState {
	volumeL: number;
	/** total ammonia, mg N */
	tanMg: number;
	/** nitrate, mg NO3 */
	nitrateMg: number;
	/** ppt times litres */
	saltG: number;
	/** one entry per medicine, mg (uL for a liquid counted whole) */
	medicinesMg: number[];
}

export interface WaterRates {
	/** ammonia made by the fish, mg N/day */
	tanMgPerDay: number;
	/** water stripped of ammonia by the filter, L/day */
	clearsLPerDay: number;
	evaporatesLPerDay: number;
	/** first-order loss per medicine, 1/day (ln 2 over the half-life) */
	lossPerDay: readonly number[];
}

/**
 * The water after some days without anybody touching it, solved in closed form:
 * V = V0 - e t; TAN: dM/dt = P - (Q/V) M; what the filter clears comes back as nitrate (mg NO3 per mg N);
 * each medicine decays first order; salt stays. Throws if the volume would reach nothing.
 */
export function age(state: WaterState, rates: WaterRates, days: number): WaterState {
	const { volumeL, tanMg } = state;
	const { tanMgPerDay: made, clearsLPerDay: clears, evaporatesLPerDay: evaporates } = rates;
	const volumeAfterL = volumeL - evaporates * days;
	if (!(volumeAfterL > 0)) throw new Error(`${volumeL} L cannot lose ${evaporates} L/d for ${days} d`);
	// u = integral of dt/V: the "turns" of the tank per litre cleared; its first terms where evaporation is next to nothing.
	const shrink = (evaporates * days) / volumeL;
	const turnsPerL = shrink < 1e-8 ? (days / volumeL) * (1 + shrink / 2) : -Math.log1p(-shrink) / evaporates;
	const exponent = clears * turnsPerL;
	const tanAfterMg =
		clears === 0
			? tanMg + made * days
			: tanMg * Math.exp(-exponent) + made * volumeL * turnsPerL * kept(evaporates * turnsPerL, exponent);
	const medicinesMg = state.medicinesMg.slice();
	for (let i = 0; i < medicinesMg.length; i++) {
		const loss = rates.lossPerDay[i] ?? 0;
		if (loss !== 0) medicinesMg[i] = (medicinesMg[i] ?? 0) * Math.exp(-loss * days);
	}
	return {
		volumeL: volumeAfterL,
		tanMg: tanAfterMg,
		nitrateMg: state.nitrateMg + no3PerN * Math.max(0, tanMg + made * days - tanAfterMg),
		saltG: state.saltG,
		medicinesMg
	};
}

/**
 * Input made over the span that is still there at its end, per (made x volume x turns). In the time scale u the
 * volume is V0 exp(-e u), so the integral is (exp(-a) - exp(-b)) / (b - a) with a = e u, b = Q u: the divided
 * difference of exp(-x), written so that a = b and small differences lose nothing.
 */
function kept(a: number, b: number): number {
	const gap = b - a;
	return gap === 0 ? Math.exp(-a) : (-Math.exp(-a) * Math.expm1(-gap)) / gap;
}
