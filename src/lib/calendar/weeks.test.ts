import { describe, expect, test } from 'vitest';
import { plan } from '../planner/index.ts';
import { dayNumber, readRun } from '../run/index.ts';
import { isoWeek } from './iso-week.ts';
import { layWeeks, type Almanac } from './weeks.ts';

const document = {
	format: 'lazaret-plan/1',
	name: 'Lanes',
	timeZone: 'UTC',
	service: '08:00',
	tank: { name: 'T', net: '100 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1, filterClears: '40 L/d' },
	lots: [{ id: 'a', what: 'goby', group: 'goby', count: 1, mass: '10 g', arrived: '2026-11-27' }],
	medicines: [
		{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' },
		{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }
	],
	phases: [
		{ id: 'settle', kind: 'settle', starts: 'on 2026-11-27', lasts: '3 d', test: 'NH3 daily' },
		{
			id: 'hold',
			kind: 'hold',
			medicine: 'cu',
			starts: 'after settle',
			lasts: '28 d',
			level: '0.15-0.20 mg/L',
			repeat: 'ramp 2 d',
			test: 'Cu daily, NH3 daily'
		},
		{
			id: 'flukes',
			kind: 'pulse',
			medicine: 'pz',
			starts: 'with hold + 2 d',
			lasts: '2 doses',
			level: '2.5 mg/L',
			repeat: 'every 7 d'
		},
		{ id: 'look', kind: 'observe', starts: 'with hold + 9 d', lasts: '2 d' }
	],
	away: ['2026-12-11']
};
const run = readRun(document, { today: null });
// planned before it began; the calendar is looked at on 2 December
const planned = plan(run, '2026-11-26T12:00:00Z');
const almanac: Almanac = {
	today: '2026-12-02',
	nowMs: Date.parse('2026-12-02T12:00:00Z'),
	firstWeekday: 1,
	startOf: (day) => Date.parse(`${day}T00:00:00Z`),
	names: { cu: { name: 'Ionic copper', short: 'Cu' }, pz: { name: 'Praziquantel', short: 'Pz' } },
	readings: [{ atMs: Date.parse('2026-12-01T12:00:00Z'), key: 'cu', value: 0.1 }],
	system: 'metric',
	titleOf: (first) => `Week of ${first}`
};
const weeks = layWeeks(planned, run, almanac);

// ISO 8601: week 1 holds the year's first Thursday; the dates are well-known corner cases of the standard
test.each([
	['2026-11-27', 48],
	['2027-01-03', 53],
	['2027-01-04', 1],
	['2024-12-30', 1],
	['2021-01-03', 53],
	['2020-12-31', 53],
	['2019-12-30', 1]
])('%s is in week %i', (day, week) => expect(isoWeek(dayNumber(day))).toBe(week));

describe('weeks', () => {
	test('begin on the keeper’s first weekday and hold the whole run', () => {
		expect(weeks[0]?.first).toBe('2026-11-23');
		expect(layWeeks(planned, run, { ...almanac, firstWeekday: 7 })[0]?.first).toBe('2026-11-22');
		expect(layWeeks(planned, run, { ...almanac, firstWeekday: 5 })[0]?.first).toBe('2026-11-27');
		expect(weeks.every(({ days }) => days.length === 7)).toBe(true);
		expect(weeks.map(({ number }) => number)).toEqual([48, 49, 50, 51, 52, 53]);
	});
	test('every task of the plan stands on its day, once', () => {
		const drawn = weeks.flatMap(({ days }) =>
			days.flatMap(({ day, chips }) => chips.flatMap(({ tasks }) => tasks.map(({ id }) => `${day} ${id}`)))
		);
		expect(drawn.toSorted()).toEqual(planned.tasks.map(({ date, id }) => `${date} ${id}`).toSorted());
		expect(drawn.length).toBeGreaterThan(30);
	});
	test('a change that cannot wait stands before the dose of the service it came too late for', () => {
		const log = [{ id: 'n', at: '2026-12-01T08:10:00Z', kind: 'reading', what: 'NH3', value: '2 mg/L' }];
		const fouled = readRun({ ...document, log }, { today: null });
		const days = layWeeks(plan(fouled, '2026-12-01T08:20:00Z'), fouled, almanac).flatMap((week) => week.days);
		const chips = days.find(({ day }) => day === '2026-12-01')?.chips.flatMap(({ tasks }) => tasks) ?? [];
		expect(chips[0]).toMatchObject({ kind: 'change', urgent: true });
		expect(chips.map(({ kind }) => kind)).toContain('dose');
	});
	test('mark today, what is behind, days away and days outside the run', () => {
		const days = new Map(weeks.flatMap((week) => week.days.map((day) => [day.day, day])));
		expect(days.get('2026-12-01')).toMatchObject({ past: true, today: false });
		expect(days.get('2026-12-02')).toMatchObject({ past: false, today: true, number: 2 });
		expect(days.get('2026-12-11')).toMatchObject({ away: true, outside: false });
		expect(days.get('2026-11-26')?.outside).toBe(true);
		expect(days.get('2026-12-04')?.phases).toEqual(['hold', 'flukes']);
	});
});

describe('bands', () => {
	const pieces = (at: number) =>
		weeks[at]?.bands.map(({ phase, lane, from, to, opens, closes }) => [
			phase,
			lane,
			from,
			to,
			opens,
			closes
		]);
	// by hand: settle 27 to 29 Nov, hold from 30 Nov, flukes 2 to 9 Dec, look 9 and 10 Dec
	test('stack in lanes where they share days, and keep their lane from week to week', () => {
		expect(pieces(0)).toEqual([['settle', 0, 4, 6, true, true]]);
		expect(pieces(1)).toEqual([
			['hold', 0, 0, 6, true, false],
			['flukes', 1, 2, 6, true, false]
		]);
		expect(pieces(2)).toEqual([
			['hold', 0, 0, 6, false, false],
			['flukes', 1, 0, 2, false, true],
			['look', 2, 2, 3, true, true]
		]);
		expect(pieces(3)).toEqual([['hold', 0, 0, 6, false, false]]);
		expect(weeks.map(({ lanes }) => lanes)).toEqual([1, 2, 3, 1, 1, 1]);
	});
	test('say row, medicine, kind and level', () => {
		expect(weeks[1]?.bands.map(({ row, label, hue }) => `${row} ${label} (${hue})`)).toEqual([
			'2 Ionic copper, hold 0.15–0.20 mg/L (copper)',
			'3 Praziquantel, pulse 2 × 2.5 mg/L (violet)'
		]);
	});
});

describe('the strip of a week', () => {
	const strip = weeks[1]?.strip;
	const copper = strip?.curves.find(({ key }) => key === 'cu');
	test('shades the window over the days of the hold', () => {
		// the ceiling stands at 85 % of the height and the floor at 0.15/0.20 of that
		expect(copper?.windows).toEqual([
			{ x: 0, width: 700, y: expect.closeTo(15), height: expect.closeTo(21.25) }
		]);
	});
	test('puts a reading at its hour and level', () => {
		// 1 Dec 12:00 is day 1.5 of the week; 0.10 is half the ceiling
		expect(copper?.readings).toEqual([{ x: 150, y: expect.closeTo(57.5) }]);
	});
	test('ends what is behind and begins what is ahead where now stands', () => {
		expect(strip?.nowX).toBe(250);
		expect(copper?.past).toMatch(/L250 [\d.]+$/);
		expect(copper?.future).toMatch(/^M250 /);
	});
	test('draws the limit of ammonia and says everything in words', () => {
		expect(strip?.curves[0]).toMatchObject({ key: 'nh3', limitY: expect.closeTo(100 - 100 / 2.4) });
		expect(strip?.text).toMatch(
			/^Week of 2026-11-30: Toxic ammonia \(NH₃-N\) [\d.]+ to [\d.]+ mg\/L, limit 0\.02; Ionic copper 0 to 0\.18 mg\/L/
		);
	});
	test('is water only under ammonia', () => {
		expect(strip?.curves.map(({ key, water }) => [key, water !== ''])).toEqual([
			['nh3', true],
			['cu', false],
			['pz', false]
		]);
	});
});
