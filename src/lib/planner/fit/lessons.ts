import type { Fact, Run } from '../../run/index.ts';
import { bottlesOf, type Bottle } from '../bottle.ts';
import { dayOfInstant } from '../clock.ts';
import { holdLevels } from '../phases/hold.ts';
import { withMedicine, type Forecast } from '../tank-water.ts';
import type { Walk } from '../walk.ts';
import { fitLoss, type LossFit } from './loss.ts';
import { fitAmmonia, type AmmoniaFit } from './production.ts';

const MS_PER_HOUR = 3_600_000;
/** Doses of a service this soon after a reading go by that reading, not by what is believed (judgment, no source). */
const OWN_SERVICE_MS = 18 * MS_PER_HOUR;

/** What is learned from, and when: after the last reading of a thing everything is forecast. */
export interface Lessons {
	/** entry ids of the last readings, each with what it teaches about */
	last: ReadonlyMap<string, string>;
	/** the last reading of all */
	closes: string;
	/** fits by what they are of: the walks of one plan share their past, so each is made once */
	fits: Map<string, AmmoniaFit | LossFit | null>;
	/** the water that low readings met as they were read, by entry */
	met?: ReadonlyMap<string, Forecast>;
	/** the reading whose water is looked for: nothing after it matters */
	seeks?: string;
}

/** The last reading of ammonia and of each medicine before now; null where there is none. */
export function lessonsOf(run: Run, entries: readonly Fact[], nowMs: number): Lessons | null {
	const bottles = bottlesOf(run);
	const byThing = new Map<string, string>();
	let closes = '';
	for (const entry of entries) {
		if (entry.kind !== 'reading' || entry.atMs > nowMs) continue;
		const of = entry.what === 'NH3' ? 'NH3' : bottleRead(bottles, entry.what)?.id;
		if (of !== undefined) byThing.set(of, (closes = entry.id));
	}
	if (byThing.size === 0) return null;
	return { last: new Map([...byThing].map(([of, id]) => [id, of])), closes, fits: new Map() };
}

/** The medicine a reading is of. */
export const bottleRead = (bottles: readonly Bottle[], what: string): Bottle | undefined =>
	bottles.find((bottle) => bottle.measuredAs === what || bottle.id === what);

/** After the last reading of a thing: fit, and let the forecast go on with what was found. */
export function learn(walk: Walk, lessons: Lessons, entry: Extract<Fact, { kind: 'reading' }>): void {
	const of = lessons.last.get(entry.id);
	if (of === undefined || !walk.trace) return;
	if (of === 'NH3') learnAmmonia(walk, lessons, dayOfInstant(walk.run.timeZone, entry.atMs));
	const bottle = walk.bottles.find(({ id }) => id === of);
	if (bottle) learnLoss(walk, lessons, bottle, entry);
	if (entry.id === lessons.closes) walk.trace.open = false;
}

const once = <T extends AmmoniaFit | LossFit>(
	lessons: Lessons,
	of: string,
	fit: () => T | null
): T | null => {
	if (!lessons.fits.has(of)) lessons.fits.set(of, fit());
	return (lessons.fits.get(of) ?? null) as T | null;
};

function learnAmmonia(walk: Walk, lessons: Lessons, day: number): void {
	const { trace } = walk;
	if (!trace) return;
	const { central, low, high } = walk.rates(day);
	const made = { central: central.tanMgPerDay, low: low.tanMgPerDay, high: high.tanMgPerDay };
	const known = { made, rates: central, volumeL: walk.forecast.central.volumeL };
	const fit = once(lessons, 'NH3', () => fitAmmonia(trace, known));
	if (!fit) return;
	walk.learning.ammonia = fit;
	const { forecast } = walk;
	walk.forecast = {
		...withMost(forecast),
		central: { ...forecast.central, tanMg: fit.tanMg.central },
		low: { ...forecast.low, tanMg: fit.tanMg.low },
		high: { ...forecast.high, tanMg: fit.tanMg.high }
	};
}

function learnLoss(
	walk: Walk,
	lessons: Lessons,
	bottle: Bottle,
	entry: Extract<Fact, { kind: 'reading' }>
): void {
	const { trace } = walk;
	if (!trace) return;
	const fit = once(lessons, bottle.id, () => fitLoss(trace, bottle));
	if (!fit) return;
	walk.learning.losses.set(bottle.index, fit);
	const forecast = withMost(walk.forecast);
	walk.forecast = forecast;
	if (walk.doubts[bottle.index]?.implausible) return;
	walk.forecast = {
		...forecast,
		low: withMedicine(forecast.low, bottle.index, fit.mass.low),
		high: withMedicine(forecast.high, bottle.index, fit.mass.high),
		believed: withMedicine(forecast.believed ?? forecast.central, bottle.index, fit.mass.central)
	};
	walk.learning.pending.push({ bottle, readAtMs: entry.atMs, reading: entry.value });
}

/** From here on doses go by a water of their own, judged at the published least loss. */
const withMost = (forecast: Forecast): Forecast & { most: Forecast['high'] } => ({
	...forecast,
	most: forecast.most ?? forecast.high
});

/**
 * Before a service: where the last reading is no longer of this service, the forecast goes on from what all readings
 * together say. A reading outside the window, or one that is in doubt, stands until the next; and no side of the
 * window is left on the word of the fit alone.
 */
export function believe(walk: Walk, serviceMs: number): void {
	const { pending } = walk.learning;
	if (pending.length === 0 || pending.some(({ readAtMs }) => serviceMs - readAtMs < OWN_SERVICE_MS)) return;
	for (const { bottle, reading } of pending) {
		const { central, believed } = walk.forecast;
		const { floor, ceiling } = boundsOf(walk, bottle);
		const doubt = walk.doubts[bottle.index];
		if (!believed || doubt?.implausible || doubt?.unconfirmed || reading < floor || reading > ceiling)
			continue;
		const stands = central.medicinesMg[bottle.index] ?? 0;
		const mass = Math.min(
			Math.max(believed.medicinesMg[bottle.index] ?? 0, Math.min(stands, floor * central.volumeL)),
			Math.max(stands, ceiling * central.volumeL)
		);
		walk.forecast = { ...walk.forecast, central: withMedicine(central, bottle.index, mass) };
	}
	const { believed: _, ...rest } = walk.forecast;
	walk.forecast = rest;
	walk.learning.pending = [];
}

/** The window of the hold that is under way; without one, nothing is too low. */
export function boundsOf({ active, run }: Walk, bottle: Bottle): { floor: number; ceiling: number } {
	const held = active.find((one) => one.bottle === bottle && one.phase.kind === 'hold');
	const levels = held && holdLevels(held.phase, bottle, run.lots);
	return levels ?? { floor: 0, ceiling: bottle.ceiling ?? Infinity };
}
