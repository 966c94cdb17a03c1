import { readLog, type Fact, type Run } from '../run/index.ts';
import { bottlesOf, type Bottle } from './bottle.ts';
import type { Schedule } from './changes.ts';
import { bottleRead, lessonsOf, type Lessons } from './fit/lessons.ts';
import { march } from './march.ts';
import { holdLevels } from './phases/hold.ts';
import type { Forecast } from './tank-water.ts';

/**
 * The water that each low reading of a held medicine met, by the plan as it stood just before it: once there is a newer
 * reading, the one before it teaches no more, and a march of today would judge the low one against another forecast than
 * the keeper was shown.
 */
export function metBefore(run: Run, nowMs: number, schedule: Schedule): ReadonlyMap<string, Forecast> {
	const bottles = bottlesOf(run);
	const facts = readLog(run.log);
	let met: ReadonlyMap<string, Forecast> = new Map();
	for (const [i, entry] of facts.entries()) {
		if (entry.atMs > nowMs || !isLow(run, bottles, entry)) continue;
		const before = lessonsOf(run, facts.slice(0, i), entry.atMs);
		if (!before) continue;
		const lessons: Lessons = { ...before, met, seeks: entry.id };
		const found = march({ ...run, log: facts.slice(0, i + 1) }, entry.atMs, schedule, false, lessons)?.walk
			.met;
		if (found) met = new Map([...met, [entry.id, found]]);
	}
	return met;
}

function isLow(run: Run, bottles: readonly Bottle[], entry: Fact): boolean {
	const bottle = entry.kind === 'reading' ? bottleRead(bottles, entry.what) : undefined;
	if (entry.kind !== 'reading' || !bottle) return false;
	return run.phases.some(
		(phase) =>
			phase.kind === 'hold' &&
			phase.medicine === bottle.id &&
			entry.value < (holdLevels(phase, bottle, run.lots)?.floor ?? 0)
	);
}
