import { describe, expect, it } from 'vitest';
import { differencesOf, leansNowhere } from './difference.ts';
import type { RawEntry } from './fact-entry.ts';
import { ledgerOf } from './grid.ts';
import { named, now } from './sample.ts';

const at = (day: string, time: string) => `2026-${day}T${time}:00-06:00`;
const log: RawEntry[] = [
	{ id: '1', at: at('11-30', '08:04'), kind: 'done', task: 'copper/dose/1', amount: '5.0 mL' },
	{ id: '2', at: at('12-01', '08:00'), kind: 'reading', what: 'Cu', value: '0.08 mg/L' },
	{ id: '3', at: at('12-01', '08:10'), kind: 'done', task: 'copper/dose/2', amount: '5.0 mL' },
	{
		id: '4',
		at: at('12-01', '21:00'),
		kind: 'observation',
		lot: 'a',
		signs: ['haze'],
		appetite: 'picked',
		breathsPerMinute: 70
	},
	{ id: '5', at: at('12-02', '06:00'), kind: 'loss', lot: 'a', count: 1 },
	{ id: '6', at: at('12-02', '09:00'), kind: 'change', litres: '10 L' },
	{ id: '7', at: at('12-02', '09:10'), kind: 'dose', medicine: 'cu', amount: '0.4 mL' }
];
const names = named(log);
const { rows, columns } = ledgerOf(names, Date.parse(now));
const row = (day: string) => rows.find((one) => one.day === `2026-${day}`);

describe('the ledger', () => {
	it('has a row for every service from the first day to release', () => {
		expect(rows[0]?.day).toBe('2026-11-27');
		expect(rows.at(-1)?.day).toBe(names.plan.tasks.at(-1)?.date);
		expect(
			rows
				.filter(({ future }) => !future)
				.map(({ day }) => day)
				.at(-1)
		).toBe('2026-12-03');
	});

	it('shows medicines, ammonia and nitrate, and what else is read', () => {
		expect(columns.map(({ what }) => what)).toEqual(['Cu', 'pz', 'NH3', 'NO3']);
		expect(ledgerOf(names, Date.parse(now), true).columns.map(({ what }) => what)).toContain('O2');
	});

	it('shows a dose on the day it was chosen to be given, at whatever hour', () => {
		const late = named([
			{ id: '1', at: at('12-01', '07:00'), kind: 'choice', task: 'copper/dose/1', taken: 'now' },
			{ id: '2', at: at('12-01', '07:05'), kind: 'done', task: 'copper/dose/1', amount: '5.0 mL' }
		]);
		const days = ledgerOf(late, Date.parse(now)).rows;
		const given = days.flatMap(({ day, doses }) => doses.map(({ text, state }) => [day, text, state]));
		expect(given).toContainEqual(['2026-12-01', 'Ionic copper 5.0 mL', 'done']);
	});

	it('puts each fact on the service it belongs to', () => {
		expect(row('11-30')?.doses).toEqual([{ text: 'Ionic copper 5.0 mL', state: 'done', planned: true }]);
		expect(row('12-01')?.readings.Cu?.map(({ value }) => value)).toEqual([0.08]);
		expect(row('12-01')?.signs).toEqual([
			'Banded cardinalfish: whitish haze or film',
			'Banded cardinalfish: 70 breaths a minute'
		]);
		expect(row('12-01')?.appetite).toEqual(['Banded cardinalfish: picked']);
		expect(row('12-02')?.losses).toEqual(['Banded cardinalfish: 1 fish died']);
		expect(row('12-02')?.doses.at(-1)).toEqual({
			text: 'Ionic copper 0.4 mL',
			state: 'done',
			planned: false
		});
		expect(row('12-02')?.changes.at(-1)?.text).toBe('Unplanned change of 10 L with display water');
	});

	it('the forecast before the jobs is what an engineer’s arithmetic gives', () => {
		// 5.0 mL of 2 mg/mL in 112 L, and nothing takes ionic copper out of a bare tank
		expect(row('12-01')?.forecast.Cu).toBeCloseTo(10 / 112, 9);
	});
});

describe('how wrong the forecast was', () => {
	it('is forecast minus reading, in the mean and in the mean of its size', () => {
		const more: RawEntry[] = [
			...log,
			{ id: '8', at: at('12-03', '08:00'), kind: 'reading', what: 'Cu', value: '0.17 mg/L' }
		];
		const read = named(more);
		const copper = differencesOf(read.run, read.plan).find(({ measure }) => measure.what === 'Cu');
		// the first meets 10/112; then 0.08 stands, 10 mg come in, 10 of 112 L go out, 0.8 mg come in
		const second = ((0.08 + 10 / 112) * 102) / 112 + 0.8 / 112;
		const [a, b] = [10 / 112 - 0.08, second - 0.17];
		expect(copper?.points.map(({ difference }) => difference)).toEqual([
			expect.closeTo(a, 9),
			expect.closeTo(b, 9)
		]);
		expect(copper?.bias).toBeCloseTo((a + b) / 2, 9);
		expect(copper?.meanAbsolute).toBeCloseTo((Math.abs(a) + Math.abs(b)) / 2, 9);
	});

	it('takes what sums of doubles leave behind for no difference', () => {
		// 10 mg in 112 L read to the last digit of a double
		const exact = {
			id: '2',
			at: at('12-01', '08:00'),
			kind: 'reading',
			what: 'Cu',
			value: `${10 / 112 + 1e-15} mg/L`
		};
		const read = named([...log.slice(0, 1), exact]);
		const copper = differencesOf(read.run, read.plan).find(({ measure }) => measure.what === 'Cu');
		expect(copper?.points.map(({ difference }) => difference)).toEqual([0]);
	});

	it.each([
		[0, 0, true],
		[0.0000004, 0.0004, true],
		[-0.0011, 0.002, false],
		[0.06, 0.06, false]
	])('a mean error of %f where they are %f in size leans nowhere: %s', (bias, meanAbsolute, leans) =>
		expect(leansNowhere({ bias, meanAbsolute })).toBe(leans)
	);

	it('compares ammonia as TAN whatever the kit counts', () => {
		// 1 mg/L as NH3 is 14.007/17.031 mg/L as N
		const raw = {
			id: '9',
			at: at('12-03', '08:00'),
			kind: 'reading',
			what: 'NH3',
			value: '1 mg/L',
			as: 'nh3-total'
		};
		const read = named([raw]);
		const [ammonia] = differencesOf(read.run, read.plan);
		expect(ammonia?.points[0]?.reading).toBeCloseTo(14.007 / 17.031, 4);
	});
});
