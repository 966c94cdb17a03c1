import { describe, expect, it } from 'vitest';
import { readBlock, readColumn, type BlockPlace } from './block.ts';
import { ledgerCsv, readingsCsv } from './export.ts';
import type { RawEntry } from './fact-entry.ts';
import { ledgerOf } from './grid.ts';
import { measureOf } from './measures.ts';
import { document, named, now } from './sample.ts';

const log: RawEntry[] = [
	{ id: '1', at: '2026-11-30T08:04:00-06:00', kind: 'done', task: 'copper/dose/1' },
	{ id: '2', at: '2026-12-01T08:03:00-06:00', kind: 'reading', what: 'Cu', value: '0.09 mg/L', as: 'ionic' },
	{
		id: '3',
		at: '2026-12-01T08:04:00-06:00',
		kind: 'reading',
		what: 'NH3',
		value: '0.5 mg/L',
		as: 'nh3-total',
		note: '=odd, "old" kit'
	},
	{ id: '4', at: '2026-12-01T08:05:00-06:00', kind: 'reading', what: 'pH', value: 8.05 },
	{ id: '5', at: '2026-12-02T20:00:00-06:00', kind: 'reading', what: 'T', value: '79 F' },
	{
		id: '6',
		at: '2026-12-02T20:01:00-06:00',
		kind: 'correct',
		entry: '2',
		as: { kind: 'reading', what: 'Cu', value: '0.10 mg/L' }
	},
	{ id: '7', at: '2026-12-02T20:02:00-06:00', kind: 'reading', what: 'pz', value: '0.3 mg/L' }
];
const place = (raws: readonly RawEntry[] = log): BlockPlace => {
	const { run, plan } = named(raws);
	return { document, log: raws, run, plan, today: '2026-12-03', nowMs: Date.parse(now), system: 'metric' };
};
const told = (text: string, raws: readonly RawEntry[] = log) =>
	readBlock(text, place(raws)).map(({ line, state, sentence, entry }) =>
		state === 'refused' ? [line, sentence] : [line, state, entry?.at, entry?.what, entry?.value]
	);

