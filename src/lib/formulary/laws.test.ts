import { describe, expect, it } from 'vitest';
import * as formulary from './index.ts';
import {
	actives,
	groupRows,
	groups,
	medicines,
	methods,
	targets,
	tolerates,
	unsourced,
	type Mark
} from './index.ts';
import { signs } from '../run/vocabulary.ts';

interface Marked {
	at: string;
	mark: Mark;
	source: string;
}

/** Every object with a mark, wherever it hangs in the tables. */
function marked(node: unknown, at: string): Marked[] {
	if (typeof node !== 'object' || node === null) return [];
	const here =
		'mark' in node && 'source' in node
			? [{ at, mark: node.mark as Mark, source: node.source as string }]
			: [];
	return [...here, ...Object.entries(node).flatMap(([key, child]) => marked(child, `${at}.${key}`))];
}

const all = marked(
	Object.fromEntries(Object.entries(formulary).filter(([, value]) => typeof value === 'object')),
	'formulary'
);

describe('where values come from', () => {
	it('meets every table on the walk', () => {
		expect(all.length).toBeGreaterThan(600);
		for (const table of [
			'medicines',
			'methods',
			'groupRows',
			'parasites',
			'courses',
			'emergencies',
			'kits',
			'stay'
		])
			expect(all.some(({ at }) => at.startsWith(`formulary.${table}.`))).toBe(true);
	});

	it('names a publication on every published value', () => {
		const nameless = all.filter(({ mark, source }) => mark === 'P' && !/[A-Z].*\d|[a-z]{4}/.test(source));
		const borrowed = all.filter(
			({ mark, source }) => mark === 'P' && Object.values(unsourced).includes(source as never)
		);
		expect(nameless).toEqual([]);
		expect(borrowed).toEqual([]);
	});

	it.each(['CP', 'J', 'M'] as const)('says the exact words for %s', (mark) => {
		const words = { CP: 'common practice, no source', J: 'judgment, no source', M: 'from memory' };
		const rows = all.filter((row) => row.mark === mark);
		expect(rows.length).toBeGreaterThan(20);
		expect(rows.filter((row) => row.source !== words[mark])).toEqual([]);
	});

	it('carries no mark but the four', () => {
		expect([...new Set(all.map(({ mark }) => mark))].sort()).toEqual(['CP', 'J', 'M', 'P']);
	});
});

describe('every medicine', () => {
	it.each(actives)('%s keeps floor < aim <= ceiling and clears under the floor', (active) => {
		const row = medicines[active];
		expect(row.active).toBe(active);
		const low = row.window?.value.low ?? 0;
		const ceiling = row.ceiling?.value ?? Infinity;
		const high = row.window?.value.high ?? ceiling;
		expect(low).toBeLessThan(high);
		expect(high).toBeLessThanOrEqual(ceiling);
		for (const aim of [row.aim?.value, row.sensitive.value.aim]) {
			expect(aim ?? high).toBeLessThanOrEqual(ceiling);
			if (typeof aim === 'number' && aim !== low) expect(aim).toBeGreaterThan(low);
		}
		if (row.window && row.clear) expect(row.clear.value).toBeLessThan(low);
	});

	it.each(actives)('%s loses at least as fast at the greatest loss as at the least', (active) => {
		const { leastHalfLifeDays, greatestHalfLifeDays } = medicines[active].loss.value;
		expect(greatestHalfLifeDays ?? Infinity).toBeLessThanOrEqual(leastHalfLifeDays ?? Infinity);
	});

	it.each(actives)(
		'%s warns, sends to label and law, and never both treats and fails one target',
		(active) => {
			const row = medicines[active];
			expect(row.cautions.length).toBeGreaterThan(1);
			expect(row.cautions.at(-1)).toMatch(/label.*veterinarian.*law/);
			const both = targets.filter((target) => row.treats[target] && row.doesNotTreat[target]);
			expect(both).toEqual([]);
		}
	);

	it('keeps every useful level on record under every lethal level of the same medicine', () => {
		for (const active of actives) {
			const { window, toxicity } = medicines[active];
			for (const row of toxicity) expect(window?.value.high ?? 0).toBeLessThan(row.level.low);
		}
	});

	it('asks for a prescription for antibiotics and human medicines', () => {
		const asked = actives.filter((active) => medicines[active].prescriptionOnly);
		expect(asked).toEqual(['chloroquine', 'metronidazole', 'nitrofurazone', 'kanamycin', 'erythromycin']);
	});

	it('warns of cancer where it is known or feared', () => {
		for (const active of ['formalin', 'formalin-malachite', 'nitrofurazone'] as const)
			expect(medicines[active].cautions.join(' ')).toContain('cancer');
	});
});

describe('groups', () => {
	it('keep copper from sharks and rays, whatever the copper', () => {
		const cartilage = groups.filter((group) => groupRows[group].elasmobranch);
		expect(cartilage).toEqual(['ray', 'shark']);
		for (const group of cartilage)
			for (const active of ['copper-ionic', 'copper-chelated'] as const)
				expect(tolerates(group, active).verdict).toBe('never');
	});

	it('know nothing of `other`, fish or medicine', () => {
		for (const active of actives) expect(tolerates('other', active).verdict).toBe('unknown');
		for (const group of groups) expect(tolerates(group, 'other').verdict).toBe('unknown');
	});

	it('give sharks and rays praziquantel (Hadfield & Clayton 2011) and nothing else without a word on it', () => {
		expect(tolerates('shark', 'praziquantel')).toMatchObject({ verdict: 'ok', mark: 'P' });
		for (const active of actives.filter((one) => one !== 'praziquantel'))
			expect(tolerates('ray', active).verdict).not.toBe('ok');
	});

	it('lower the copper aim into 0.16 to 0.17 mg/L and stretch the ramp to 5 to 7 days for sensitive fish', () => {
		const dwarf = tolerates('dwarf-angelfish', 'copper-ionic');
		expect(dwarf.verdict).toBe('sensitive');
		expect(dwarf.aim).toBeGreaterThanOrEqual(0.16);
		expect(dwarf.aim).toBeLessThanOrEqual(0.17);
		expect(dwarf.rampDays).toBeGreaterThanOrEqual(5);
		expect(dwarf.rampDays).toBeLessThanOrEqual(7);
		expect(tolerates('tang', 'copper-ionic')).toMatchObject({ verdict: 'ok', aim: null });
	});

	it('put a lid on jumpers and sand under sleepers', () => {
		for (const group of ['wrasse', 'goby', 'jawfish', 'eel'] as const)
			expect(groupRows[group].needsLid).toBe(true);
		expect(groupRows.wrasse.sleepsBuried).toBe(true);
	});

	it('keep sharks, rays and the unknown out of low salinity, and nobody under its stop', () => {
		const stop = methods['low-salinity'].stopPpt?.value ?? NaN;
		for (const group of groups) {
			const lowest = groupRows[group].lowestSalinityPpt?.value;
			if (['ray', 'shark', 'other'].includes(group)) expect(lowest).toBeUndefined();
			else expect(lowest).toBeGreaterThan(stop);
		}
	});
});

it('speaks of signs the log knows', () => {
	const spoken = targets.flatMap((target) => formulary.parasites[target].signs);
	expect(spoken.length).toBeGreaterThan(20);
	for (const sign of spoken) expect(signs).toContain(sign);
	for (const target of targets)
		expect(formulary.suspects(signs).map((one) => one.target)).toContain(
			target === 'neobenedenia' || target === 'benedenia' ? 'flukes' : target
		);
});
