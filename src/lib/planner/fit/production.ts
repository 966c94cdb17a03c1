import { age, type WaterState } from '../../water/index.ts';
import type { Rates } from '../tank-water.ts';
import { advance, best, mixture, observe, type Node, type Step } from './filter.ts';
import { noiseSd, stepOf } from './noise.ts';
import { readingsOf, type Trace, type TraceEvent } from './trace.ts';

/** Nine tenths of a normal distribution lie within so many standard deviations. */
export const NINE_TENTHS = 1.645;
/** The edges of the band are laid so that they hold nine tenths now and this many days on. */
export const HORIZON_DAYS = 3;

/** A stated clearance may be this much off: a seeded sponge clears 0.5 to 3 tank volumes a day (judgment, no source). */
const CLEARANCE_LN_SD = Math.log(3 / 0.5) / (2 * NINE_TENTHS);
const CLEARANCE_NODES = 12;
const CLEARANCE_REACH = 2.2;
/** What fish give off differs this much from one day to the next, and drifts so much a day (judgment, no source). */
const DAY_TO_DAY = 0.1;
const DRIFT_PER_DAY = 0.01;
/** How far the ammonia of water nobody tested may be off, mg/L N (judgment, no source). */
const UNTESTED_MG_PER_L = 0.03;
/** Fish that live give off something. */
const LEAST_FACTOR = 0.05;

/** Factors on the rates of the plan file, and the ammonia in the water after the last reading. */
export interface AmmoniaFit {
	/** what the factors multiply: by feed and mass at the last reading, mg N/day */
	published: Known['made'];
	/** on what the fish give off: for the forecast, and for the edges of its band */
	made: { central: number; low: number; high: number };
	/** standard deviation of the factor itself */
	madeSd: number;
	/** on what the filter clears */
	clears: number;
	clearsSd: number;
	tanMg: { central: number; low: number; high: number };
	taught: number;
	unexplained: number;
	step: number;
}

interface Known {
	/** what the fish give off now by feed and mass, mg N/day, and its published band */
	made: { central: number; low: number; high: number };
	/** what works on the water now, before anything was learned */
	rates: Rates;
	volumeL: number;
}

/**
 * Fit the fish's production, and the filter's clearance where one is stated, to the ammonia readings of a run.
 *
 * Estimator: for each of a grid of clearances (log-normal around the stated one) a Kalman filter of two unknowns,
 * ammonia in the water and the factor on production; both enter the water linearly, so each filter is exact, and each
 * reading is one conjugate normal update (Gelman et al., Bayesian Data Analysis, from memory). The prior of the factor
 * is normal with the published band as its middle nine tenths. The estimate is the mode, the band the mixture's.
 * Assumes: feed, changes and losses as logged, constant pH, new water as stated. Null: nothing to learn from.
 */
export function fitAmmonia(trace: Trace, { made, rates, volumeL }: Known): AmmoniaFit | null {
	const readings = readingsOf(trace, 'NH3');
	const priorSd = made.central > 0 ? (made.high - made.low) / made.central / (2 * NINE_TENTHS) : 0;
	if (readings.length === 0 || priorSd === 0) return null;
	const step = stepOf(readings, 'NH3');
	const filtered = trace.events.some((event) => event.is === 'age' && event.rates.clearsLPerDay > 0);
	const nodes = startNodes(trace, priorSd, filtered);
	let taught = 0;
	for (const event of trace.events)
		if (event.is !== 'reading') advance(nodes, (rate) => stepOfWater(event, rate));
		else if (
			event.of === 'NH3' &&
			event.teaches &&
			observe(nodes, { ...event, noise: (level) => noiseSd(level, step) })
		)
			taught++;
	const top = best(nodes, filtered ? CLEARANCE_NODES : 0);
	if (!top) return null;
	const ahead = (rate: number) =>
		stepOfWater({ is: 'age', days: HORIZON_DAYS, volumeL, rates: { ...rates, evaporatesLPerDay: 0 } }, rate);
	return {
		published: made,
		...bandOf(nodes, top, ahead),
		clears: Math.exp(top.rate),
		taught,
		unexplained: readings.length - taught,
		step
	};
}

