import { describe, expect, it } from 'vitest';
import { actives, sharing } from './index.ts';

describe('sharing water', () => {
	it('says the same both ways round', () => {
		for (const a of actives) for (const b of actives) expect(sharing(a, b)).toEqual(sharing(b, a));
	});

	// common practice, no source
	it.each([
		['copper-ionic', 'praziquantel', 'may'],
		['botanical-antibacterial', 'botanical-antifungal', 'may'],
		['formalin', 'praziquantel', 'never'],
		['formalin', 'copper-ionic', 'never'],
		['formalin-malachite', 'praziquantel', 'never'],
		['botanical-antibacterial', 'copper-ionic', 'never'],
		['botanical-antifungal', 'kanamycin', 'never']
	] as const)('%s and %s: %s', (a, b, verdict) => {
		expect(sharing(a, b)).toMatchObject({ verdict, mark: 'CP', source: 'common practice, no source' });
	});

	it('never mixes two copper scales', () => {
		expect(sharing('copper-ionic', 'copper-chelated').verdict).toBe('never');
	});

	it('keeps a pair nobody spoke of apart', () => {
		expect(sharing('praziquantel', 'kanamycin').verdict).toBe('unknown');
		expect(sharing('copper-chelated', 'praziquantel').verdict).toBe('unknown');
	});

	it('knows nothing of `other`, not even beside another `other`', () => {
		for (const active of actives) expect(sharing('other', active).verdict).toBe('unknown');
	});

	it('lets only these share: a medicine with itself, the two pairs of practice, and a dip in its own vessel', () => {
		const allowed = actives.flatMap((a, i) =>
			actives.slice(i + 1).flatMap((b) => (sharing(a, b).verdict === 'may' ? [`${a} + ${b}`] : []))
		);
		expect(allowed.filter((pair) => !pair.includes('fresh-water'))).toEqual([
			'copper-ionic + praziquantel',
			'botanical-antibacterial + botanical-antifungal'
		]);
		expect(sharing('copper-ionic', 'copper-ionic').verdict).toBe('may');
	});
});
