import { describe, expect, it } from 'vitest';
import { plan } from './index.ts';
import { runOf } from './example.ts';
import { dec, doneUntil, scenes, taskIn, withLog, type Entry, type Scene } from './slips/scenes.ts';

/** 100 L, 0.15 to 0.20 mg/L aimed at 0.18, bottle 2 mg/mL: one step of the syringe of 2 mL is 0.04 mg/L. */
const coarse = (): Scene => {
	const scene = scenes.hold() as Scene & { medicines: Record<string, unknown>[] };
	scene.medicines = scene.medicines.map((one) => (one.id === 'cu' ? { ...one, measure: '2 mL' } : one));
	return scene;
};
const read = (value: string, at: string, id: string): Entry => ({
	id,
	at,
	kind: 'reading',
	what: 'Cu',
	value
});

describe('a dose that is rounded for its syringe', () => {
	const dosed = (first: string, second: string) => {
		const scene = coarse();
		const log = [
			...doneUntil(scene, dec(5, '07:00')),
			read(first, dec(5, '08:01'), 'r1'),
			read(second, dec(5, '08:02'), 'r2')
		];
		return taskIn(plan(runOf(withLog(scene, log)), dec(5, '08:05')), 'copper/dose/5');
	};

	it('is rounded up where only that holds the floor and stays under the ceiling', () => {
		// 0.18 - 0.145 is 1.75 mL: down it is nothing and 0.145 stays; up it is 2 mL, 0.185
		const dose = dosed('0.145 mg/L', '0.145 mg/L');
		expect(dose?.amount).toEqual({ value: 2, unit: 'mL' });
		expect(dose?.raises?.to).toBeCloseTo(0.185, 9);
	});

	it('is rounded down where the floor holds anyway', () => {
		// 0.18 - 0.12 is 3 mL: down 2 mL leads to 0.16
		expect(dosed('0.12 mg/L', '0.12 mg/L')?.amount).toEqual({ value: 2, unit: 'mL' });
	});
});