function startNodes(trace: Trace, priorSd: number, filtered: boolean): Node[] {
	const reach = filtered ? CLEARANCE_NODES : 0;
	return Array.from({ length: 2 * reach + 1 }, (_, i) => {
		const off = reach === 0 ? 0 : ((i - reach) / reach) * CLEARANCE_REACH;
		return {
			rate: off * CLEARANCE_LN_SD,
			cost: off ** 2,
			mass: trace.tanMg,
			factor: 1,
			massVar: (UNTESTED_MG_PER_L * trace.volumeL) ** 2,
			bothVar: 0,
			factorVar: priorSd ** 2
		};
	});
}

const untouched: Step = { keep: 1, gain: 0, add: 0, massVar: 0, factorVar: 0 };

function stepOfWater(event: Exclude<TraceEvent, { is: 'reading' }>, rate: number): Step {
	if (event.is === 'effect') {
		const { effect, volumeL } = event;
		if (effect.does === 'change')
			return {
				...untouched,
				keep: 1 - effect.fraction,
				add: effect.fraction * volumeL * effect.water.tanMgNPerL
			};
		if (effect.does === 'renew')
			return {
				...untouched,
				keep: 0,
				add: effect.volumeL * effect.water.tanMgNPerL,
				massVar: (UNTESTED_MG_PER_L * effect.volumeL) ** 2
			};
		return untouched;
	}
	const { days, volumeL } = event;
	const rates = { ...event.rates, lossPerDay: [], clearsLPerDay: event.rates.clearsLPerDay * Math.exp(rate) };
	const after = (tanMg: number) => age(holding(volumeL, tanMg), rates, days).tanMg;
	const gain = after(0);
	return {
		keep: after(1) - gain,
		gain,
		add: 0,
		massVar: (DAY_TO_DAY * rates.tanMgPerDay) ** 2 * days,
		factorVar: DRIFT_PER_DAY ** 2 * days
	};
}

const holding = (volumeL: number, tanMg: number): WaterState => ({
	volumeL,
	tanMg,
	nitrateMg: 0,
	saltG: 0,
	medicinesMg: []
});

/** The two edges are waters of their own: they start at the edges of now and make what brings them to the edges of the horizon. */
function bandOf(nodes: readonly Node[], top: Node, ahead: (rate: number) => Step) {
	const now = mixture(nodes, ({ mass, massVar }) => [mass, massVar]);
	const then = mixture(nodes, (node) => {
		const { keep, gain, massVar } = ahead(node.rate);
		return [
			keep * node.mass + gain * node.factor,
			keep ** 2 * node.massVar + 2 * keep * gain * node.bothVar + gain ** 2 * node.factorVar + massVar
		];
	});
	const { keep, gain } = ahead(top.rate);
	const made = mixture(nodes, ({ factor, factorVar }) => [factor, factorVar]);
	const central = Math.max(top.factor, LEAST_FACTOR);
	const edge = (side: -1 | 1) => {
		const tanMg = Math.max(0, top.mass + side * NINE_TENTHS * now.sd);
		const reached = Math.max(0, keep * top.mass + gain * central + side * NINE_TENTHS * then.sd);
		return { tanMg, made: gain > 0 ? Math.max(0, (reached - keep * tanMg) / gain) : central };
	};
	const [low, high] = [edge(-1), edge(1)];
	return {
		made: { central, low: low.made, high: high.made },
		madeSd: made.sd,
		clearsSd: mixture(nodes, ({ rate }) => [Math.exp(rate), 0]).sd,
		tanMg: { central: Math.max(0, top.mass), low: low.tanMg, high: high.tanMg }
	};
}
