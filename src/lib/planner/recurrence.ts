import { expandRule, type Repeat } from '../run/index.ts';

/** No phase outlives the longest plan, so no rule is expanded further than this. */
export const LONGEST_PLAN_DAYS = 400;

/** Does a repeat fall on `day`, for a phase that began on `from`? Both in days since 1970-01-01. */
export type Falls = (day: number) => boolean;

/**
 * Reads a repeat into a test of days. `every n d` counts from `from`; weekdays are ISO (1 Monday); an RFC 5545
 * rule is expanded by rrule on floating dates (written as UTC, no TZID), starting on `from`.
 */
export function fallsOn(repeat: Repeat, from: number): Falls {
	if ('everyDays' in repeat) return (day) => day >= from && (day - from) % repeat.everyDays === 0;
	if ('weekdays' in repeat) return (day) => day >= from && repeat.weekdays.includes(isoWeekday(day));
	const days = new Set(expandRule(repeat.rule, from, LONGEST_PLAN_DAYS));
	return (day) => days.has(day);
}

/** 1970-01-01 was a Thursday. */
const isoWeekday = (day: number) => ((((day + 3) % 7) + 7) % 7) + 1;
