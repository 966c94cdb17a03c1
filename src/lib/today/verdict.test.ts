import { describe, expect, test } from 'vitest';
import type { Ask } from './ask.ts';
import { judge } from './verdict.ts';

/** 112 L held at 0.15 to 0.20 mg/L copper, bottle 2 mg/mL, syringe 0.1 mL: the keepers' worked example. */
const copper: Ask = {
	what: 'Cu',
	name: 'copper',
	unit: 'mg/L',
	forms: ['ionic', 'chelated'],
	forecast: 0.17,
	believed: { low: 0.017, high: 1.7 },
	volumeL: 112,
	brimL: 112,
	keep: { floor: 0.15, target: 0.18, ceiling: 0.2 },
	lowBefore: false,
	ceiling: 0.2,
	clear: null,
	dose: { medicine: 'cu', name: 'Ionic copper', activePerUnit: 2, unit: 'mL', step: 0.1, raiseMost: 0.1 },
	thins: null,
	topoff: null,
	ammonia: null,
	bounds: []
};
const mL = (value: number) => ({ value, unit: 'mL' });

describe('a reading of copper, by the keepers’ worked example (112 L, 2 mg/mL, step 0.1 mL)', () => {
	// (0.20 - 0.17) x 112 = 3.36 mg = 1.68 mL, rounded down
	test('0.12 against a forecast of 0.17: 1.6 mL now, test again, the rest if it confirms', () => {
		const verdict = judge(copper, { value: 0.12 });
		// in all (0.18 - 0.12) x 112 = 6.72 mg = 3.36 mL, rounded down to 3.3
		expect(verdict.dose).toEqual({ medicine: 'cu', now: mL(1.6), rest: mL(1.7) });
		expect(verdict.tone).toBe('caution');
		expect(verdict.text).toBe(
			'0.12 mg/L, below 0.15 and below the forecast of 0.17: 1.6 mL now, by this reading to 0.149 and still under 0.15: no more until a second reading confirms it; test again tonight and, if it confirms, 1.7 mL more to 0.18.'
		);
	});

	test('once confirmed: up to 0.18', () => {
		expect(judge(copper, { value: 0.12, earlier: true }).dose).toEqual({
			medicine: 'cu',
			now: mL(3.3),
			rest: null
		});
		expect(judge({ ...copper, forecast: 0.149, lowBefore: true }, { value: 0.12 })).toMatchObject({
			tone: 'caution',
			text: '0.12 mg/L, below 0.15, confirmed: 3.3 mL to 0.18.'
		});
	});

	// 0.12 x 106 = 12.72 mg of the 20.16 mg wanted in 112 L: 7.44 mg = 3.72 mL
	test('read before the top-off at 106 L and confirmed: 3.7 mL, not 3.3', () => {
		const shrunken = { ...copper, volumeL: 106, topoff: 'copper/topoff/3' };
		const verdict = judge(shrunken, { value: 0.12, earlier: true });
		expect(verdict.dose?.now).toEqual(mL(3.7));
		expect(verdict.text).toContain('3.7 mL after the top-off to 0.18');
		expect(judge(shrunken, { value: 0.12, earlier: true, done: ['copper/topoff/3'] }).dose?.now).toEqual(
			mL(3.3)
		);
	});

	describe('of a course that has earned something', () => {
		const keep = {
			floor: 0.15,
			target: 0.18,
			ceiling: 0.2,
			pause: {
				by: '2026-12-06T10:05:00Z',
				byWords: '10:05',
				sinceWords: '08:05 on 2026-12-05',
				least: 0.1
			}
		};
		const ask = { ...copper, keep };
		const atMs = Date.parse('2026-12-06T08:10:00Z');
		const late = Date.parse('2026-12-06T10:06:00Z');

		test('says by when it must be back, and asks for the second look by then where the first amount does not do', () => {
			expect(judge(ask, { value: 0.12, atMs }).text).toBe(
				'0.12 mg/L, below 0.15 and below the forecast of 0.17: 1.6 mL now, by this reading to 0.149 and still under 0.15: no more until a second reading confirms it; test again by 10:05 and, if it confirms, 1.7 mL more to 0.18. Back inside by 10:05, the course only pauses; later it begins again.'
			);
			// (0.20 - 0.17) x 112 = 3.36 mg reach 0.15 from 0.14 with room
			expect(judge(ask, { value: 0.14, atMs }).text).toContain('1.6 mL now; test again tonight');
		});

		test('says that the hour has passed, or that it is too deep, and does not urge', () => {
			expect(judge(ask, { value: 0.12, atMs: late }).text).toMatch(
				/test again tonight and, if it confirms, 1\.7 mL more to 0\.18\. It may have been out since 08:05 on 2026-12-05, more than a day and two hours: the course begins again whatever is given\.$/
			);
			expect(judge(ask, { value: 0.09, atMs }).text).toMatch(
				/tonight.* Under 0\.1 mg\/L the course begins again whatever is given\.$/
			);
		});

		test('says nothing of it where the level is inside', () => {
			expect(judge(ask, { value: 0.16, atMs }).text).not.toContain('course');
		});
	});

	test('low again after a dose the plan has not heard of: nothing, for nobody knows of what water', () => {
		expect(judge(copper, { value: 0.13, earlier: true, dosed: true })).toMatchObject({
			tone: 'caution',
			dose: { now: null, rest: null }
		});
		expect(judge(copper, { value: 0.16, dosed: true }).dose?.now).toEqual(mL(1.1));
	});

	test('low again days after a first look: the forecast of then still bounds it', () => {
		// forecast 0.119 since that look, 0.168 without it: (0.20 - 0.168) x 112 = 3.58 mg = 1.7 mL
		const old = { ...copper, forecast: 0.119, otherwise: 0.168 };
		expect(judge(old, { value: 0.12 })).toMatchObject({ dose: { now: mL(1.7), rest: mL(1.6) } });
	});

	test('inside the window: what brings it back to the aim', () => {
		const verdict = judge(copper, { value: 0.16 });
		// 0.02 x 112 = 2.24 mg = 1.12 mL
		expect(verdict).toMatchObject({ tone: 'good', dose: { now: mL(1.1), rest: null } });
		expect(verdict.text).toBe('0.16 mg/L, inside 0.15 to 0.2: 1.1 mL to 0.18.');
		expect(judge(copper, { value: 0.18 }).text).toBe('0.18 mg/L, inside 0.15 to 0.2: no dose needed.');
	});

	test('the change before the dose takes its share, unless it is done already', () => {
		const thinned = { ...copper, thins: { task: 'copper/change/3', fraction: 0.3 } };
		// 20.16 mg wanted, 0.16 x 112 x 0.7 = 12.544 mg left: 7.616 mg = 3.8 mL
		expect(judge(thinned, { value: 0.16 }).dose?.now).toEqual(mL(3.8));
		expect(judge(thinned, { value: 0.16 }).text).toContain('after the change');
		expect(judge(thinned, { value: 0.16, done: ['copper/change/3'] }).dose?.now).toEqual(mL(1.1));
	});

	test.each([0.201, 0.25, 0.9])('%f mg/L, above the ceiling: no dose at all, and the card', (value) => {
		const verdict = judge(copper, { value });
		expect(verdict).toMatchObject({ tone: 'stop', card: 'overdose', dose: { now: null, rest: null } });
		expect(verdict.text).toContain('above the ceiling of 0.2');
	});

	test('170 is a slip of the unit until it is read again: no litres before that', () => {
		const first = judge(copper, { value: 170 });
		// 170 / 0.17 = 1000, and 170 ug/L = 0.17 mg/L
		expect(first.text).toContain(
			'1000 times the forecast of 0.17: a slip of unit, scale or point is far likelier than so much in the water (170 µg/L would be 0.17 mg/L)'
		);
		expect(first.text).toContain('test again at once');
		expect(first.text).not.toMatch(/[0-9] L /);
		expect(first).toMatchObject({ tone: 'stop', card: 'overdose', dose: { now: null, rest: null } });
		expect(judge(copper, { value: 1.8 }).text).toContain('10 times the forecast of 0.17: a slip');
		// 1 - 0.18/170 = 99.9 % of 112 L
		expect(judge(copper, { value: 170, over: true }).text).toContain('change 111.9 L');
		expect(judge(copper, { value: 1.6 }).text).toContain('change 99.4 L');
	});

	// 1 - 0.18/0.25 = 28 % of 112 L
	test('too high names what is changed out once it is confirmed, and no make-up', () => {
		expect(judge(copper, { value: 0.25 }).text).toContain('change 31.4 L (28 %)');
		expect(judge(copper, { value: 0.25 }).text).toContain('no make-up');
	});

	test('ten times under the forecast is no reading', () => {
		const verdict = judge(copper, { value: 0.016 });
		expect(verdict).toMatchObject({ tone: 'stop', card: 'overdose', dose: { now: null, rest: null } });
		expect(verdict.text).toContain('ten times off the forecast of 0.17');
		expect(judge(copper, { value: 0.018 }).dose?.now).not.toBeNull();
	});

	test('a forecast under the floor expects a low reading: up to the step of the ramp, no more than 0.10 at once', () => {
		const ramp = {
			...copper,
			forecast: 0.06,
			believed: { low: 0.006, high: 0.6 },
			keep: { floor: 0.15, target: 0.12, ceiling: 0.2 }
		};
		expect(judge(ramp, { value: 0.06 })).toMatchObject({ tone: 'good', dose: { now: mL(3.3) } });
		// 0.10 x 112 = 11.2 mg = 5.6 mL though 0.16 are wanted
		const far = { ...ramp, keep: { floor: 0.15, target: 0.18, ceiling: 0.2 } };
		expect(judge(far, { value: 0.02 }).dose?.now).toEqual(mL(5.6));
	});

	test('law: what is given never takes the larger of forecast and reading past the ceiling', () => {
		for (let value = 0.02; value <= 0.2; value += 0.003)
			for (const forecast of [0.15, 0.17, 0.19, 0.2]) {
				const ask = { ...copper, forecast, believed: null };
				const now = judge(ask, { value }).dose?.now;
				const low = value < 0.15;
				const most = low ? Math.max(value, forecast) : value;
				expect(most + ((now?.value ?? 0) * 2) / 112).toBeLessThanOrEqual(0.2 + 1e-9);
			}
	});

	test('no number where volume or strength is unknown', () => {
		for (const ask of [
			{ ...copper, dose: null },
			{ ...copper, volumeL: null, brimL: null }
		]) {
			const verdict = judge(ask, { value: 0.12 });
			expect(verdict.dose).toBeUndefined();
			expect(verdict.text).toContain('No amount');
		}
	});
});

