import { dayNumber, dayText, weekday } from '../run/index.ts';

/** ISO 8601 week of a day number (days since 1970-01-01): the week that holds the year's first Thursday is week 1. */
export function isoWeek(number: number): number {
	const thursday = number - weekday(number) + 4;
	const newYear = dayNumber(`${dayText(thursday).slice(0, 4)}-01-01`);
	return Math.floor((thursday - newYear) / 7) + 1;
}
