/** Figures worked by hand: 1 US gal = 3.785411784 L, 1 US fl oz = 29.5735 mL (NIST SP 811). */
import { describe, expect, test } from 'vitest';
import { plan } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import { sampleRun, sampleTask } from './sample-plan.ts';
import { amountIn, planIn } from './telling.ts';

test.each([
	[{ value: 5, unit: 'mL' }, '5.0 mL', '5.0 mL'],
	[{ value: 0.25, unit: 'mL' }, '0.25 mL', '0.25 mL'],
	[{ value: 280, unit: 'mg' }, '280 mg', '280 mg'],
	[{ value: 1.25, unit: 'mg' }, '1.25 mg', '1.25 mg'],
	[{ value: 33.6, unit: 'L' }, '33.6 L', '8.9 gal'],
	[{ value: 56, unit: 'L' }, '56 L', '14.8 gal'],
	[{ value: 0.3, unit: 'L' }, '0.3 L', '10.1 fl oz']
] as const)('%j is written %s, or %s', (amount, metric, us) => {
	expect(amountIn('metric', amount)).toBe(metric);
	expect(amountIn('us', amount)).toBe(us);
});

describe('a plan told in US units', () => {
	const planned = plan(readRun(sampleRun(), { today: '2026-12-01' }), '2026-12-01T12:00:00Z');
	// 33.46 L are 8.839 gal, and the rounded 33.5 L would be 8.850: the words follow the amount
	const change = sampleTask('hold/change/5', '2026-12-05', {
		text: 'Change 33.5 L',
		amount: { value: 33.46, unit: 'L' },
		because: '30 % of the water.',
		cautions: ['Never above 26 °C.']
	});
	const told = planIn('us', {
		...planned,
		tasks: [change],
		findings: [
			{
				rule: 'r',
				severity: 'caution',
				date: null,
				phase: null,
				message: 'New water at 23 °C moves the tank by -1.5 °C.',
				because: 'In 112 L.',
				source: 'Published at 25 °C.',
				repairs: [{ title: 'Bring new water to 26 °C first', cost: '34 L more water', edits: [] }]
			}
		]
	});
	test('says litres and degrees in gallons and °F', () => {
		expect(told.tasks[0]).toMatchObject({ text: 'Change 8.8 gal', cautions: ['Never above 78.8 °F.'] });
		expect(told.findings[0]).toMatchObject({
			message: 'New water at 73.4 °F moves the tank by -2.7 °F.',
			because: 'In 29.6 gal.',
			repairs: [{ title: 'Bring new water to 78.8 °F first', cost: '9.0 gal more water' }]
		});
	});
	test('leaves amounts, ids and what was published as they were', () => {
		expect(told.tasks[0]?.amount).toEqual({ value: 33.46, unit: 'L' });
		expect(told.findings[0]?.source).toBe('Published at 25 °C.');
		expect(planIn('metric', planned)).toBe(planned);
	});
});
