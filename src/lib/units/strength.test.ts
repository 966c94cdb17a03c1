/**
 * Levels and strengths. The label rate is arithmetic by hand (1 mL in 40 L to 0.25 mg/L holds 10 mg); percent forms
 * are their definitions; 1 mL in ten US gallons is 26.4172 uL/L by the gallon of NIST SP 811.
 */
import { describe, expect, it } from 'vitest';
import { readConcentration, readConcentrationBand, readStrength, type Counted } from './index.ts';

const strengths: [string, string, number][] = [
	['2 mg/mL', 'liquid', 2],
	['2 g/L', 'liquid', 2],
	['2000 mg/L', 'liquid', 2],
	['0.25 g per 100 mL', 'liquid', 2.5],
	['10 % w/v', 'liquid', 100],
	['10% (w/v)', 'liquid', 100],
	['10 % m/v', 'liquid', 100],
	['1 mL per 40 L gives 0.25 mg/L', 'liquid', 10],
	['1 mL treats 40 L to 0.25 mg/L', 'liquid', 10],
	['1 mL / 40 L = 250 ug/L', 'liquid', 10],
	['1 g/g', 'powder', 1],
	['500 mg/g', 'powder', 0.5],
	['98 % w/w', 'powder', 0.98],
	['1 g per 40 L gives 2.5 mg/L', 'powder', 0.1],
	['1 mL/mL', 'whole', 1],
	['100 % v/v', 'whole', 1],
	['1 mL per 40 L gives 25 uL/L', 'whole', 1],
	// 20 drops to the mL: 0.05 mL in a US gallon of 3.785411784 L to 0.25 mg/L holds 0.946352946 mg
	['1 drop (20/mL) per gal gives 0.25 ppm', 'liquid', 18.92705892],
	['0.01 mg/mL', 'liquid', 0.01]
];

describe('strengths', () => {
	it.each(strengths)('%s is %s %d', (text, form, amount) => {
		const strength = readStrength(text);
		if (!strength.ok) throw new Error(strength.problem.expected);
		const { form: found, ...rest } = strength.value;
		expect(found).toBe(form);
		expect(Object.values(rest)[0]).toBeCloseTo(amount, 12);
	});
	it.each([
		['37 %', /w\/v, % w\/w or % v\/v/],
		['2 mg', /2 mg\/mL/],
		['2', /2 mg\/mL/],
		['120 % w/w', /at most 100/],
		['1.1 g/g', /at most 100/],
		['2 mL/mL', /at most 100/],
		['0 mg/mL', /above zero/],
		['-2 mg/mL', /strength|above zero/],
		['0 mL per 40 L gives 0.25 mg/L', /2 mg\/mL/],
		['1 mL per 40 L', /the level that it gives/],
		['5 mL/10 gal', /the level that it gives/],
		['2 mg/L', /at least 0.01 mg\/mL/],
		['1 mL per 40 L gives 0.0001 mg/L', /at least 0.01 mg\/mL/],
		['strong', /2 mg\/mL/]
	])('%s is a problem', (text, expected) => {
		const strength = readStrength(text);
		expect(strength.ok ? strength.value : strength.problem.expected).toMatch(expected);
	});
});

const levels: [string, Counted, number | null][] = [
	['0.18 mg/L', 'mass', 0.18],
	['0.18 ppm', 'mass', 0.18],
	['180 ppb', 'mass', 0.18],
	['180 ug/L', 'mass', 0.18],
	['180 µg/L', 'mass', 0.18],
	['0.00018 mg/mL', 'mass', 0.18],
	['0.00018 g/L', 'mass', 0.18],
	['1 mg/gal', 'mass', 1 / 3.785411784],
	['25 uL/L', 'mass', null],
	['25 MG/L', 'mass', null],
	['25 ppt', 'mass', null],
	['25', 'mass', null],
	['25 uL/L', 'whole', 25],
	['25 ppm', 'whole', 25],
	['25 ppm v/v', 'whole', 25],
	['0.025 mL/L', 'whole', 25],
	['1 mL per 10 gal', 'whole', 1000 / 37.85411784],
	['1 mL/10 gal', 'whole', 1000 / 37.85411784],
	['25 mg/L', 'whole', null]
];

describe('levels', () => {
	it.each(levels)('%s counted by %s is %s', (text, counted, value) => {
		const level = readConcentration(text, counted);
		if (value === null) expect(level.ok).toBe(false);
		else expect(level.ok && level.value).toBeCloseTo(value, 12);
	});
	it('a liquid counted whole says why mg/L does not fit', () => {
		const level = readConcentration('25 mg/L', 'whole');
		expect(level.ok ? '' : level.problem.expected).toMatch(/counted whole/);
	});
	it.each([
		['0.15-0.20 mg/L', 0.15, 0.2],
		['0.15 - 0.20 mg/L', 0.15, 0.2],
		['0.15\u20130.20 mg/L', 0.15, 0.2],
		['0.15 to 0.20 ppm', 0.15, 0.2],
		['150-200 ug/L', 0.15, 0.2],
		['0.15 mg/L to 200 ug/L', 0.15, 0.2],
		['0,15-0,20 mg/L', 0.15, 0.2],
		['2.5 mg/L', 2.5, 2.5]
	])('%s is a band', (text, low, high) =>
		expect(readConcentrationBand(text, 'mass')).toEqual({ ok: true, value: { low, high } })
	);
	it.each([
		['0.20-0.15 mg/L'],
		['0.15-0.20'],
		['0.15-'],
		['-0.20 mg/L'],
		['0.15-0.20 uL/L'],
		['a to b mg/L']
	])('%s is a problem', (text) => expect(readConcentrationBand(text, 'mass').ok).toBe(false));
});