/** 112 L at 26 °C, 34 ppt, pH 8.1: 5.6 % un-ionised (Bell et al. 2007, as in the water room's tests). */
const ammonia: Ask = {
	...copper,
	what: 'NH3',
	name: 'ammonia',
	forms: ['tan', 'nh3-total', 'nh3-free'],
	forecast: 0.2,
	believed: { low: 0.02, high: 2 },
	keep: null,
	ceiling: null,
	dose: null,
	ammonia: {
		share: 0.056,
		water: 'pH 8.1, 26 °C, 34 ppt',
		sourceMgNPerL: 0,
		act: 0.02,
		override: 0.05,
		emergency: 0.1
	}
};

describe('a reading of ammonia (act at 0.02 mg/L NH3-N, override at 0.05, emergency at 0.1)', () => {
	test('says the toxic share as N and as NH3: 0.02 as N is 0.0243 as NH3', () => {
		expect(judge(ammonia, { value: 0.25 }).text).toBe(
			'0.25 mg/L total ammonia as N → 0.014 mg/L NH3-N (0.017 as NH3) at pH 8.1, 26 °C, 34 ppt, under the limit of 0.02.'
		);
		expect(judge(ammonia, { value: 0.02 / 0.056 }).text).toContain('0.02 mg/L NH3-N (0.024 as NH3)');
	});

	test.each([
		[0.35, 'good', 'under the limit'],
		[0.36, 'caution', 'over the limit'],
		[0.9, 'stop', 'even while a medicine acts'],
		[1.8, 'stop', 'an emergency: air first']
	])('%f mg/L is %s', (value, tone, words) => {
		const verdict = judge(ammonia, { value });
		expect(verdict.tone).toBe(tone);
		expect(verdict.text).toContain(words);
	});

	// 0.5 x 0.056 = 0.028; back to 0.02 takes 1 - 0.02/0.028 = 28.6 % of 112 L = 32 L
	test('names the litres that bring it under the limit', () => {
		expect(judge(ammonia, { value: 0.5 }).text).toContain('Change 32 L (29 %) today.');
	});

	// molar masses: 17.031/14.007 = 1.2159
	test('reads the kit’s own form', () => {
		expect(judge(ammonia, { value: 0.25 * 1.2159, as: 'nh3-total' }).text).toContain('→ 0.014 mg/L NH3-N');
		expect(judge(ammonia, { value: 0.017, as: 'nh3-free' }).text).toContain('→ 0.014 mg/L NH3-N');
	});

	test('does not guess without pH or temperature', () => {
		const ask = { ...ammonia, ammonia: { ...ammonia.ammonia!, share: null, water: 'pH' } };
		expect(judge(ask, { value: 0.25 })).toMatchObject({ tone: 'caution' });
		expect(judge(ask, { value: 0.25 }).text).toContain('pH missing');
	});
});

test('a wash-out ends at or under its level', () => {
	const wash = { ...copper, keep: null, ceiling: null, clear: 0.02, forecast: 0.03, believed: null };
	expect(judge(wash, { value: 0.02 })).toMatchObject({ tone: 'good' });
	expect(judge(wash, { value: 0.021 }).text).toContain('the wash-out goes on');
});

test('other measurables speak by their bounds', () => {
	const pH: Ask = {
		...copper,
		what: 'pH',
		unit: '',
		keep: null,
		ceiling: null,
		dose: null,
		believed: null,
		forecast: 8.1,
		bounds: [
			{ above: false, at: 7.8, tone: 'caution', text: 'copper bites harder under pH 7.8.' },
			{ above: false, at: 7.9, tone: 'note', text: 'more than 0.2 under the usual 8.1.' }
		]
	};
	expect(judge(pH, { value: 7.7 })).toEqual({
		tone: 'caution',
		text: '7.7: copper bites harder under pH 7.8.'
	});
	expect(judge(pH, { value: 7.85 }).tone).toBe('note');
	expect(judge(pH, { value: 8.1 })).toEqual({ tone: 'good', text: '8.1; forecast 8.1.' });
});
