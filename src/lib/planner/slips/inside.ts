import { bottlesOf } from '../bottle.ts';
import type { Seen } from '../checks/index.ts';
import { holdLevels } from '../phases/hold.ts';
import type { Plan, Task } from '../plan.ts';
import { levelText } from '../words.ts';

/** Levels are sums of masses. */
const ROUNDING = 1e-9;

/** A reading that nobody has made yet. */
interface Supposed {
	what: string;
	value: string;
}

/**
 * What a late test of a hold may still bring, where the level is forecast to have fallen under the floor: a reading
 * inside says that it did not, and the days since the last one count. `supposing` plans with such a reading made now.
 * Empty where it would change nothing.
 */
export function ifInside(
	{ run, plan, nowMs }: Seen,
	{ phase: id, what: tested, at: due }: Task,
	supposing: (reading: Supposed) => Plan
): string {
	const phase = run.phases.find((one) => one.id === id);
	const bottle = bottlesOf(run).find((one) => one.id === phase?.medicine);
	const levels = phase && bottle && phase.kind === 'hold' ? holdLevels(phase, bottle, run.lots) : null;
	if (!bottle || !levels || !tested?.includes(bottle.measuredAs)) return '';
	const fallen = plan.levels.some(
		({ when, at, medicinesMgPerL }) =>
			when === 'before' &&
			at >= due &&
			Date.parse(at) <= nowMs &&
			(medicinesMgPerL[bottle.id] ?? 0) < levels.floor - ROUNDING
	);
	if (!fallen) return '';
	const floor = levelText(bottle, levels.floor);
	const { release } = supposing({ what: bottle.measuredAs, value: floor });
	if (release === null || (plan.release !== null && release >= plan.release)) return '';
	return ` By the forecast it has fallen under ${floor}, and days under it do not count. If it reads ${floor} or more they do: release ${release}.`;
}
