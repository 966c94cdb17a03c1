import type { Chance } from './chance.ts';
import { LEAST, MOST, ROUNDING, trajectory, type Masses, type Step } from './change-step.ts';

export interface ChangeLimits {
	nh3MgNPerL: number;
	nitrateMgPerL: number;
}

/** No tank goes longer without a change (common practice, no source). */
const LONGEST_GAP_DAYS = 7;
/** NH3-N that a change overrides everything for, even while a dose acts (judgment, no source). */
export const OVERRIDE_MG_N_PER_L = 0.05;
/** Nitrate levels to fall back to where the limit cannot be held, mg/L. */
const NITRATE_STEPS = [20, 30, 40, 50, 75, 100, Infinity];

/**
 * Limits as masses. Where even half the water at every chance cannot hold ammonia, half goes at the last chance
 * before it; where nitrate cannot be held, the plan holds the next higher round level that can.
 */
export function withLimits(chances: readonly Chance[], limits: ChangeLimits): Step[] {
	const open = chances.map((chance): Step => ({
		...chance,
		may: chance.auto && chance.open && !chance.acting && !chance.barred,
		must: chance.pinned === null ? 0 : LEAST,
		tanLimitMg: Infinity,
		nitrateLimitMg: Infinity,
		dueWall: Infinity
	}));
	const best = trajectory(open, () => MOST);
	const limited = open.map((step, i): Step => {
		const share = step.toxicShare;
		const wanted =
			share === null || share <= 0 ? Infinity : (limits.nh3MgNPerL / share) * step.beforeL * (1 + ROUNDING);
		return {
			...step,
			tanLimitMg: (best[i]?.tanMg ?? 0) <= wanted ? wanted : Infinity,
			nitrateLimitMg:
				heldNitrate(limits.nitrateMgPerL, (best[i]?.nitrateMg ?? 0) / step.beforeL) *
				step.beforeL *
				(1 + ROUNDING),
			dueWall: LONGEST_GAP_DAYS
		};
	});
	return withMusts(limited, limits, best);
}

/** The limit where the best schedule holds it, else the next round level that it does hold. */
function heldNitrate(limit: number, best: number): number {
	if (best <= limit * (1 + ROUNDING)) return limit;
	return NITRATE_STEPS.find((step) => step > limit && best <= step) ?? Infinity;
}

/** Where the best there is stays over the limit, the last chance before it must take half. */
function withMusts(steps: Step[], limits: ChangeLimits, best: readonly Masses[]): Step[] {
	const musts = new Set<number>();
	steps.forEach((step, i) => {
		const over =
			(best[i]?.tanMg ?? 0) * (step.toxicShare ?? 0) > limits.nh3MgNPerL * step.beforeL * (1 + ROUNDING);
		const last = steps.findLastIndex((earlier, j) => j < i && earlier.may);
		const dirty = (best[last]?.tanMg ?? 0) > (steps[last]?.source.tanMg ?? 0) * (steps[last]?.volumeL ?? 0);
		if (over && dirty) musts.add(last);
	});
	return steps.map((step, i) => (musts.has(i) ? { ...step, must: MOST } : step));
}

/**
 * Where the water would pass the override level before the next permitted chance, a chance at which a dose still acts
 * may be used after all, and must be, so that ammonia wins over the dose.
 */
export function unblock(steps: Step[]): Step[] {
	steps.forEach((step, j) => {
		if (step.may || !step.acting || !step.auto || !step.open) return;
		const best = trajectory(steps, () => MOST);
		const until = steps.findIndex((later, i) => i > j && later.may);
		const over = steps.some(
			(later, i) =>
				i > j &&
				(until < 0 || i <= until) &&
				(best[i]?.tanMg ?? 0) * (later.toxicShare ?? 0) > OVERRIDE_MG_N_PER_L * later.beforeL
		);
		if (over) steps = steps.map((one, i) => (i === j ? { ...one, may: true, must: MOST } : one));
	});
	return steps;
}
