import * as library from 'rrule';
import { dayText } from '../days.ts';
import { untilDay } from './rule.ts';

// rrule is UMD to plain Node, which sees all of it as one default export
const bundled: typeof library & { default?: typeof library } = library;
const { RRule } = bundled.default ?? bundled;

const MS_PER_DAY = 86_400_000;

/**
 * The days of a rule that begins on day `from`, at most `days` of them later (days since 1970-01-01, ascending).
 * rrule searches on to the year 9999 for the next hit, eight seconds for a rule that never falls (30 February) or
 * whose step misses its weekday. So the search is made in years just before 9999 that have the same calendar: one
 * that finds nothing ends within milliseconds.
 */
export function expandRule(rule: string, from: number, days: number): number[] {
	const until = /(?:^|;)UNTIL=([^;]+)/.exec(rule)?.[1];
	const last = Math.min(from + days, until === undefined ? Infinity : (untilDay(until) ?? Infinity));
	const shift = shiftOf(from, days);
	const start = new Date((from + shift) * MS_PER_DAY);
	const end = new Date((last + shift) * MS_PER_DAY);
	if (last < from) return [];
	const { until: _until, ...options } = RRule.parseString(rule);
	return new RRule({ ...options, dtstart: start })
		.between(start, end, true)
		.map((date) => Math.floor(date.getTime() / MS_PER_DAY) - shift);
}

/** Days to the latest years whose weekdays and leap days fall as in those from the year before `from` on. */
function shiftOf(from: number, days: number): number {
	const year = Number(dayText(from).slice(0, 4));
	const years = Number(dayText(from + days).slice(0, 4)) - year + 3;
	const newYear = (one: number) => Date.UTC(one, 0, 1) / MS_PER_DAY;
	const shape = (first: number) => {
		const begins = newYear(first);
		return `${(((begins + 3) % 7) + 7) % 7}:${Array.from({ length: years }, (_, i) => newYear(first + i + 1) - newYear(first + i)).join()}`;
	};
	const wanted = shape(year - 1);
	for (let late = 9998 - years; late > year; late--) {
		if (shape(late - 1) === wanted) return newYear(late) - newYear(year);
	}
	return 0;
}
