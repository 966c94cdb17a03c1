import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gapBounds, targets, type GapBounds, type Target } from './index.ts';

const bounds = (target: Target, temperatureC: number): GapBounds => {
	const answer = gapBounds(target, temperatureC);
	if (!answer.ok) throw new Error(answer.problem.expected);
	return answer.value;
};

describe('the gap between two fluke doses', () => {
	// hatching and laying ages: N. girellae 1995 abstract, Brazenor & Hutson 2015, Ernst et al. 2005
	it.each([
		[25, 15],
		[25.5, 10],
		[26, 10],
		[28, 10],
		[32, 10],
		[24, 15]
	])('at %d °C ends before day %i', (temperatureC, latest) => {
		expect(bounds('flukes', temperatureC).latestDays).toBe(latest);
	});

	it.each([25, 26, 27, 28])('at %i °C begins on day 6 or 7 and proposes 7', (temperatureC) => {
		for (const target of ['flukes', 'neobenedenia', 'benedenia'] as const) {
			const { earliestDays, proposedDays } = bounds(target, temperatureC);
			expect([6, 7]).toContain(earliestDays);
			expect(proposedDays).toBe(7);
		}
	});

	it('takes the stricter of two listed temperatures', () => {
		expect(bounds('neobenedenia', 24.9).earliestDays).toBe(bounds('neobenedenia', 24).earliestDays);
		expect(bounds('neobenedenia', 25.1).latestDays).toBe(bounds('neobenedenia', 26).latestDays);
	});

	it('is for `flukes` at least as strict as for either genus, and never empty', () => {
		fc.assert(
			fc.property(fc.double({ min: 20, max: 32, noNaN: true }), (temperatureC) => {
				const both = bounds('flukes', temperatureC);
				for (const genus of ['neobenedenia', 'benedenia'] as const) {
					const one = bounds(genus, temperatureC);
					expect(both.earliestDays).toBeGreaterThanOrEqual(one.earliestDays);
					expect(both.latestDays).toBeLessThanOrEqual(one.latestDays);
				}
				expect(both.proposedDays).toBeGreaterThanOrEqual(both.earliestDays);
				expect(both.proposedDays).toBeLessThan(both.latestDays);
			}),
			{ seed: 20260101 }
		);
	});

	it('begins no earlier in colder water', () => {
		fc.assert(
			fc.property(
				fc.double({ min: 20, max: 32, noNaN: true }),
				fc.double({ min: 20, max: 32, noNaN: true }),
				(a, b) => {
					const [cold, warm] = a < b ? [a, b] : [b, a];
					expect(bounds('flukes', cold).earliestDays).toBeGreaterThanOrEqual(
						bounds('flukes', warm).earliestDays
					);
				}
			),
			{ seed: 20260102 }
		);
	});

	it.each([19.9, 14, 32.1, NaN])('refuses %d °C and names its range', (temperatureC) => {
		const answer = gapBounds('flukes', temperatureC);
		expect(answer).toMatchObject({ ok: false, problem: { code: 'gap-temperature' } });
		if (!answer.ok) expect(answer.problem.expected).toContain('20 to 32 °C');
	});

	it('times no second dose against what no second dose is timed by', () => {
		const timed = targets.filter((target) => gapBounds(target, 26).ok);
		expect(timed).toEqual(['neobenedenia', 'benedenia', 'flukes', 'worms']);
	});
});
