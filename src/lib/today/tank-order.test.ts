import { describe, expect, test } from 'vitest';
import { document, held, morning, tankOf, tanksOf, type Line } from './sample-round.ts';

describe('the order of tanks', () => {
	const named = (name: string, over: Record<string, unknown> = {}, lines: readonly Line[] = held) => {
		const base = document(over, lines);
		return { ...base, id: name, tank: { ...base.tank, name, ...(over.tank as object | undefined) } };
	};
	const sign = (at: string, signs: string[]): Line => [at, 'observation', { signs }];
	const days = {
		display: named('display', { tank: { holds: ['fish', 'invertebrates'] } }),
		treated: named('treated'),
		new: named('new', {
			phases: [{ id: 'settle', kind: 'settle', starts: 'on 2027-02-04', lasts: '5 d', test: 'NH3 daily' }],
			medicines: [],
			log: []
		}),
		suspected: named('suspected', {}, [...held, sign('2027-02-04T21:00:00Z', ['flashing'])]),
		loud: named('loud', {}, [...held, sign('2027-02-04T21:00:00Z', ['white-spots'])]),
		lost: named('lost', {}, [...held, ['2027-02-04T21:00:00Z', 'loss', { lot: 'a', count: 1 }]])
	};
	const cleanest = ['display', 'treated', 'new', 'suspected', 'lost', 'loud'];

	test('displays first, the cleanest before the treated, suspected and sick last, however they come in', () => {
		for (const names of [Object.keys(days), Object.keys(days).reverse()]) {
			const round = tanksOf(morning, ...names.map((name) => days[name as keyof typeof days]));
			expect(round.tanks.map(({ tank }) => tank)).toEqual(cleanest);
			expect(round.tanks.map(({ standing }) => standing)).toEqual([
				'display',
				'treated',
				'new',
				'suspected',
				'sick',
				'sick'
			]);
		}
	});

	test('a hygiene step stands between two tanks, a graver one before the sick, and one after them', () => {
		const round = tanksOf(morning, ...Object.values(days));
		expect(round.tanks.map(({ hygiene }) => hygiene !== null)).toEqual([false, true, true, true, true, true]);
		expect(round.tanks[1]?.hygiene?.text).toContain('own net');
		expect(round.tanks[3]?.hygiene?.text).toContain('come last');
		expect(round.hygieneAfter?.text).toContain('200 mg/L for 10 minutes');
		expect(tanksOf(morning, days.display, days.treated).hygieneAfter).toBeNull();
	});

	test('signs fade after fourteen days, and a clean look is no sign', () => {
		const old = named('old', {}, [...held, sign('2027-02-04T21:00:00Z', ['flashing'])]);
		expect(tankOf('2027-02-18T20:59:00Z', old).standing).toBe('suspected');
		expect(tankOf('2027-02-18T21:01:00Z', old).standing).toBe('treated');
		expect(
			tankOf(morning, named('clean', {}, [...held, sign('2027-02-04T21:00:00Z', ['none'])])).standing
		).toBe('treated');
	});
});
