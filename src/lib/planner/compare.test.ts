import { describe, expect, it } from 'vitest';
import { exampleDocument, exampleNow, exampleWith, runOf } from './example.ts';
import { compare, compareWords, isSame, plan } from './index.ts';

const planOf = (document: object) => plan(runOf(document), exampleNow);
const before = planOf(exampleDocument);

describe('two plans compared', () => {
	it('are the same when they are', () => {
		const one = compare(before, planOf(exampleDocument));
		expect(isSame(one)).toBe(true);
		expect(compareWords(one).tasks).toEqual([]);
		expect(compareWords(one)).toMatchObject({ release: '2027-01-17, as planned', water: 'as planned' });
	});

	it('tell a moved dose from a changed one, and name nothing else', () => {
		const one = compare(before, planOf(exampleWith({ moves: { 'flukes/dose/2': '2026-12-10' } })));
		const dose = one.moved.find(({ id }) => id === 'flukes/dose/2');
		expect(dose?.at).toEqual({
			from: { date: '2026-12-09', time: '08:00' },
			to: { date: '2026-12-10', time: '08:00' }
		});
		expect(compareWords(one).tasks).toContain(
			'2026-12-10 08:00, Praziquantel 280 mg: from 2026-12-09 08:00 to 2026-12-10 08:00'
		);
		expect(isSame(one)).toBe(false);
	});

	it('count what a longer watch costs by hand: three days later, nothing sooner', () => {
		const one = compare(before, planOf(exampleWith({}, { watch: { lasts: '17 d' } })));
		expect(one.release).toEqual({ from: '2027-01-17', to: '2027-01-20', daysLater: 3 });
		// 25 % of 112 L every third day: days 4, 7, 10, 13 before, 16 as well now
		expect(one.waterL).toBeCloseTo(28, 6);
		expect(one.come.map(({ kind }) => kind).sort()).toContain('change');
		const watch = one.phases.find(({ id }) => id === 'watch');
		expect(watch?.ends).toEqual({ from: '2027-01-16', to: '2027-01-19' });
		expect(watch?.earned).toBeNull();
	});

	it('speaks of a release that has no day in whole words', () => {
		const without = planOf({
			...exampleDocument,
			phases: exampleDocument.phases.filter(({ id }) => id !== 'release')
		});
		expect(without.release).toBeNull();
		expect(compareWords(compare(without, without)).release).toBe('has no day, now as before');
		expect(compareWords(compare(before, without)).release).toBe('has no day any more, it was 2027-01-17');
		expect(compareWords(compare(without, before)).release).toBe('2027-01-17, where there was no day before');
	});

	it('is its own mirror: what comes one way goes the other', () => {
		const after = planOf(exampleWith({}, { copper: { lasts: '14 d' } }));
		const there = compare(before, after);
		const back = compare(after, before);
		const ids = (notes: { id: string }[]) => notes.map(({ id }) => id).sort();
		expect(ids(there.come)).toEqual(ids(back.gone));
		expect(ids(there.gone)).toEqual(ids(back.come));
		expect(ids(there.moved)).toEqual(ids(back.moved));
		expect(there.waterL).toBeCloseTo(-back.waterL, 9);
		expect(there.findings.come).toEqual(back.findings.gone);
		expect(there.findings.come.map(({ rule }) => rule)).toContain('cysts-outlive');
	});
});
