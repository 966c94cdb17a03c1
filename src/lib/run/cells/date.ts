import { read, unreadable, type Read } from '../../units/index.ts';
import { dayNumber, dayOf, weekday } from '../days.ts';
import type { Day } from '../run.ts';
import { tidy } from './context.ts';
import { weekdayNamed } from './weekdays.ts';

const months = [
	'january',
	'february',
	'march',
	'april',
	'may',
	'june',
	'july',
	'august',
	'september',
	'october',
	'november',
	'december'
];
const shortMonths = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/;
const numeric = /^(\d{1,2})([/.-])(\d{1,2})\2(\d{4})$/;
const dayFirst = /^(\d{1,2})(?:st|nd|rd|th|\.)?[ -]?([a-z]{3,9})\.?,?(?:[ -](\d{4}))?$/i;
const monthFirst = /^([a-z]{3,9})\.? ?(\d{1,2})(?:st|nd|rd|th)?(?:,? ?(\d{4}))?$/i;
const leadingWeekday = /^([a-z]{3,9})\.?,? +(?=\d|[a-z]{3})/i;

/** `27 Nov 2026` in the sheet, `2026-11-27` in a file. */
export function printDay(day: Day, form: 'sheet' | 'file'): string {
	if (form === 'file') return day;
	return `${Number(day.slice(8))} ${shortMonths[Number(day.slice(5, 7)) - 1]} ${day.slice(0, 4)}`;
}

/**
 * A date: `2026-11-27`, `27 Nov 2026`, `Nov 27, 2026`, `Fri 27 Nov`, `11/27/2026`. Without a year it is the one
 * nearest to `today`; where there is no today (a plan file) the year is asked for. `3/4/2026` may be two days and is
 * refused, as is a date that does not exist or a weekday that does not fit.
 */
export function readDay(text: string, today: Day | null): Read<Day> {
	const source = tidy(text);
	const named = leadingWeekday.exec(source);
	const weekdayTyped = named ? weekdayNamed(named[1] ?? '') : null;
	const day = readDate(
		weekdayTyped && named ? source.slice(named[0].length) : source,
		text,
		today,
		weekdayTyped
	);
	if (day.ok && weekdayTyped && weekday(dayNumber(day.value)) !== weekdayTyped) {
		return unreadable('weekday', text, 'a weekday that fits the date, or the date alone');
	}
	return day;
}

function readDate(source: string, text: string, today: Day | null, weekdayTyped: number | null): Read<Day> {
	const plain = iso.exec(source);
	if (plain) return existing(text, Number(plain[1]), Number(plain[2]), Number(plain[3]));
	const figures = numeric.exec(source);
	if (figures) return readFigures(text, Number(figures[1]), Number(figures[3]), Number(figures[4]));
	const words = dayFirst.exec(source);
	const parts = words ? [words[1], words[2], words[3]] : monthFirst.exec(source)?.slice(1);
	const [date, name, year] = words ? (parts ?? []) : [parts?.[1], parts?.[0], parts?.[2]];
	const month = name === undefined ? 0 : monthNamed(name);
	if (month === 0) return unreadable('date', text, `a date such as ${example(today)}`);
	if (year !== undefined) return existing(text, Number(year), month, Number(date));
	if (today === null) return unreadable('year', text, `a date with its year such as ${example(today)}`);
	return nearest(text, month, Number(date), today, weekdayTyped);
}

const example = (today: Day | null): string => (today === null ? '2026-11-27' : '27 Nov 2026 or 2026-11-27');

function monthNamed(name: string): number {
	const wanted = name.toLowerCase().replace(/^sept$/, 'sep');
	return months.findIndex((month) => month.startsWith(wanted)) + 1;
}

function existing(text: string, year: number, month: number, date: number): Read<Day> {
	const day = dayOf(year, month, date);
	return day === null ? unreadable('date', text, 'a date that exists, in the years 1900 to 2199') : read(day);
}

/** `11/27/2026` can only be one day; `3/4/2026` may be March or April. */
function readFigures(text: string, first: number, second: number, year: number): Read<Day> {
	if (first <= 12 && second <= 12 && first !== second) {
		return unreadable(
			'ambiguous-date',
			text,
			'the month as a word, such as 3 Apr 2026: figures may mean two days'
		);
	}
	return first > 12 ? existing(text, year, second, first) : existing(text, year, first, second);
}

/** 29 February may be four years off, eight around a century. */
function nearest(
	text: string,
	month: number,
	date: number,
	today: Day,
	weekdayTyped: number | null
): Read<Day> {
	const now = dayNumber(today);
	const thisYear = Number(today.slice(0, 4));
	let best: Day | null = null;
	for (let year = thisYear - 8; year <= thisYear + 8; year++) {
		const day = dayOf(year, month, date);
		if (day === null) continue;
		if (weekdayTyped && Math.abs(year - thisYear) <= 1 && weekday(dayNumber(day)) !== weekdayTyped) continue;
		if (best === null || Math.abs(dayNumber(day) - now) <= Math.abs(dayNumber(best) - now)) best = day;
	}
	return best === null ? unreadable('date', text, 'a date that exists') : read(best);
}
