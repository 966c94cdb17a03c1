import { describe, expect, it } from 'vitest';
import { actives, medicines, methods } from '../formulary/index.ts';
import { factsOf, levelWords, matches, methodFacts, searchText, useWords } from './medicine-facts.ts';

/** Columns that stand in the head of an entry or in its tables, not among its lines. */
const elsewhere = ['margin', 'window', 'ceiling', 'clear', 'uses', 'toxicity', 'disagreements'];

const sources = (node: unknown): string[] => {
	if (typeof node !== 'object' || node === null) return [];
	const own = 'mark' in node && 'source' in node ? [`${String(node.mark)} ${String(node.source)}`] : [];
	return [...own, ...Object.values(node).flatMap(sources)];
};

describe('an entry hides nothing that its row knows', () => {
	it.each(actives)('%s: one line per sourced value, with its mark and source', (active) => {
		const row = Object.fromEntries(
			Object.entries(medicines[active]).filter(([key]) => !elsewhere.includes(key))
		);
		const lines = factsOf(medicines[active]).flatMap(({ facts }) => facts);
		expect(lines.map(({ mark, source }) => `${mark} ${source}`).sort()).toEqual(sources(row).sort());
		for (const { text } of lines) expect(text).toMatch(/\S/);
	});

	it.each(['low-salinity', 'transfer'] as const)('%s likewise', (method) => {
		const { uses: _, disagreements: __, ...row } = methods[method];
		const lines = methodFacts(methods[method]).flatMap(({ facts }) => facts);
		expect(lines.map(({ mark, source }) => `${mark} ${source}`).sort()).toEqual(sources(row).sort());
	});
});

describe('words', () => {
	const line = (active: (typeof actives)[number], term: string) =>
		factsOf(medicines[active])
			.flatMap(({ facts }) => facts)
			.find((one) => one.term === term)?.text;

	it('say levels in the unit of the row', () => {
		expect(levelWords({ low: 0.15, high: 0.2 }, 'mg/L')).toBe('0.15 to 0.20 mg/L');
		expect(levelWords({ low: 0, high: 250 }, 'uL/L')).toBe('up to 250 µL/L');
		expect(levelWords(0.18, 'mg/L')).toBe('0.18 mg/L');
	});

	it('say a temperature as the page turns into °F', () => {
		expect(line('formalin', 'Short bath, warm water')).toBe('150 µL/L above 21.0 °C');
	});

	it('say the spread of a loss', () => {
		expect(line('copper-ionic', 'Lost by itself')).toBe('least none, greatest half in 6.6 d');
		expect(line('fresh-water', 'Lost by itself')).toBe('none');
	});

	it('say a use on record', () => {
		const levamisole = medicines.levamisole.uses[0];
		if (!levamisole) throw new Error('levamisole has no use on record');
		expect(useWords(levamisole, 'mg/L')).toBe('2 mg/L, 24 h, 14 to 21 days apart');
	});
});

it('finds medicines by every word typed, and by what they reach, not by what they fail at', () => {
	const text = Object.fromEntries(
		actives.map((active) => [active, searchText([medicines[active].name], factsOf(medicines[active]), [])])
	);
	const found = (query: string) => actives.filter((active) => matches(text[active] ?? '', query));
	expect(found('')).toEqual(actives);
	expect(found('VELVET copper')).toContain('copper-ionic');
	expect(found('thomas')).toEqual(['praziquantel']);
	expect(found('brooklynella')).toEqual(['formalin', 'formalin-malachite']);
	expect(found('no-such-word')).toEqual([]);
});
