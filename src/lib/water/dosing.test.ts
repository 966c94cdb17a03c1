/** Doses by hand, and the law that no rounding lifts a level over its ceiling. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Read, Strength } from '../units/index.ts';
import {
	doseFor,
	floorToStep,
	kitFromTan,
	makeUpFor,
	measuredDose,
	mixPpt,
	nh3N,
	oxygenMargin,
	raisedBy,
	readSalinityCell,
	replaceToLower,
	saltToRaiseG,
	tanFromKit,
	type AmmoniaReading
} from './index.ts';

const seeded = { seed: 20261127, numRuns: 500 };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const valueOf = <T>(result: Read<T>): T => {
	if (!result.ok) throw new Error(result.problem.expected);
	return result.value;
};
const copper: Strength = { form: 'liquid', mgPerMl: 2 };
const strengths: fc.Arbitrary<Strength> = fc.oneof(
	number(0.1, 100).map((mgPerMl): Strength => ({ form: 'liquid', mgPerMl })),
	number(0.01, 1).map((gPerG): Strength => ({ form: 'powder', gPerG })),
	number(0.01, 1).map((mlPerMl): Strength => ({ form: 'whole', mlPerMl }))
);

describe('doses', () => {
	it.each<[string, Parameters<typeof doseFor>[0], number, string]>([
		[
			'praziquantel 2.5 mg/L in 112 L: 280 mg',
			{ volumeL: 112, from: 0, to: 2.5, strength: { form: 'powder', gPerG: 1 } },
			280,
			'mg'
		],
		[
			'copper 0.12 to 0.18 in 112 L: 3.36 mL of 2 mg/mL',
			{ volumeL: 112, from: 0.12, to: 0.18, strength: copper },
			3.36,
			'mL'
		],
		[
			'formalin 12.5 to 25 uL/L in 44 L: 0.55 mL of the whole liquid',
			{ volumeL: 44, from: 12.5, to: 25, strength: { form: 'whole', mlPerMl: 1 } },
			0.55,
			'mL'
		]
	])('%s', (_, wish, value, unit) => {
		const dose = valueOf(doseFor(wish));
		expect(dose.unit).toBe(unit);
		expect(dose.value).toBeCloseTo(value, 10);
	});
	it('10 mL of 2 mg/mL raise 112 L by 20/112', () =>
		expect(raisedBy(10, copper, 112)).toBeCloseTo(20 / 112, 14));
	it('make-up for 30 L of new water at 0.18 is 2.7 mL', () =>
		expect(valueOf(makeUpFor(30, 0.18, copper)).value).toBeCloseTo(2.7, 12));
	it('nothing lowers a level by dosing', () =>
		expect(doseFor({ volumeL: 100, from: 0.2, to: 0.1, strength: copper }).ok).toBe(false));
	it('a dose and what it raises are each other’s way back', () => {
		fc.assert(
			fc.property(number(5, 900), number(0, 5), number(0, 5), strengths, (volumeL, from, more, strength) => {
				const dose = valueOf(doseFor({ volumeL, from, to: from + more, strength }));
				expect(raisedBy(dose.value, strength, volumeL)).toBeCloseTo(from + more - from, 10);
			}),
			seeded
		);
	});
	it('rounded down it is never above the ceiling, not by one bit, whatever the tool', () => {
		const steps = fc.constantFrom(null, 0.01, 0.05, 0.1, 0.25, 0.5, 1, 10, 0.3, 1 / 3);
		fc.assert(
			fc.property(number(5, 900), number(0, 0.2), strengths, steps, (volumeL, from, strength, step) => {
				const ceiling = 0.2;
				const dose = valueOf(measuredDose({ volumeL, from, to: ceiling, strength, step, ceiling }));
				expect(from + raisedBy(dose.value, strength, volumeL)).toBeLessThanOrEqual(ceiling);
				expect(dose.value).toBeGreaterThanOrEqual(0);
			}),
			seeded
		);
	});
	it('rounds to whole steps, and at most one step down', () => {
		fc.assert(
			fc.property(number(0, 500), fc.constantFrom(0.01, 0.05, 0.1, 0.25, 0.5, 1, 5, 10), (amount, step) => {
				const rounded = floorToStep(amount, step);
				expect(Math.abs(rounded / step - Math.round(rounded / step))).toBeLessThan(1e-9);
				expect(amount - rounded).toBeLessThan(step);
				expect(rounded - amount).toBeLessThanOrEqual(1e-9 * step);
			}),
			seeded
		);
	});
	it.each([
		[0.3, 0.1, 0.3],
		[2.9999999999, 1, 3],
		[2.999, 1, 2],
		[7.5, 0.25, 7.5],
		[284, 10, 280]
	])('%d by %d is %d as a person writes it', (amount, step, rounded) =>
		expect(floorToStep(amount, step)).toBe(rounded)
	);
});

describe('salt and mixing', () => {
	it('16 to 20 ppt in 100 L takes about 411 g of solute; density and reference salinity by python3-gsw', () =>
		expect(
			Math.abs(valueOf(saltToRaiseG({ volumeL: 100, fromPpt: 16, toPpt: 20, temperatureC: 25 })) - 411.5)
		).toBeLessThan(0.5));
	it('a mix that is half water takes twice as much', () => {
		const wish = { volumeL: 100, fromPpt: 16, toPpt: 20, temperatureC: 25 };
		expect(valueOf(saltToRaiseG({ ...wish, dryShare: 0.5 }))).toBeCloseTo(2 * valueOf(saltToRaiseG(wish)), 9);
	});
	it('salt lowers nothing, fresh water raises nothing', () => {
		expect(saltToRaiseG({ volumeL: 100, fromPpt: 20, toPpt: 16, temperatureC: 25 }).ok).toBe(false);
		expect(replaceToLower(16, 20).ok).toBe(false);
		expect(replaceToLower(35, 10, 12).ok).toBe(false);
		expect(valueOf(replaceToLower(35, 35))).toBe(0);
	});
	it('replacing what is asked for gives what was wanted', () => {
		fc.assert(
			fc.property(number(20, 40), number(10, 19), number(0, 9), (from, to, thinner) => {
				const share = valueOf(replaceToLower(from, to, thinner));
				const mixed = mixPpt(
					{ volumeL: 100 * (1 - share), salinityPpt: from },
					{ volumeL: 100 * share, salinityPpt: thinner }
				);
				expect(mixed).toBeCloseTo(to, 9);
			}),
			seeded
		);
	});
});

describe('a salinity cell', () => {
	it.each([
		['34 ppt', 34],
		['34 psu', 34],
		['1.025 (25C/25C)', 33.19],
		['1.025 sg 20C/4C', 35.28],
		['1.025 @ 60F/60F', 32.59],
		['1,025 (20 °C / 20 °C)', 32.9],
		['1.025 25c/4c', 37.16]
	])('%s is %d ppt; gravities by EOS-80 ratios', (text, ppt) =>
		expect(Math.abs(valueOf(readSalinityCell(text)) - ppt)).toBeLessThan(0.02)
	);
	it.each([
		['1.025', 'gravity-without-pair'],
		['1.025 sg', 'gravity-without-pair'],
		['1.025 (25/25)', 'reference'],
		['1.3 (25C/25C)', 'out-of-range'],
		['34', 'unit-missing'],
		['salty', 'number']
	])('%s is a problem (%s)', (text, code) => {
		const cell = readSalinityCell(text);
		expect(cell.ok ? cell.value : cell.problem.code).toBe(code);
	});
	it('a bare gravity is told what it may mean', () => {
		const cell = readSalinityCell('1.025');
		expect(cell.ok ? '' : cell.problem.expected).toMatch(/32\.6 ppt at 60F\/60F.*35\.3 ppt at 20C\/4C/);
	});
});

describe('ammonia in the trade’s own examples', () => {
	// by hand from Bell's pKa at 26 °C, 34 ppt (9.3263) and at 24 °C, 27 ppt (9.3679)
	it.each([
		[2, 7.4, 26, 34, 0.0234],
		[1.4, 8.0, 26, 34, 0.0631],
		[8, 6.8, 24, 27, 0.0216],
		[8, 7.8, 24, 27, 0.2107]
	])('TAN %d at pH %d, %d °C, %d ppt is %d mg N/L toxic', (tan, pH, temperatureC, salinityPpt, toxic) =>
		expect(Math.abs(valueOf(nh3N(tan, { temperatureC, salinityPpt, pH })) - toxic)).toBeLessThan(0.0002)
	);
	it('a kit’s number and the TAN behind it are each other’s way back', () => {
		const kits = fc.constantFrom<AmmoniaReading>('tan', 'nh3-total', 'nh3-free');
		fc.assert(
			fc.property(number(0, 9), kits, number(7, 9), (value, as, pH) => {
				const water = { temperatureC: 26, salinityPpt: 34, pH };
				expect(valueOf(kitFromTan(valueOf(tanFromKit(value, as, water)), as, water))).toBeCloseTo(value, 9);
			}),
			seeded
		);
	});
});

describe('oxygen margin', () => {
	const water = { temperatureC: 26, salinityPpt: 34, volumeL: 112, fishMassG: 64, formalinUlPerL: 25 };
	it('25 uL/L of formalin ask 0.14 mg/L per hour: 5 mg/L over 36 h', () =>
		expect(valueOf(oxygenMargin(water)).formalinMgPerLPerHour).toBeCloseTo(5 / 36, 12));
	it('lasts shorter with more fish, warmer or with formalin, and for ever with neither', () => {
		const hours = (change: Partial<typeof water>) =>
			valueOf(oxygenMargin({ ...water, ...change })).hoursWithoutAir;
		const now = hours({}) ?? NaN;
		expect(hours({ fishMassG: 200 })).toBeLessThan(now);
		expect(hours({ temperatureC: 30 })).toBeLessThan(now);
		expect(hours({ formalinUlPerL: 0 })).toBeGreaterThan(now);
		expect(hours({ formalinUlPerL: 0, fishMassG: 0 })).toBeNull();
	});
});
