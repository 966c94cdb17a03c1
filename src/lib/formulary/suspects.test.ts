import { describe, expect, it } from 'vitest';
import { answersTo, suspects, targets } from './index.ts';

const first = (...signs: string[]) => suspects(signs)[0]?.target;

describe('what signs speak for', () => {
	// common practice, no source, unless said
	it.each([
		[['white-spots'], 'cryptocaryon'],
		[['gold-dust', 'fast-breathing', 'into-flow'], 'amyloodinium'],
		[['stringy-faeces', 'thin'], 'worms'],
		[['ragged-fins', 'sore'], 'bacteria'],
		[['flashing', 'pale-gills'], 'flukes']
	])('%j speak first of all for %s', (signs, target) => {
		expect(first(...signs)).toBe(target);
	});

	it('names brooklynella for a haze, louder on a clownfish', () => {
		const [onAny] = suspects(['haze']);
		const [onClown] = suspects(['haze'], 'clownfish');
		expect([onAny?.target, onClown?.target]).toEqual(['brooklynella', 'brooklynella']);
		expect(onClown?.weight).toBeGreaterThan(onAny?.weight ?? Infinity);
		expect(onClown?.because.match(/haze/g)).toHaveLength(1);
	});

	it.each([[[]], [['none']], [['lethargy', 'off-feed']], [['no-such-sign']]])(
		'%j suspect nobody',
		(signs) => {
			expect(suspects(signs)).toEqual([]);
		}
	);

	it('says why', () => {
		expect(suspects(['gold-dust'])[0]?.because).toBe('gold dust (common practice, no source)');
	});
});

describe('what answers a suspect', () => {
	const names = (rows: { by: string }[]) => rows.map((row) => row.by);

	it.each(['brooklynella', 'uronema', 'flukes'] as const)('copper does not answer %s', (target) => {
		const { treats, doesNotTreat } = answersTo(target);
		expect(names(doesNotTreat)).toContain('copper-ionic');
		expect(names(treats)).not.toContain('copper-ionic');
	});

	// low salinity and velvet: Ellis & Watanabe 1993
	it.each(['transfer', 'low-salinity'])('%s does not answer velvet', (method) => {
		expect(names(answersTo('amyloodinium').doesNotTreat)).toContain(method);
	});

	it('velvet is answered by copper and chloroquine, white spot by copper and transfer, brooklynella by formalin', () => {
		expect(names(answersTo('amyloodinium').treats)).toEqual(
			expect.arrayContaining(['copper-ionic', 'chloroquine'])
		);
		expect(names(answersTo('cryptocaryon').treats)).toEqual(
			expect.arrayContaining(['copper-ionic', 'transfer'])
		);
		expect(names(answersTo('brooklynella').treats)).toContain('formalin');
	});

	it('finds an answer to every target', () => {
		for (const target of targets) expect(answersTo(target).treats.length).toBeGreaterThan(0);
	});
});
