import { describe, expect, it } from 'vitest';
import { exampleDocument, exampleWith, runOf } from './example.ts';
import { plan } from './index.ts';

const intake = (at: string) =>
	plan(
		runOf(exampleWith({ log: [{ id: '1', at, kind: 'reading', what: 'pH', value: '8.1' }] })),
		'2026-11-27T13:30:00Z'
	);
const first = (at: string) => intake(at).levels.find(({ when }) => when === 'before');

describe('the outset of a run', () => {
	it('begins to age its water with the first entry, not before: one hour of 13.25 mg N a day in 112 L', () => {
		const water = first('2026-11-27T07:00:00-06:00');
		// 1.6 g x 0.09 x 92 mg = 13.248 mg N a day; the filter takes off less than 1 % of it within the hour
		expect(water?.tanMgNPerL).toBeCloseTo(13.248 / 24 / 112, 4);
		expect(water?.nitrateMgPerL).toBeCloseTo(5, 2);
	});

	it('can be planned although nothing in it has a date', () => {
		const undated = {
			...exampleDocument,
			lots: [],
			phases: [{ id: 'wait', kind: 'observe', lasts: '3 d', change: 'auto' }]
		};
		expect(plan(runOf(undated), '2026-11-27T13:30:00Z').begins).toBe('2026-11-27');
	});
});
