import { expect, it } from 'vitest';
import { bodyOf } from './carcass.ts';
import { bodyWords } from './carcass-words.ts';
import { changed, ofRule, planOf } from './checks/cases/case.ts';

// a fish of 25 g holds about 0.7 g of nitrogen, 6 mg/L in 112 L: judgment, no source
it('a fish of 25 g may bring 112 L to about 6 mg/L', () => {
	const body = bodyOf({ massG: 125, count: 5 }, 112);
	expect(body).toMatchObject({ massG: 25, known: true });
	expect(body?.mgNPerL).toBeCloseTo(700 / 112, 9);
	// a tank half as large: twice as much
	expect(bodyOf({ massG: 25, count: 1 }, 56)?.mgNPerL).toBeCloseTo(1400 / 112, 9);
	expect(body && bodyWords(body, 2)).toMatch(/2 of 25 g: about 1\.4 g.*up to 12\.5 mg\/L .* in 112 L/);
});

it('without a mass it counts as 25 g and says so, without a volume there is no number', () => {
	const body = bodyOf({ massG: null, count: 5 }, 56);
	expect(body).toMatchObject({ massG: 25, known: false });
	expect(body && bodyWords(body, 1)).toMatch(/was not written; 1 of 25 g/);
	expect(bodyOf({ massG: 64, count: 5 }, null)).toBeNull();
});

it('two deaths in this tank say what their bodies may do to its water', () => {
	const at = ['2026-11-28T09:00:00-06:00', '2026-11-28T12:00:00-06:00'];
	const log = at.map((at, n) => ({ id: `l${n}`, at, kind: 'loss', lot: 'a', count: 1 }));
	const because = (change: object) =>
		ofRule(planOf(changed({ ...change, log }), '2026-11-28T20:00:00Z'), 'call-the-vet')[0]?.because;
	// 64 g of five fish: 2 x 12.8 g x 0.028 g/g / 112 L = 6.4 mg/L
	expect(because({})).toMatch(/2 of 12\.8 g: about 0\.7 g.*up to 6\.4 mg\/L .* in 112 L/);
	expect(because({ tank: { net: undefined } })).toContain('rots to ammonia');
});
