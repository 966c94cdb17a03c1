import { read, unreadable, type Read } from '../../units/index.ts';
import { dayText } from '../days.ts';

const MS_PER_DAY = 86_400_000;

const signed = (most: number) => {
	const one = (text: string) => /^[+-]?[1-9]\d{0,2}$/.test(text) && Math.abs(Number(text)) <= most;
	return (value: string) => value.split(',').every(one);
};
const counted = (most: number) => (value: string) => /^[1-9]\d{0,3}$/.test(value) && Number(value) <= most;

/** The parts of an RFC 5545 rule that whole days can have, and what each may hold. */
const parts: Readonly<Record<string, (value: string) => boolean>> = {
	FREQ: (value) => /^(DAILY|WEEKLY|MONTHLY|YEARLY)$/.test(value),
	INTERVAL: counted(400),
	COUNT: counted(1000),
	UNTIL: (value) => untilDay(value) !== null,
	WKST: (value) => /^(MO|TU|WE|TH|FR|SA|SU)$/.test(value),
	BYDAY: (value) => /^([+-]?[1-5]?[0-9]?(MO|TU|WE|TH|FR|SA|SU)(,|$))+$/.test(value) && !value.endsWith(','),
	BYMONTH: (value) => value.split(',').every((month) => /^([1-9]|1[0-2])$/.test(month)),
	BYMONTHDAY: signed(31),
	BYYEARDAY: signed(366),
	BYWEEKNO: signed(53),
	BYSETPOS: signed(366)
};

/** `20261224` or `20261224T235959Z`: the day alone counts, since a rule here has no clock. */
export function untilDay(value: string): number | null {
	const found = /^(\d{4})(\d\d)(\d\d)(T\d{6}Z?)?$/.exec(value);
	if (!found) return null;
	const number = Date.UTC(Number(found[1]), Number(found[2]) - 1, Number(found[3])) / MS_PER_DAY;
	return dayText(number) === `${found[1]}-${found[2]}-${found[3]}` ? number : null;
}

/**
 * The value of an RFC 5545 `RRULE:` of whole days, in capitals. A start, a zone, a time of day or an unknown part is
 * refused: the row has its own start, the run its own times. Everything is checked before rrule sees it, since rrule
 * never returns from some rules (INTERVAL=1.5) and guesses at others.
 */
export function readRule(text: string): Read<string> {
	const rule = text
		.replace(/^RRULE:/i, '')
		.replace(/ /g, '')
		.replace(/;$/, '')
		.toUpperCase();
	const seen = new Set<string>();
	for (const part of rule.split(';')) {
		const [name = '', value = '', more] = part.split('=');
		const fits = Object.hasOwn(parts, name) ? parts[name] : undefined;
		if (!fits) return unreadable('rule', text, `RRULE parts out of ${Object.keys(parts).join(', ')}`);
		if (seen.has(name) || more !== undefined) return unreadable('rule', text, `${name} once`);
		if (!fits(value)) return unreadable('rule', text, `${name} as RFC 5545 has it for whole days`);
		seen.add(name);
	}
	if (!seen.has('FREQ'))
		return unreadable('rule', text, 'a rule with FREQ, such as RRULE:FREQ=WEEKLY;BYDAY=MO,TH');
	if (seen.has('COUNT') && seen.has('UNTIL')) return unreadable('rule', text, 'COUNT or UNTIL, not both');
	if (mismatched(rule, seen))
		return unreadable(
			'rule',
			text,
			'BYWEEKNO and BYYEARDAY only in a yearly rule, numbered weekdays in a monthly or yearly one'
		);
	if (neverFalls(rule)) return unreadable('rule', text, 'a day that one of its months has');
	return read(rule);
}

const longestMonth = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** 30 February: none of the months named has any of the days named. */
function neverFalls(rule: string): boolean {
	const months = /BYMONTH=([^;]+)/.exec(rule)?.[1]?.split(',').map(Number) ?? [];
	const dates = /BYMONTHDAY=([^;]+)/.exec(rule)?.[1]?.split(',').map(Number) ?? [];
	if (months.length === 0 || dates.length === 0) return false;
	return !months.some((month) => dates.some((date) => Math.abs(date) <= (longestMonth[month - 1] ?? 0)));
}

/** RFC 5545, 3.3.10: what only the longer periods may carry. */
function mismatched(rule: string, seen: ReadonlySet<string>): boolean {
	const yearly = rule.includes('FREQ=YEARLY');
	if (!yearly && (seen.has('BYWEEKNO') || seen.has('BYYEARDAY'))) return true;
	return !yearly && !rule.includes('FREQ=MONTHLY') && /BYDAY=[^;]*\d/.test(rule);
}
