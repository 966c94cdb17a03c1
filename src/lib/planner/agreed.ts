import type { Run } from '../run/index.ts';
import { fewestChanges, type Schedule } from './changes.ts';
import type { Lessons } from './fit/lessons.ts';
import { march, type March } from './march.ts';

/** The search for changes and the march depend on each other; they agree within a few rounds or the last one stands. */
export const MOST_ROUNDS = 6;

/** March and search in turn until they agree; `past` holds the changes of days that have begun. */
export function agreed(
	run: Run,
	nowMs: number,
	lessons: Lessons | null,
	past: Schedule
): { walked: March | null; schedule: Schedule } {
	let schedule = past;
	let walked = march(run, nowMs, schedule, false, lessons);
	for (let round = 0; walked && round < MOST_ROUNDS; round++) {
		const next: Schedule = new Map([...past, ...fewestChanges(walked.chances, run.limits)]);
		if (round > 0 && same(schedule, next)) break;
		schedule = next;
		walked = march(run, nowMs, schedule, true, lessons);
	}
	return { walked, schedule };
}

export function same(a: Schedule, b: Schedule): boolean {
	if (a.size !== b.size) return false;
	for (const [day, { fraction, natural }] of a) {
		const other = b.get(day);
		if (!other || other.fraction !== fraction || other.natural !== natural) return false;
	}
	return true;
}
