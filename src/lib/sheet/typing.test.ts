import { describe, expect, test } from 'vitest';
import { applyAll } from '../run/index.ts';
import { typedColumns, type TypedKey } from './columns.ts';
import { fillDown, fillRight } from './fill.ts';
import { inverted } from './history.ts';
import type { PhaseRow } from './rows.ts';
import { deskOf, sampleDocument as document } from './sample-desk.ts';
import { cellText, gridTexts } from './table.ts';
import { clearBox, takeBlock, typeBlock, typeCell } from './typing.ts';

const desk = deskOf();
const columnOf = (key: TypedKey) => typedColumns.findIndex((column) => column.key === key);
const typed = (row: number, key: TypedKey, text: string): PhaseRow | undefined =>
	applyAll(document, typeCell(desk, row, columnOf(key), text)).phases[row];

describe('a typed cell is kept as the plan file writes it', () => {
	test.each([
		[1, 'kind', 'Pulse', 'pulse'],
		[1, 'kind', 'low sal', 'low-salinity'],
		[1, 'starts', 'after 4', 'after watch'],
		[1, 'starts', 'with 1 + 2 days', 'with settle + 2 d'],
		[1, 'starts', 'on 27 Nov', 'on 2026-11-27'],
		[1, 'starts', 'jan 3', 'on 2027-01-03'],
		[3, 'lasts', '2 weeks', '14 d'],
		[3, 'lasts', 'until 3 Jan', 'until 2027-01-03'],
		[1, 'level', '.15 – .25 ppm', '0.15-0.25 mg/L'],
		[3, 'change', '25 % every 3 days', '25% every 3 d'],
		[3, 'test', 'nh3 daily', 'NH3 daily']
	] as const)('row %i, %s: %j becomes %j', (row, key, text, kept) => {
		expect(typed(row, key, text)?.[key]).toBe(kept);
	});
	test('what cannot be read stays as it was typed', () => {
		expect(typed(1, 'lasts', 'a while')?.lasts).toBe('a while');
		expect(typed(1, 'starts', 'on 30 Feb')?.starts).toBe('on 30 Feb');
	});
	test('carbon is written behind the change and kept beside it', () => {
		expect(cellText(desk, 2, 'change')).toBe('50% daily + carbon');
		expect(typed(3, 'change', '30% daily + Carbon + resin')).toMatchObject({
			change: '30% daily',
			carbon: true,
			resin: true
		});
		expect(typed(3, 'change', '+1')).toMatchObject({ change: '+1' });
		expect(typed(2, 'change', '50% daily')).not.toHaveProperty('carbon');
	});
	test('an emptied cell is absent, not empty', () => {
		expect(typed(0, 'lasts', ' ')).not.toHaveProperty('lasts');
	});
	test('typing what stands there changes nothing', () => {
		for (const [row, texts] of gridTexts(desk).entries())
			for (const [column, text] of texts.entries()) expect(typeCell(desk, row, column, text)).toEqual([]);
	});
	test('nothing can be typed into what the plan computes', () => {
		expect(typeCell(desk, 1, typedColumns.length, '1 Dec')).toEqual([]);
	});
});

describe('a medicine', () => {
	test.each(['cu', 'Ionic copper', 'copper-ionic', 'ionic'])('of this run is found as %j', (text) =>
		expect(typed(3, 'medicine', text)?.medicine).toBe('cu')
	);
	test('that is new joins the shelf of the run', () => {
		const made = applyAll(document, typeCell(desk, 3, columnOf('medicine'), 'praziquantel'));
		expect(made.medicines?.map(({ active }) => active)).toEqual(['copper-ionic', 'praziquantel']);
		expect(made.phases[3]?.medicine).toBe(made.medicines?.[1]?.id);
		expect(cellText(deskOf(made), 3, 'medicine')).toBe('Praziquantel');
	});
	test('that nobody knows stays as typed', () => {
		expect(typed(3, 'medicine', 'moon dust')?.medicine).toBe('moon dust');
	});
});

describe('a block', () => {
	test('longer than the sheet adds rows, which may name rows further down', () => {
		const block = [
			['Observe', '', 'after 7', '5 d'],
			['Observe', '', 'on 2 Feb', '4 d']
		];
		const made = applyAll(document, typeBlock(desk, 5, 0, block));
		expect(made.phases.slice(5)).toEqual([
			{ id: 'observe', kind: 'observe', starts: 'after observe-2', lasts: '5 d' },
			{ id: 'observe-2', kind: 'observe', starts: 'on 2027-02-02', lasts: '4 d' }
		]);
	});
	test('copied out and pasted over itself changes nothing', () => {
		const whole = takeBlock(gridTexts(desk), { top: 0, left: 0, bottom: 4, right: 11 });
		expect(typeBlock(desk, 0, 0, whole)).toEqual([]);
	});
	test('is cleared, and undone exactly', () => {
		const edits = clearBox(desk, { top: 0, left: 2, bottom: 5, right: 11 });
		const made = applyAll(document, edits);
		expect(made.phases[2]).toEqual({ id: 'wash', kind: 'washout', medicine: 'cu' });
		expect(applyAll(made, inverted(edits))).toEqual(document);
	});
});

describe('filling', () => {
	const down = (key: TypedKey, from: number, to: number, source = 1) => {
		const column = columnOf(key);
		const made = applyAll(
			document,
			fillDown(desk, { top: from, left: column, bottom: to, right: column }, source)
		);
		return made.phases.map((_, row) => cellText(deskOf(made), row, key));
	};
	test('down copies a length', () => expect(down('lasts', 0, 2)).toEqual(['3 d', '3 d', '3 d', '14 d', '']));
	test('down steps a date by a day', () =>
		expect(down('starts', 0, 2).slice(0, 3)).toEqual(['on 27 Nov', 'on 28 Nov', 'on 29 Nov']));
	test('down steps the row a cell names', () =>
		expect(down('starts', 1, 4)).toEqual(['on 27 Nov', 'after 1', 'after 2', 'after 3', 'after 4']));
	test('two rows repeat as two', () =>
		expect(down('lasts', 0, 3, 2)).toEqual(['3 d', '28 d', '3 d', '28 d', '']));
	test('right copies', () => {
		const made = applyAll(document, fillRight(desk, { top: 0, left: 3, bottom: 0, right: 4 }));
		expect(made.phases[0]).toMatchObject({ lasts: '3 d', level: '3 d' });
	});
});
