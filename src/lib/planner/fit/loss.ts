import type { Bottle } from '../bottle.ts';
import { advance, best, mixture, observe, quantile, type Node, type Step } from './filter.ts';
import { noiseSd, stepOf } from './noise.ts';
import { HORIZON_DAYS, NINE_TENTHS } from './production.ts';
import { readingsOf, type Trace, type TraceEvent } from './trace.ts';

const NODES = 40;
/** How well a dose is measured out, as a share of it, and what mixing and small unlogged things do in a day (judgment, no source). */
const DOSE_SHARE = 0.03;
const DAY_TO_DAY = 0.01;

/** A medicine's first-order loss per day, and what is in the water after the last reading. */
export interface LossFit {
	/** per day: for the forecast, and the middle nine tenths */
	perDay: { central: number; low: number; high: number };
	/** losses that carry the band's lower and upper edge from now to the horizon */
	edges: { low: number; high: number };
	/** mg, or uL of whole liquid */
	mass: { central: number; low: number; high: number };
	taught: number;
	unexplained: number;
	step: number;
}

/**
 * Fit a medicine's loss to its readings.
 *
 * Estimator: for each of a grid of losses between the least and the greatest of its formulary row a Kalman filter of
 * the mass in the water (exact: for a given loss the mass is linear), each reading one conjugate normal update (Gelman
 * et al., Bayesian Data Analysis, from memory). The prior falls from the least loss, which the forecast uses until the
 * readings say otherwise, like half a normal distribution with nine tenths inside the range; nothing outside the range
 * is believed. The estimate is the mode. Assumes doses and changes as logged, and the volume as stated.
 * Null: no range to learn in (a stated half-life is the keeper's own number), or no readings.
 */
export function fitLoss(trace: Trace, bottle: Bottle): LossFit | null {
	const { least, greatest } = bottle.loss;
	const readings = readingsOf(trace, bottle.id);
	if (readings.length === 0 || greatest <= least) return null;
	const step = stepOf(readings, bottle.measuredAs);
	const nodes = startNodes(least, greatest);
	let taught = 0;
	for (const event of trace.events)
		if (event.is !== 'reading') advance(nodes, (rate, node) => stepOfWater(event, bottle, rate, node.mass));
		else if (
			event.of === bottle.id &&
			event.teaches &&
			observe(nodes, { ...event, noise: (level) => noiseSd(level, step) })
		)
			taught++;
	const top = best(nodes, 0);
	if (!top) return null;
	return {
		perDay: { central: top.rate, low: quantile(nodes, 0.05), high: quantile(nodes, 0.95) },
		...edgesOf(nodes, top, bottle),
		taught,
		unexplained: readings.length - taught,
		step
	};
}

/** Closer together near the least loss, where most medicines are. */
const startNodes = (least: number, greatest: number): Node[] =>
	Array.from({ length: NODES + 1 }, (_, i) => {
		const share = (i / NODES) ** 2;
		return {
			rate: least + share * (greatest - least),
			cost: (share * NINE_TENTHS) ** 2,
			mass: 0,
			factor: 0,
			massVar: 0,
			bothVar: 0,
			factorVar: 0
		};
	});

const untouched: Step = { keep: 1, gain: 0, add: 0, massVar: 0, factorVar: 0 };

function stepOfWater(
	event: Exclude<TraceEvent, { is: 'reading' }>,
	{ index, loss }: Bottle,
	rate: number,
	mass: number
): Step {
	if (event.is === 'age') {
		// what carbon strips beside the loss is not learned
		const beside = (event.rates.lossPerDay[index] ?? 0) - loss.central;
		const massVar = (DAY_TO_DAY * mass) ** 2 * event.days;
		return { ...untouched, keep: Math.exp(-(rate + beside) * event.days), massVar };
	}
	const { effect } = event;
	if (effect.does === 'change') return { ...untouched, keep: 1 - effect.fraction };
	if (effect.does === 'renew') return { ...untouched, keep: 0 };
	if (effect.does !== 'dose' || effect.medicine !== index) return untouched;
	return { ...untouched, add: effect.active, massVar: (DOSE_SHARE * effect.active) ** 2 };
}

function edgesOf(nodes: readonly Node[], top: Node, { loss }: Bottle): Pick<LossFit, 'edges' | 'mass'> {
	const now = mixture(nodes, ({ mass, massVar }) => [mass, massVar]);
	const then = mixture(nodes, ({ rate, mass, massVar }) => {
		const keep = Math.exp(-rate * HORIZON_DAYS);
		return [keep * mass, keep ** 2 * (massVar + (DAY_TO_DAY * mass) ** 2 * HORIZON_DAYS)];
	});
	const mass = (side: -1 | 0 | 1) => Math.max(0, top.mass + side * NINE_TENTHS * now.sd);
	const lossTo = (side: -1 | 1) => {
		const reached = top.mass * Math.exp(-top.rate * HORIZON_DAYS) + side * NINE_TENTHS * then.sd;
		if (!(reached > 0)) return loss.greatest;
		if (mass(side) <= 0) return top.rate;
		return Math.min(Math.max(Math.log(mass(side) / reached) / HORIZON_DAYS, loss.least), loss.greatest);
	};
	return {
		edges: { low: lossTo(-1), high: lossTo(1) },
		mass: { central: mass(0), low: mass(-1), high: mass(1) }
	};
}
