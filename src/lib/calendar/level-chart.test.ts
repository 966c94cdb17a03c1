import { describe, expect, test } from 'vitest';
import type { Sample } from '../planner/index.ts';
import type { Gauge } from './gauge.ts';
import {
	centred,
	instantAt,
	levelChart,
	namedDays,
	serviceSamples,
	valuesAt,
	wholeRun,
	zoomed
} from './level-chart.ts';

const day = 86_400_000;
const sample = (at: number, when: Sample['when'], copper: number, nh3: number | null = null): Sample => ({
	at: new Date(at * day).toISOString(),
	date: new Date(at * day).toISOString().slice(0, 10),
	when,
	volumeL: 100,
	salinityPpt: 34,
	temperatureC: 26,
	tanMgNPerL: 0,
	nh3MgNPerL: nh3,
	nitrateMgPerL: 5,
	medicinesMgPerL: { cu: copper }
});
// ten days; copper rises from 0 to 0.2 at noon of day 4
const levels = [
	sample(0, 'before', 0),
	sample(4.5, 'before', 0),
	sample(4.5, 'after', 0.2),
	sample(7, 'between', 0.2),
	sample(10, 'before', 0.2)
];
const times = levels.map(({ at }) => Date.parse(at));
const whole = wholeRun({ levels });
const copper: Gauge = {
	key: 'cu',
	label: 'Copper',
	unit: 'mg/L',
	hue: 'copper',
	top: 0.25,
	limit: null,
	windows: [{ fromMs: 4 * day, toMs: 8 * day, low: 0.15, high: 0.2 }]
};
const days = (view: { fromMs: number; toMs: number }) => [view.fromMs / day, view.toMs / day];

describe('the view', () => {
	test('is the whole run at first', () => expect(days(whole)).toEqual([0, 10]));
	test('halves about an instant, which stays where it stands', () => {
		expect(days(zoomed(whole, whole, 4 * day, 0.5))).toEqual([2, 7]);
		expect(days(zoomed({ fromMs: 2 * day, toMs: 7 * day }, whole, 4 * day, 2))).toEqual([0, 10]);
	});
	test('never leaves the run, is never wider than it nor narrower than a day', () => {
		expect(days(zoomed({ fromMs: 6 * day, toMs: 10 * day }, whole, 10 * day, 2))).toEqual([2, 10]);
		expect(days(zoomed(whole, whole, 5 * day, 8))).toEqual([0, 10]);
		expect(days(zoomed(whole, whole, 0, 0.001))).toEqual([0, 1]);
	});
	test('goes to a moment outside it', () => {
		const close = { fromMs: 0, toMs: 2 * day };
		expect(days(centred(close, whole, 6 * day))).toEqual([5, 7]);
		expect(days(centred(close, whole, 10 * day))).toEqual([8, 10]);
	});
	test('knows the instant under a pointer', () => {
		expect(instantAt({ fromMs: 2 * day, toMs: 4 * day }, 0.25) / day).toBe(2.5);
	});
});

describe('a panel', () => {
	const frame = {
		view: whole,
		nowMs: 5 * day,
		cursorMs: 4.5 * day,
		gauges: [copper],
		readings: [],
		midnights: [0, 4 * day, 12 * day]
	};
	const chart = levelChart(levels, times, frame);
	test('draws the level on the time of the view', () => {
		// 0.2 of 0.25 stands at 80 % of the height, 20 from above; noon of day 4 at 450 of 1000
		expect(chart.panels[0]?.curve.past).toBe('M0 100L450 100L450 20L500 20');
		expect(chart.panels[0]?.curve.future).toBe('M500 20L700 20L1000 20');
		expect(chart.panels[0]?.curve.windows).toEqual([
			{ x: 400, width: 400, y: expect.closeTo(20), height: expect.closeTo(20) }
		]);
	});
	test('names the bed and both sides of the window', () => {
		expect(chart.panels[0]?.ticks.map(({ y, text }) => [Math.round(y), text])).toEqual([
			[100, '0'],
			[20, '0.2'],
			[40, '0.15']
		]);
	});
	test('without limit or window names the bed and the top', () => {
		const bare = levelChart(levels, times, { ...frame, gauges: [{ ...copper, windows: [] }] });
		expect(bare.panels[0]?.ticks).toEqual([
			{ y: 100, text: '0' },
			{ y: 0, text: '0.25' }
		]);
	});
	test('marks days, now and the moment that is read, where they are in view', () => {
		expect(chart.days).toEqual([
			{ x: 0, day: 0 },
			{ x: 400, day: 1 }
		]);
		expect([chart.nowX, chart.cursorX]).toEqual([500, 450]);
		expect(levelChart(levels, times, { ...frame, view: { fromMs: 6 * day, toMs: 8 * day } })).toMatchObject({
			nowX: null,
			cursorX: null
		});
	});
});

test('what is read and listed are the moments before and after the jobs', () => {
	expect(serviceSamples(levels).map(({ when }) => when)).toEqual(['before', 'before', 'after', 'before']);
	const ammonia: Gauge = { ...copper, key: 'nh3' };
	const nitrate: Gauge = { ...copper, key: 'nitrate' };
	expect(valuesAt(sample(1, 'after', 0.1783), [copper, ammonia, nitrate])).toEqual(['0.18', 'unknown', '5']);
});

test('what was logged after a service stands as what came of its jobs', () => {
	const logged = [
		sample(4, 'before', 0.15),
		sample(4, 'after', 0.15),
		sample(4.01, 'between', 0.11),
		sample(4.02, 'between', 0.17),
		// in the night: no job of that service
		sample(4.8, 'between', 0.19),
		sample(5, 'before', 0.19),
		sample(5, 'after', 0.18)
	];
	expect(serviceSamples(logged).map(({ when, medicinesMgPerL }) => [when, medicinesMgPerL.cu])).toEqual([
		['before', 0.15],
		['after', 0.17],
		['before', 0.19],
		['after', 0.18]
	]);
});

test('names no more days than there is room for, in even steps', () => {
	const all = Array.from({ length: 45 }, (_, day) => ({ x: day, day }));
	const named = namedDays(all, 6).map(({ day }) => day);
	expect(named).toEqual([0, 8, 16, 24, 32, 40]);
	expect(namedDays(all.slice(3, 6), 6)).toHaveLength(3);
});
