import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayNumber, dayOf, dayText, isDay, weekday } from './index.ts';

describe('a day', () => {
	it.each([
		'2026-02-29',
		'2026-02-30',
		'2100-02-29',
		'2026-04-31',
		'2026-00-10',
		'2026-13-01',
		'2026-01-00',
		'1899-12-31',
		'2200-01-01',
		'2026-1-1',
		'26-01-01',
		' 2026-01-01',
		'2026-01-01T00:00'
	])('%s is none', (text) => expect(isDay(text)).toBe(false));
	it.each(['2024-02-29', '2000-02-29', '1900-01-01', '2199-12-31'])('%s is one', (text) =>
		expect(isDay(text)).toBe(true)
	);

	// ISO 8601:2019 names 2000-01-01 a Saturday; Unix time 946684800 is its midnight, day 10957.
	it('is counted from 1970-01-01', () => {
		expect([dayNumber('1970-01-01'), dayNumber('2000-01-01'), weekday(10957), weekday(0)]).toEqual([
			0, 10957, 6, 4
		]);
		expect(dayText(10957)).toBe('2000-01-01');
	});

	it('and its number say the same, in order, week after week', () => {
		const number = fc.integer({ min: dayNumber('1900-01-01'), max: dayNumber('2199-12-25') });
		fc.assert(
			fc.property(number, (n) => {
				const day = dayText(n);
				expect(isDay(day)).toBe(true);
				expect(dayNumber(day)).toBe(n);
				expect(dayText(n + 1) > day).toBe(true);
				expect(weekday(n + 7)).toBe(weekday(n));
				expect(weekday(n)).toBe(new Date(`${day}T12:00:00Z`).getUTCDay() || 7);
			}),
			{ seed: 11 }
		);
	});

	it('made of a year, month and date exists or is null', () => {
		expect(dayOf(2026, 2, 30)).toBeNull();
		expect(dayOf(2026, 2, 28)).toBe('2026-02-28');
	});
});
