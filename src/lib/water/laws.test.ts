/** Laws that hold whatever the numbers, and the closed forms against a general solver of differential equations (odex). */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { integrate } from '../../../tests/integrate.ts';
import { inUnit, readQuantity, type Dimension } from '../units/index.ts';
import {
	age,
	afterChanges,
	floorToStep,
	gravityFromSalinity,
	measuredDose,
	no3PerN,
	referencePairs,
	salinityFromGravity,
	unionisedFraction
} from './index.ts';

const seeded = { seed: 20261125, numRuns: 300 };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

interface Schedule {
	volumeL: number;
	made: number;
	clears: number;
	evaporates: number;
	loss: number;
	days: number;
	tan: number;
	medicine: number;
}

/** The same tank as differential equations of masses: nothing of the closed form is used. */
function solved(one: Schedule): number[] {
	const { volumeL, made, clears, evaporates, loss } = one;
	const derivative = (t: number, [tan = 0, , medicine = 0]: number[]) => {
		const cleared = (clears * tan) / (volumeL - evaporates * t);
		return [made - cleared, no3PerN * cleared, -loss * medicine];
	};
	return integrate(derivative, [one.tan, 0, one.medicine], one.days);
}

describe('ageing water', () => {
	it('agrees with odex on 500 random schedules to 1e-9', () => {
		const schedule = fc.record({
			volumeL: number(20, 800),
			made: number(0, 600),
			clears: fc.oneof(fc.constant(0), number(0.01, 400)),
			evaporates: fc.oneof(fc.constant(0), number(1e-9, 1e-6), number(0.01, 4)),
			loss: fc.oneof(fc.constant(0), number(0.001, 3)),
			days: number(0.01, 4),
			tan: number(0, 500),
			medicine: number(0.1, 500)
		});
		fc.assert(
			fc.property(schedule, (one) => {
				const state = {
					volumeL: one.volumeL,
					tanMg: one.tan,
					nitrateMg: 0,
					saltG: 100,
					medicinesMg: [one.medicine]
				};
				const aged = age(
					state,
					{
						tanMgPerDay: one.made,
						clearsLPerDay: one.clears,
						evaporatesLPerDay: one.evaporates,
						lossPerDay: [one.loss]
					},
					one.days
				);
				const [tan = 0, nitrate = 0, medicine = 0] = solved(one);
				const scale = 1 + one.tan + one.made * one.days;
				expect(Math.abs(aged.tanMg - tan) / scale).toBeLessThan(1e-9);
				expect(Math.abs(aged.nitrateMg - nitrate) / (scale * no3PerN)).toBeLessThan(1e-9);
				expect(Math.abs((aged.medicinesMg[0] ?? 0) - medicine) / one.medicine).toBeLessThan(1e-9);
				expect(aged.volumeL).toBeCloseTo(one.volumeL - one.evaporates * one.days, 9);
				expect(aged.saltG).toBe(100);
			}),
			{ seed: 20261125, numRuns: 500 }
		);
	});

	it('two steps are one: ageing a, then b, is ageing a + b', () => {
		fc.assert(
			fc.property(
				number(50, 500),
				number(0, 200),
				number(0, 100),
				number(0, 3),
				number(0.1, 3),
				number(0.1, 3),
				(volumeL, made, clears, evaporates, a, b) => {
					const state = { volumeL, tanMg: 10, nitrateMg: 5, saltG: 1, medicinesMg: [3] };
					const rates = {
						tanMgPerDay: made,
						clearsLPerDay: clears,
						evaporatesLPerDay: evaporates,
						lossPerDay: [0.3]
					};
					const twice = age(age(state, rates, a), rates, b);
					const once = age(state, rates, a + b);
					expect(twice.tanMg).toBeCloseTo(once.tanMg, 7);
					expect(twice.nitrateMg).toBeCloseTo(once.nitrateMg, 6);
				}
			),
			seeded
		);
	});
});

