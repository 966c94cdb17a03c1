import { dayNumber, dayText, type Day } from '../run/index.ts';

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
