import type { Day } from './run.ts';

const MS_PER_DAY = 86_400_000;
const form = /^(\d{4})-(\d{2})-(\d{2})$/;

/** Outside these years a date is taken for a slip of the fingers. */
export const firstYear = 1900;
export const lastYear = 2199;

/** `YYYY-MM-DD` of a date that exists (no 30 February) in the years 1900 to 2199; else null. */
export function dayOf(year: number, month: number, date: number): Day | null {
	if (year < firstYear || year > lastYear || month < 1 || month > 12 || date < 1) return null;
	if (date > daysIn(year, month)) return null;
	return `${year}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`;
}

function daysIn(year: number, month: number): number {
	if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
	return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/** Is the text a day as files write it, and one that exists? */
export function isDay(text: string): boolean {
	const parts = form.exec(text);
	return parts !== null && dayOf(Number(parts[1]), Number(parts[2]), Number(parts[3])) !== null;
}

/** Days since 1970-01-01. Throws on a text that is no day: whoever read it should have said so. */
export function dayNumber(day: Day): number {
	const parts = form.exec(day);
	if (!parts) throw new Error(`not a day: ${day}`);
	return Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3])) / MS_PER_DAY;
}

/** The day that many days after 1970-01-01. */
export const dayText = (number: number): Day => new Date(number * MS_PER_DAY).toISOString().slice(0, 10);

/** ISO weekday of a day number: 1 Monday to 7 Sunday. 1970-01-01 was a Thursday. */
export const weekday = (number: number): number => ((((number + 3) % 7) + 7) % 7) + 1;