describe('a block from a spreadsheet', () => {
	it.each<[string, string]>([
		['headings in this order', 'date,what,value\n2 Dec 2026,Cu,0.15 mg/L'],
		['in another', 'Value\tTest\tUnit\tWhen\n0.15\tCopper\tmg/L\t2026-12-02'],
		['no headings', '0.15;Cu;12/2/2026;08:00'.replace('12/2/2026', '2026-12-02')],
		['a column for each measure', 'Day,Copper (mg/L),comments\n2-Dec,0.15,good'],
		['a decimal comma', 'date;what;value\n2026-12-02;Cu;0,15'],
		['micrograms', 'date,Cu (ug/L)\n2026-12-02,150']
	])('with %s is read', (_, text) => {
		const [line, ...more] = readBlock(text, place());
		expect(more).toEqual([]);
		expect(line).toMatchObject({ state: 'new', entry: { at: '2026-12-02T08:00:00-06:00', what: 'Cu' } });
		const { run } = named([...log, line?.entry as RawEntry]);
		expect(run.log.at(-1)).toMatchObject({ value: expect.closeTo(0.15, 12) });
	});

	it('says of each refused line why, and keeps the others', () => {
		const text = [
			'date,time,what,value',
			'2026-12-02,08:00,Cu,0.15 mg/L',
			'2026-02-30,08:00,Cu,0.15 mg/L',
			'3/4/2026,08:00,Cu,0.15',
			'2026-12-02,late,Cu,0.15',
			'2026-12-02,08:00,Zn,0.15',
			'2026-12-02,08:00,Cu,',
			'2026-12-02,08:00,Cu,plenty',
			'2026-12-02,08:00,Cu,5 L',
			'2026-12-09,08:00,Cu,0.15',
			',08:00,Cu,0.15'
		].join('\r\n');
		expect(told(text)).toEqual([
			[2, 'new', '2026-12-02T08:00:00-06:00', 'Cu', '0.15 mg/L'],
			[3, expect.stringMatching(/^“2026-02-30” was not understood: expected a date that exists/)],
			[4, expect.stringMatching(/^“3\/4\/2026” was not understood: expected the month as a word/)],
			[5, expect.stringMatching(/^“late” was not understood: expected a time of day/)],
			[6, expect.stringMatching(/^“Zn” is nothing that is read here/)],
			[7, 'No value of Copper stands here.'],
			[8, expect.stringMatching(/^“plenty mg\/L” was not understood|^“plenty” was not understood/)],
			[9, expect.stringMatching(/^“5 L” was not understood/)],
			[10, expect.stringMatching(/still to come/)],
			[11, 'This line has no date.']
		]);
		expect(told('Cu,0.15')).toEqual([[1, 'No column holds a date: expected a heading such as “date”.']]);
	});

	it('counts a bare figure in the degrees the page is read in', () => {
		const text = 'date,what,value\n2026-12-02,T,78.8\n2026-12-03,T,26 C';
		const lines = readBlock(text, { ...place(), system: 'us' });
		expect(lines.map(({ entry }) => entry?.value)).toEqual(['78.8 F', '26 C']);
		expect(readBlock(text.replace('78.8', '25.5'), place())[0]?.entry?.value).toBe('25.5 C');
		// in Celsius no fish would be in it
		const [hot] = readBlock(text, place());
		expect([hot?.entry, hot?.sentence]).toEqual([null, expect.stringMatching(/^“78.8 C” .* 0 to 45 C/)]);
	});

	it('adds nothing when it is pasted twice, or holds a line twice', () => {
		const text = 'date,what,value\n2026-12-02,Cu,0.15\n2026-12-02,Cu,0.15';
		const lines = readBlock(text, place());
		expect(lines.map(({ state }) => state)).toEqual(['new', 'known']);
		const written = [...log, lines[0]?.entry as RawEntry];
		expect(readBlock(text, place(written)).map(({ state }) => state)).toEqual(['known', 'known']);
	});

	it('answers the test of its day', () => {
		const [line] = readBlock('date,what,value\n2026-12-02,Cu,0.15', place());
		expect(line?.entry).toMatchObject({ task: 'copper/test/3' });
	});

	it('pasted onto a column goes down its services', () => {
		const { rows } = ledgerOf(named(log), Date.parse(now));
		const from = rows.findIndex(({ day }) => day === '2026-12-02');
		const lines = readColumn('0.15\n0.16\nlots', measureOf(named([]).run, 'Cu'), rows.slice(from), place());
		expect(lines.map(({ state, entry }) => [state, entry?.at])).toEqual([
			['new', '2026-12-02T08:00:00-06:00'],
			['new', '2026-12-03T08:00:00-06:00'],
			['refused', undefined]
		]);
	});
});

describe('what is exported', () => {
	it('adds nothing when the readings come back', () => {
		const { run, plan } = named(log);
		const lines = readBlock(readingsCsv(run, plan), place());
		expect(lines.map(({ state }) => state)).toEqual(['known', 'known', 'known', 'known', 'known']);
	});

	it('adds nothing without its ids, and in a store that lost them all comes back whole', () => {
		const { run, plan } = named(log);
		const bare = readingsCsv(run, plan)
			.split('\r\n')
			.map((line) => line.replace(/,[^,]*$/, ''))
			.join('\r\n');
		expect(new Set(readBlock(bare, place()).map(({ state }) => state))).toEqual(new Set(['known']));
		const anew = readBlock(readingsCsv(run, plan), place([])).map(({ entry }) => entry as RawEntry);
		const values = (raws: readonly RawEntry[]) =>
			named(raws).run.log.flatMap((fact) =>
				fact.kind === 'reading' ? [[fact.what, fact.value, fact.as, fact.note]] : []
			);
		expect(values(anew)).toEqual([
			['Cu', 0.1, 'ionic', undefined],
			['NH3', 0.5, 'nh3-total', '=odd, "old" kit'],
			['pH', 8.05, undefined, undefined],
			['T', expect.closeTo(26.111, 3), undefined, undefined],
			['pz', 0.3, undefined, undefined]
		]);
	});

	it('adds nothing when the whole ledger comes back', () => {
		const names = named(log);
		const text = ledgerCsv(ledgerOf(names, Date.parse(now)));
		expect(text.split('\r\n')[0]).toContain('"Copper forecast, mg/L","Copper reading, mg/L"');
		const lines = readBlock(text, place());
		expect(lines.map(({ state, sentence }) => [state, sentence])).toEqual(new Array(5).fill(['known', '']));
	});
});
