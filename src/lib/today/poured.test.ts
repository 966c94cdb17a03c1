import { describe, expect, test } from 'vitest';
import { isMeasured, readPoured } from './index.ts';

const change = {
	kind: 'change',
	amount: { value: 33.6, unit: 'L' },
	amountText: '33.6 L',
	takes: { unit: 'L', mostL: 112 }
} as const;
const dose = {
	kind: 'dose',
	amount: { value: 3.4, unit: 'mL' },
	amountText: '3.4 mL',
	takes: { unit: 'mL', mostL: null }
} as const;
const powder = {
	kind: 'dose',
	amount: { value: 280, unit: 'mg' },
	amountText: '280 mg',
	takes: { unit: 'mg', mostL: null }
} as const;
const said = (row: Parameters<typeof readPoured>[0], text: string) => {
	const poured = readPoured(row, text);
	return poured.ok ? poured.value : `expected ${poured.problem.expected}`;
};

describe('what was poured', () => {
	test('is asked of jobs that are measured out, not of taking fish in or looking at them', () => {
		expect([change, dose, { kind: 'dose', amount: null } as const].map(isMeasured)).toEqual([
			true,
			true,
			true
		]);
		expect(isMeasured({ kind: 'acclimate', amount: null })).toBe(false);
		expect(isMeasured({ kind: 'observe', amount: null })).toBe(false);
	});

	test('is a bare number in the unit of the job, or another unit that measures the same', () => {
		expect(said(change, '20')).toBe('20 L');
		// a US gallon is 231 cubic inches, 3.785411784 L (NIST SP 811)
		expect(said(change, '5 gal')).toBe('18.9271 L');
		expect(said(dose, '1,7')).toBe('1.7 mL');
		expect(said(dose, '3400 uL')).toBe('3.4 mL');
		expect(said(powder, '0.28 g')).toBe('280 mg');
		expect(said({ ...dose, amount: null, amountText: '' }, '2')).toBe('2 mL');
	});

	test('of another kind is asked for in the unit of the job', () => {
		expect(said(dose, '3.4 mg')).toBe('expected an amount in mL, such as 3.4 mL');
		expect(said(powder, '280 mL')).toBe('expected an amount in mg, such as 280 mg');
		expect(said(change, '20 %')).toBe('expected an amount in L, such as 33.6 L');
		expect(said(change, '-5')).toContain('expected');
	});

	test('is more than nothing, and no more water than the tank holds', () => {
		expect(said(dose, '0')).toContain('more than nothing');
		expect(said(change, '1000')).toBe('expected at most the 112 L in the tank');
		expect(said(change, '112')).toBe('112 L');
	});
});
