/** Closed forms of a level against odex, which is given the bare differential equations, and inverses against their ways. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { integrate } from '../../../tests/integrate.ts';
import type { Read } from '../units/index.ts';
import {
	afterChanges,
	afterEvaporation,
	afterFlow,
	age,
	changesNeeded,
	dailyChangesSettleAt,
	daysToDecay,
	daysToReach,
	decayed,
	dilute,
	fractionNeeded,
	replacedByFlow,
	settlesAt,
	turnoversToReplace,
	withDailyChanges,
	withInput
} from './index.ts';

const seeded = { seed: 20261126, numRuns: 300 };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const valueOf = <T>(result: Read<T>): T => {
	if (!result.ok) throw new Error(result.problem.expected);
	return result.value;
};
const same = (found: number, wanted: number, relative = 1e-9): void => {
	expect(Math.abs(found - wanted)).toBeLessThanOrEqual(relative * (1 + Math.abs(wanted)));
};

function solved(rate: (level: number) => number, from: number, days: number): number {
	return integrate((_, [level = 0]) => [rate(level)], [from], days)[0] ?? NaN;
}

describe('a level with input and loss', () => {
	it('is what odex finds', () => {
		fc.assert(
			fc.property(
				number(0, 20),
				number(0, 10),
				fc.oneof(fc.constant(0), number(1e-9, 1e-7), number(0.01, 3)),
				number(0.01, 8),
				(level, input, loss, days) =>
					same(
						withInput(level, input, loss, days),
						solved((c) => input - loss * c, level, days)
					)
			),
			seeded
		);
	});
	it('reaches a limit when it says, or never', () => {
		fc.assert(
			fc.property(number(0, 1), number(1, 5), number(0.01, 3), number(0, 1), (level, limit, input, loss) => {
				const days = daysToReach(level, limit, input, loss);
				if (days === null) expect(settlesAt(input, loss)).toBeLessThanOrEqual(limit);
				else same(withInput(level, input, loss, days), limit, 1e-7);
			}),
			seeded
		);
	});
	it('never rises without input, and never moves without either', () => {
		expect(daysToReach(0.1, 0.2, 0, 0)).toBeNull();
		expect(daysToReach(0.3, 0.2, 1, 0)).toBe(0);
		expect(settlesAt(4, 0)).toBeNull();
		expect(withInput(3, 0, 0, 9)).toBe(3);
	});
	it('fades to a target in the days it names, and never to nothing', () => {
		same(decayed(2, 0.3, valueOf(daysToDecay(2, 0.25, 0.3))), 0.25);
		expect(valueOf(daysToDecay(0.1, 0.2, 0.3))).toBe(0);
		expect(daysToDecay(2, 0, 0.3).ok).toBe(false);
		expect(daysToDecay(2, 1, 0).ok).toBe(false);
	});
});

describe('changes', () => {
	it('day by day is the geometric series', () => {
		fc.assert(
			fc.property(
				number(0, 9),
				number(0, 9),
				number(0.01, 0.9),
				fc.integer({ min: 0, max: 30 }),
				(level, made, share, n) => {
					let walked = level;
					for (let day = 0; day < n; day++) walked = dilute(walked + made, share);
					same(withDailyChanges(level, made, share, n), walked);
				}
			),
			seeded
		);
		expect(withDailyChanges(1, 2, 0, 5)).toBe(11);
		expect(dailyChangesSettleAt(2, 0)).toBeNull();
	});
	it('the number asked for suffices and one fewer does not, with what the new water holds', () => {
		fc.assert(
			fc.property(
				number(1, 9),
				number(0.05, 0.9),
				number(0.05, 0.95),
				number(0, 0.04),
				(from, to, fraction, source) => {
					const { changes, residual } = valueOf(changesNeeded({ from, to, fraction, source }));
					expect(residual).toBeLessThanOrEqual(to * (1 + 1e-9));
					expect(afterChanges(from, fraction, changes - 1, source)).toBeGreaterThan(to);
				}
			),
			seeded
		);
	});
	it('0.7 x 0.7 is 0.49: rounding does not ask for a third change', () => {
		expect(valueOf(changesNeeded({ from: 1, to: 0.49, fraction: 0.3 })).changes).toBe(2);
		expect(valueOf(changesNeeded({ from: 1, to: 0.421875, fraction: 0.25 })).changes).toBe(3);
		expect(valueOf(changesNeeded({ from: 8, to: 1, fraction: 0.5 })).changes).toBe(3);
	});
	it('a whole change, none needed, and what no change can do', () => {
		expect(valueOf(changesNeeded({ from: 2, to: 0, fraction: 1 }))).toEqual({ changes: 1, residual: 0 });
		expect(valueOf(changesNeeded({ from: 1, to: 2, fraction: 0.5 }))).toEqual({ changes: 0, residual: 1 });
		expect(valueOf(changesNeeded({ from: 1, to: 1, fraction: 0.5 }))).toEqual({ changes: 0, residual: 1 });
		expect(changesNeeded({ from: 2, to: 0, fraction: 0.5 }).ok).toBe(false);
		expect(changesNeeded({ from: 2, to: 1, fraction: 0 }).ok).toBe(false);
		expect(changesNeeded({ from: 2, to: 1, fraction: 1.2 }).ok).toBe(false);
		expect(changesNeeded({ from: 2, to: 0.1, fraction: 0.5, source: 0.2 }).ok).toBe(false);
	});
	it('the size asked for brings it to the target', () => {
		fc.assert(
			fc.property(number(1, 9), number(0.05, 0.9), fc.integer({ min: 1, max: 20 }), (from, to, changes) =>
				same(afterChanges(from, valueOf(fractionNeeded({ from, to, changes })), changes), to)
			),
			seeded
		);
	});
	it('dripping is what odex finds, and its time the way back', () => {
		fc.assert(
			fc.property(number(0, 9), number(0, 3), number(0, 6), (level, source, turnovers) => {
				same(
					afterFlow(level, turnovers, source),
					solved((c) => source - c, level, turnovers || 1e-12)
				);
				const share = replacedByFlow(turnovers);
				same(valueOf(turnoversToReplace(share)), turnovers, 1e-9);
			}),
			seeded
		);
		expect(turnoversToReplace(1).ok).toBe(false);
	});
});

describe('evaporation', () => {
	it('1.5 L a day for 4 days lift 34 ppt in 112 L to 35.9; by hand, 34 x 112 / 106', () => {
		same(valueOf(afterEvaporation(34, 112, 1.5, 4)), 35.924528301886795, 1e-12);
	});
	it('a dry tank is a problem here and a bug in the march', () => {
		expect(afterEvaporation(34, 6, 1.5, 4).ok).toBe(false);
		const state = { volumeL: 6, tanMg: 0, nitrateMg: 0, saltG: 204, medicinesMg: [] };
		const rates = { tanMgPerDay: 0, clearsLPerDay: 0, evaporatesLPerDay: 1.5, lossPerDay: [] };
		expect(() => age(state, rates, 4)).toThrow('6 L cannot lose');
	});
	it('clearance equal to evaporation has its own limit: M = M0 V/V0 + P V ln(V0/V) / e', () => {
		const state = { volumeL: 100, tanMg: 50, nitrateMg: 0, saltG: 0, medicinesMg: [] };
		const rates = { tanMgPerDay: 12, clearsLPerDay: 2, evaporatesLPerDay: 2, lossPerDay: [] };
		same(age(state, rates, 5).tanMg, 50 * 0.9 - (12 * 90 * Math.log(0.9)) / 2);
	});
	it('without a filter ammonia adds up exactly and makes no nitrate', () => {
		const state = { volumeL: 112, tanMg: 10, nitrateMg: 560, saltG: 3808, medicinesMg: [20] };
		const rates = { tanMgPerDay: 13, clearsLPerDay: 0, evaporatesLPerDay: 1.5, lossPerDay: [0] };
		const aged = age(state, rates, 2);
		expect(aged).toEqual({ volumeL: 109, tanMg: 36, nitrateMg: 560, saltG: 3808, medicinesMg: [20] });
	});
});
