import { dayNumber, dayOf, dayText, type Day } from '../run/index.ts';

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

const isoDay = /\b\d{4}-\d{2}-\d{2}\b/g;

/** `27 Nov`, with the year only when it is not the nearest one to `today`. */
export function shortDate(day: Day, today: Day): string {
	const month = months[Number(day.slice(5, 7)) - 1] ?? '';
	const far = Math.abs(dayNumber(day) - dayNumber(today)) > 182;
	return `${Number(day.slice(8))} ${month}${far ? ` ${day.slice(0, 4)}` : ''}`;
}

/** Every ISO day in a cell's text, written short. */
export const isoToShort = (text: string, today: Day): string =>
	text.replace(isoDay, (day) => shortDate(day, today));

/** Every ISO day in a text moved on by whole days. */
export const shiftDays = (text: string, by: number): string =>
	text.replace(isoDay, (day) => dayText(dayNumber(day) + by));

const monthWord = '(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\\.?';
const dayFirst = new RegExp(`\\b(\\d{1,2})(?:st|nd|rd|th)?\\s+${monthWord}(?:,?\\s+(\\d{4}))?\\b`, 'gi');
const monthFirst = new RegExp(`\\b${monthWord}\\s+(\\d{1,2})(?:st|nd|rd|th)?\\b(?:,?\\s+(\\d{4}))?`, 'gi');

/** The year that brings a date nearest to `today`. */
function nearest(date: string, month: string, year: string | undefined, today: Day): Day | null {
	const number = months.findIndex((name) => name.toLowerCase() === month.toLowerCase()) + 1;
	if (year !== undefined) return dayOf(Number(year), number, Number(date));
	const now = Number(today.slice(0, 4));
	const near = [now - 1, now, now + 1].flatMap((one) => dayOf(one, number, Number(date)) ?? []);
	const away = (day: Day) => Math.abs(dayNumber(day) - dayNumber(today));
	return near.sort((a, b) => away(a) - away(b))[0] ?? null;
}

/** Dates written in words become ISO days; one that does not exist (30 Feb) stays as typed. */
export const shortToIso = (text: string, today: Day): string =>
	text
		.replace(
			dayFirst,
			(whole, date: string, month: string, year?: string) => nearest(date, month, year, today) ?? whole
		)
		.replace(
			monthFirst,
			(whole, month: string, date: string, year?: string) => nearest(date, month, year, today) ?? whole
		);
