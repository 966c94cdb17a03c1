import { RRule } from 'rrule';
import { read, readDurationDays, unreadable, type Read } from '../../units/index.ts';
import type { Repeat } from '../run.ts';
import { tidy } from './context.ts';
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
	if (/^(RRULE:|FREQ=)/i.test(source)) return readRule(text, source);
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

const wholeDayRules = ['YEARLY', 'MONTHLY', 'WEEKLY', 'DAILY'];

/** Floating whole days only: a rule with a start, a zone or a time of its own would not be this row's. */
function readRule(text: string, source: string): Read<Repeat> {
	const rule = source.replace(/^RRULE:/i, '').toUpperCase();
	const refuse = (why: string) => unreadable('rule', text, why);
	if (!/^[A-Z]+=[A-Z0-9,+-]+(;[A-Z]+=[A-Z0-9,+-]+)*;?$/.test(rule)) return refuse(expected);
	const parts = new Map(rule.split(';').map((part) => part.split('=') as [string, string]));
	if (!wholeDayRules.includes(parts.get('FREQ') ?? ''))
		return refuse('FREQ=DAILY, WEEKLY, MONTHLY or YEARLY');
	if (['DTSTART', 'BYHOUR', 'BYMINUTE', 'BYSECOND'].some((key) => parts.has(key)))
		return refuse('a rule of whole days, without DTSTART, BYHOUR, BYMINUTE or BYSECOND');
	if (parts.has('INTERVAL') && !/^[1-9]\d{0,3}$/.test(parts.get('INTERVAL') ?? ''))
		return refuse('INTERVAL of at least 1');
	try {
		RRule.parseString(rule);
	} catch {
		return refuse(expected);
	}
	return read({ rule });
}

export function printRepeat(repeat: Repeat): string {
	if ('weekdays' in repeat) return printWeekdays(repeat.weekdays);
	if ('rule' in repeat) return `RRULE:${repeat.rule}`;
	return repeat.everyDays === 1 ? 'daily' : repeat.everyDays === 7 ? 'weekly' : `every ${repeat.everyDays} d`;
}

export function printRepeats({ repeat, rampDays }: Repeats): string {
	return [
		...(rampDays === null ? [] : [`ramp ${rampDays} d`]),
		...(repeat ? [printRepeat(repeat)] : [])
	].join(', ');
}
