import { expect, test } from 'vitest';
import type { Chip } from './chip.ts';
import { hoursOf } from './hours.ts';
import type { DayCell, Week } from './weeks.ts';

const chip = (time: string) => ({ time, text: time }) as Chip;
const week = (...times: string[][]): Week =>
	({
		days: times.map((list, at) => ({ day: `2026-12-0${at + 1}`, chips: list.map(chip) }) as DayCell)
	}) as Week;

test('a week runs from seven to nine in the evening, and every job stands in its own hour and day', () => {
	const rows = hoursOf(week(['08:00', '20:15'], [], ['08:00']), ['08:00', '20:15']);
	expect(rows.map(({ hour }) => hour)).toEqual([7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21]);
	expect(rows.filter(({ service }) => service).map(({ time }) => time)).toEqual(['08:00', '20:15']);
	const placed = rows.flatMap(({ time, days }) =>
		days.flatMap(({ day, chips }) => chips.map(({ text }) => `${day} ${text} in ${time}`))
	);
	expect(placed).toEqual([
		'2026-12-01 08:00 in 08:00',
		'2026-12-03 08:00 in 08:00',
		'2026-12-01 20:15 in 20:15'
	]);
});

test('early and late services widen the day', () => {
	const hours = hoursOf(week(['05:30']), ['05:30', '23:00']).map(({ hour }) => hour);
	expect([hours[0], hours.at(-1)]).toEqual([5, 23]);
	// and so does a job that was put at an hour of its own
	const put = hoursOf(week(['05:30'], ['22:10']), ['08:00']).map(({ hour }) => hour);
	expect([put[0], put.at(-1)]).toEqual([5, 22]);
});
