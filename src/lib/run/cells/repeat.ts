import { read, readDurationDays, unreadable, type Read } from '../../units/index.ts';
import type { Repeat } from '../run.ts';
import { tidy } from './context.ts';
import { readRule } from './rule.ts';
import { printWeekdays, readWeekdays } from './weekdays.ts';

const expected = 'every 7 d, daily, weekly, Mon, Thu, ramp 2 d or an RFC 5545 RRULE of whole days';
const mostDays = 366;

/** How a row repeats, and over how many services it rises. */
export interface Repeats {
	repeat: Repeat | null;
	rampDays: number | null;
}

/** `every 7 d`, `daily`, `weekly`, `Mon, Thu`, `RRULE:...`; a ramp, alone or before one of them: `ramp 2 d`. */
export function readRepeats(text: string): Read<Repeats> {
	const source = tidy(text);
	const ramp = /^ramp (?:over )?([^,;]+)(?:[,;] ?(.+))?$/i.exec(source);
	if (!ramp) {
		const repeat = readRepeat(text);
		return repeat.ok ? read({ repeat: repeat.value, rampDays: null }) : repeat;
	}
	const days = wholeDays(ramp[1] ?? '');
	if (days === null) return unreadable('ramp', text, 'ramp 2 d, in whole days');
	if (ramp[2] === undefined) return read({ repeat: null, rampDays: days });
	const repeat = readRepeat(ramp[2]);
	return repeat.ok ? read({ repeat: repeat.value, rampDays: days }) : unreadable('repeat', text, expected);
}

/** Which days, without a ramp. */
export function readRepeat(text: string): Read<Repeat> {
	const source = tidy(text);
	if (/^(daily|every ?day|each day)$/i.test(source)) return read({ everyDays: 1 });
	if (/^(weekly|every week)$/i.test(source)) return read({ everyDays: 7 });
	if (/^every other day$/i.test(source)) return read({ everyDays: 2 });
	if (/^(RRULE:|FREQ=)/i.test(source)) {
		const rule = readRule(source);
		return rule.ok ? read({ rule: rule.value }) : unreadable('rule', text, rule.problem.expected);
	}
	const days = wholeDays(source.replace(/^every ?/i, ''));
	if (days !== null) return read({ everyDays: days });
	const weekdays = readWeekdays(source.replace(/^(every|on) /i, ''));
	return weekdays ? read({ weekdays }) : unreadable('repeat', text, expected);
}

function wholeDays(text: string): number | null {
	const duration = readDurationDays(text.replace(/^(\d+)$/, '$1 d'));
	if (!duration.ok || !Number.isInteger(duration.value)) return null;
	return duration.value >= 1 && duration.value <= mostDays ? duration.value : null;
}

export function printRepeat(repeat: Repeat): string {
	if ('weekdays' in repeat) return printWeekdays(repeat.weekdays);
	if ('rule' in repeat) return `RRULE:${repeat.rule}`;
	return repeat.everyDays === 1 ? 'daily' : repeat.everyDays === 7 ? 'weekly' : `every ${repeat.everyDays} d`;
}

/** The row's own repeat is a number of days that is held against bounds, so a week is counted out there. */
export function printRepeats({ repeat, rampDays }: Repeats): string {
	const parts = rampDays === null ? [] : [`ramp ${rampDays} d`];
	const weekly = repeat && 'everyDays' in repeat && repeat.everyDays === 7;
	if (repeat) parts.push(weekly ? 'every 7 d' : printRepeat(repeat));
	return parts.join(', ');
}
