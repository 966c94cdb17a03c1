import { describe, expect, test } from 'vitest';
import { plan, type Plan } from '../planner/index.ts';
import { readRun, type Run } from '../run/index.ts';
import {
	fixedBecause,
	hourBecause,
	hourForbidden,
	hourOf,
	keepsPlace,
	putThere,
	staysBecause
} from './moving.ts';

const now = '2026-12-02T12:00:00Z';
const runWith = (moves: Record<string, string> = {}): Run =>
	readRun(
		{
			format: 'lazaret-plan/1',
			name: 'Moves',
			timeZone: 'UTC',
			service: '08:00',
			tank: {
				name: 'T',
				net: '100 L',
				temperature: '26 C',
				salinity: '34 ppt',
				pH: 8.1,
				filterClears: '99 L/d'
			},
			lots: [{ id: 'a', what: 'goby', group: 'goby', count: 1, mass: '10 g', arrived: '2026-12-01' }],
			medicines: [
				{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' },
				{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }
			],
			phases: [
				{ id: 'settle', kind: 'settle', starts: 'on 2026-12-01', lasts: '4 d', test: 'NH3 daily' },
				{
					id: 'hold',
					kind: 'hold',
					medicine: 'cu',
					starts: 'after settle',
					lasts: '14 d',
					level: '0.15-0.20 mg/L',
					change: '20% every 4 d',
					test: 'Cu daily, NO3 every 5 d'
				},
				{
					id: 'flukes',
					kind: 'pulse',
					medicine: 'pz',
					starts: 'with hold + 3 d',
					lasts: '2 doses',
					level: '2.5 mg/L',
					repeat: 'every 7 d'
				}
			],
			moves
		},
		{ today: '2026-12-02' }
	);
const marched = (moves: Record<string, string> = {}): Plan => plan(runWith(moves), now);
const before = marched();
const job = (id: string) => {
	const task = before.tasks.find((one) => one.id === id);
	if (!task) throw new Error(`${id} is not in the plan: ${before.tasks.map((one) => one.id).join(' ')}`);
	return task;
};
const moved = (id: string, day: string) => staysBecause(job(id), marched({ [id]: day }), day);

describe('a job put on another day', () => {
	test('lies there when its row allows it', () => {
		expect(moved('hold/change/5', '2026-12-10')).toBeNull();
		expect(moved('flukes/dose/2', '2026-12-16')).toBeNull();
	});
	test('a test that joins another of that day has moved', () => {
		expect(moved('settle/test/3', '2026-12-04')).toBeNull();
	});
	test.each([
		['hold/dose/1', '2026-12-06', /^Ionic copper .* stays on 2026-12-05: a dose that holds a level follows/],
		['hold/change/5', '2026-12-03', /^Change 20 L stays on 2026-12-09: its row runs from 2026-12-05 to/],
		['hold/change/5', '2027-01-20', /^Change 20 L stays on 2026-12-09: its row runs from 2026-12-05 to/],
		['settle/observe/4', '2026-12-03', /the clean look belongs to the last day/]
	])('%s put on %s stays, and says why', (id, day, why) => expect(moved(id, day)).toMatch(why));
});

describe('a test that is not there any more', () => {
	const [day, hour] = ['2026-12-04', '20:00'];
	const test3 = job('settle/test/3');
	/** The plan without it, and with another test of that day instead. */
	const joins = (time: string, what: string[], asked = what) =>
		staysBecause(
			{ ...test3, what: asked },
			{ ...before, tasks: [{ ...test3, id: 'other', date: day, time, what }] },
			day,
			hour
		);
	test('has joined one that measures all of it at that hour', () =>
		expect(joins('20:00', ['NH3', 'Cu'], ['NH3'])).toBeNull());
	test('has not joined one of another hour', () => expect(joins('08:00', ['NH3'])).toMatch(/stays on/));
	test('has not joined one that measures a part of it', () =>
		expect(joins('20:00', ['Cu'], ['NH3', 'Cu'])).toMatch(/stays on/));
});

describe('before anything is tried', () => {
	test('what is logged stays', () =>
		expect(fixedBecause({ ...job('settle/test/3'), state: 'done' }, '2026-12-04', '2026-12-02')).toMatch(
			/is in the log/
		));
	test('no day that is over takes a job; today does', () => {
		expect(fixedBecause(job('settle/test/3'), '2026-12-01', '2026-12-02')).toMatch(/2026-12-01 is over/);
		expect(fixedBecause(job('settle/test/3'), '2026-12-02', '2026-12-02')).toBeNull();
	});
});

describe('a job put at an hour', () => {
	const run = runWith();
	const put = (id: string, to: string) => {
		const [day = '', time] = to.split('T');
		const tried = marched({ [id]: to });
		return staysBecause(job(id), tried, day, hourOf({ day, time }, run)) ?? hourForbidden(before, tried);
	};

	test('lies there when its row and the checks allow it', () => {
		expect(put('hold/change/5', '2026-12-09T18:00')).toBeNull();
		expect(put('flukes/dose/2', '2026-12-15T11:00')).toBeNull();
		expect(put('settle/test/3', '2026-12-03T20:00')).toBeNull();
	});
	test.each([
		['hold/dose/1', '2026-12-06T10:00', /stays on 2026-12-05: a dose that holds a level follows/],
		['hold/dose/1', '2026-12-05T10:00', /stays at 08:00 on 2026-12-05: a dose that holds a level follows/],
		// six and a half days by the clock, at 26 degrees
		['flukes/dose/1', '2026-12-08T20:00', /comes 6\.5 days after the one before/],
		['hold/test/1', '2026-12-05T18:00', /dosed at 08:00 and tested at 18:00: the test comes first/],
		['settle/observe/4', '2026-12-04T10:00', /the clean look belongs to the last day/]
	])('%s put at %s springs back, and says why', (id, to, why) => expect(put(id, to)).toMatch(why));

	test('an hour that a clock change skips is the one after it', () => {
		// clocks in Chicago go from 02:00 to 03:00 on 14 March 2027 (IANA time zone database)
		const chicago = { ...run, timeZone: 'America/Chicago' };
		expect(hourOf({ day: '2027-03-14', time: '02:30' }, chicago)).toBe('03:30');
		expect(hourOf({ day: '2027-03-15', time: '02:30' }, chicago)).toBe('02:30');
	});

	test('no night takes a job, nor an hour that is over; a service of the run may lie at night', () => {
		const late = { day: '2026-12-09', time: '23:00' };
		expect(hourBecause(job('hold/change/5'), late, run, now)).toMatch(
			/23:00 is night, between 22:00 and 06:00/
		);
		expect(hourBecause(job('hold/change/5'), { ...late, time: '21:00' }, run, now)).toBeNull();
		expect(hourBecause(job('hold/change/5'), late, { ...run, services: ['08:00', '23:00'] }, now)).toBeNull();
		expect(hourBecause(job('settle/test/2'), { day: '2026-12-02', time: '11:00' }, run, now)).toMatch(
			/11:00 on 2026-12-02 is over/
		);
	});

	test('is written as the file has it: a day alone for its first service, else with the time it is given or has', () => {
		const at = (moves: Record<string, string>, time?: string) =>
			putThere(runWith(moves), ['hold/change/5'], { day: '2026-12-10', time })['hold/change/5'];
		expect(at({}, '18:00')).toBe('2026-12-10T18:00');
		expect(at({}, '08:00')).toBe('2026-12-10');
		expect(at({ 'hold/change/5': '2026-12-09T18:30' })).toBe('2026-12-10T18:30');
		expect(at({ 'hold/change/5': '2026-12-09T18:30' }, '08:00')).toBe('2026-12-10');
	});

	test('what never moves is known beforehand', () => {
		const kinds = before.tasks.filter(keepsPlace).map(({ kind }) => kind);
		expect([...new Set(kinds)].sort()).toEqual(['acclimate', 'observe']);
	});
});