describe('monotony', () => {
	it('more pH or warmth makes more of the ammonia toxic', () => {
		fc.assert(
			fc.property(
				number(10, 30),
				number(1, 40),
				number(7, 8.9),
				number(0.01, 0.5),
				(temperatureC, salinityPpt, pH, more) => {
					const share = (t: number, p: number) => {
						const result = unionisedFraction({ temperatureC: t, salinityPpt, pH: p });
						return result.ok ? result.value.fraction : NaN;
					};
					expect(share(temperatureC, pH + more)).toBeGreaterThan(share(temperatureC, pH));
					expect(share(temperatureC + more, pH)).toBeGreaterThan(share(temperatureC, pH));
				}
			),
			seeded
		);
	});

	it('a larger or a further change leaves less', () => {
		fc.assert(
			fc.property(
				number(0.01, 10),
				number(0.05, 0.9),
				number(0.01, 0.09),
				fc.integer({ min: 1, max: 12 }),
				(level, fraction, more, count) => {
					expect(afterChanges(level, fraction + more, count)).toBeLessThan(
						afterChanges(level, fraction, count)
					);
					expect(afterChanges(level, fraction, count + 1)).toBeLessThan(afterChanges(level, fraction, count));
				}
			),
			seeded
		);
	});

	it('gravity there and back gives the salinity again, for each pair', () => {
		fc.assert(
			fc.property(number(0.5, 40), fc.constantFrom(...referencePairs), (salinity, pair) => {
				const gravity = gravityFromSalinity(salinity, pair);
				const back = gravity.ok ? salinityFromGravity(gravity.value, pair) : gravity;
				expect(back.ok && Math.abs(back.value - salinity)).toBeLessThan(1e-6);
			}),
			seeded
		);
	});
});

describe('doses', () => {
	it('a measured dose never lifts the level over its aim or its ceiling', () => {
		fc.assert(
			fc.property(
				number(20, 900),
				number(0, 0.19),
				number(0.0, 0.2),
				number(0.01, 2),
				number(0.5, 10),
				(volumeL, from, more, step, mgPerMl) => {
					const to = Math.min(0.2, from + more);
					const dose = measuredDose({
						volumeL,
						from,
						to,
						strength: { form: 'liquid', mgPerMl },
						step,
						ceiling: 0.2
					});
					if (!dose.ok) throw new Error(dose.problem.expected);
					const level = from + (dose.value.value * mgPerMl) / volumeL;
					expect(level).toBeLessThanOrEqual(to + (1e-9 * (step * mgPerMl)) / volumeL + 1e-12);
				}
			),
			seeded
		);
	});

	it('rounds down to the step, but 1e-9 of a step is no reason to lose one', () => {
		expect(floorToStep(5.04, 0.1)).toBeCloseTo(5.0, 12);
		expect(floorToStep(0.3, 0.1)).toBeCloseTo(0.3, 12);
		expect(floorToStep(0.29999, 0.1)).toBeCloseTo(0.2, 12);
		expect(floorToStep(6.048, null)).toBe(6.048);
	});
});

describe('units', () => {
	const pairs: [Dimension, string, string][] = [
		['volume', 'L', 'gal'],
		['volume', 'mL', 'fl oz'],
		['mass', 'mg', 'oz'],
		['concentration', 'mg/L', 'ug/L'],
		['temperature', 'C', 'F']
	];
	it('there and back within a few ulps', () => {
		fc.assert(
			fc.property(fc.constantFrom(...pairs), number(0.001, 1e6), ([dimension, one, other], value) => {
				const first = readQuantity(`${value.toFixed(9)} ${one}`, dimension);
				if (!first.ok) throw new Error(first.problem.expected);
				const there = inUnit(first.value, other);
				const second = readQuantity(`${there.toFixed(15)} ${other}`, dimension);
				if (!second.ok) throw new Error(second.problem.expected);
				const typed = Number(value.toFixed(9));
				expect(Math.abs(inUnit(second.value, one) - typed)).toBeLessThanOrEqual(
					Math.max(1e-9, typed * 1e-11)
				);
			}),
			seeded
		);
	});

	it('a unit that does not fit, a bare number and what is no number are problems', () => {
		const cases: [string, Dimension][] = [
			['5 mg', 'volume'],
			['5', 'volume'],
			['NaN L', 'volume'],
			['-5 L', 'volume'],
			['1e400 L', 'volume'],
			['0x10 L', 'volume'],
			['', 'mass'],
			['12 parsec', 'length']
		];
		for (const [text, dimension] of cases)
			expect([text, readQuantity(text, dimension).ok]).toEqual([text, false]);
	});
});
