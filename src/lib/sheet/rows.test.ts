import { describe, expect, test } from 'vitest';
import { applyAll, readRun } from '../run/index.ts';
import { emptyHistory, inverted, record } from './history.ts';
import { deleteRows, duplicateRows, freeId, insertRow, moveRows, type SheetDocument } from './rows.ts';
import { dangles, pointAbove, rowsGone } from './dangling.ts';
import { goneInWords } from './reference.ts';
import { deskOf, sampleDocument as document } from './sample-desk.ts';
import { cellText } from './table.ts';

const ids = (made: SheetDocument) => made.phases.map(({ id }) => id).join(' ');
const starts = (made: SheetDocument) =>
	made.phases.map((_, row) => cellText(deskOf(made), row, 'starts')).join(' | ');

describe('references follow the row they name', () => {
	test('as the sheet stands', () => {
		expect(starts(document)).toBe('on 27 Nov | after 1 | after 2 | after 3 + 1 d | after 4');
	});
	test('when a row is put in above', () => {
		const made = applyAll(document, insertRow(document, 1));
		expect(ids(made)).toBe('settle row hold wash watch release');
		expect(starts(made)).toBe('on 27 Nov |  | after 1 | after 3 | after 4 + 1 d | after 5');
	});
	test('when rows are moved', () => {
		const made = applyAll(document, moveRows(document, 1, 2, 1));
		expect(ids(made)).toBe('settle watch hold wash release');
		expect(starts(made)).toBe('on 27 Nov | after 4 + 1 d | after 1 | after 3 | after 2');
	});
	test('when the row they name is gone, the rest keeps and the cell says so', () => {
		const made = applyAll(document, deleteRows(document, 1, 1));
		expect(starts(made)).toBe('on 27 Nov | after hold | after 2 + 1 d | after 3');
		expect(readRun(made, { today: '2026-11-28' }).problems.map(({ cell }) => cell)).toEqual([
			'phases.wash.starts'
		]);
	});
	test('copies of several rows name each other', () => {
		const made = applyAll(document, duplicateRows(document, 2, 3));
		expect(ids(made)).toBe('settle hold wash watch wash-2 watch-2 release');
		expect(starts(made)).toBe(
			'on 27 Nov | after 1 | after 2 | after 3 + 1 d | after 2 | after 5 + 1 d | after 4'
		);
	});
});

describe('moving stops at the edge', () => {
	test.each([
		[0, 0, -1, []],
		[4, 4, 1, []]
	])('rows %i to %i by %i', (from, to, by, edits) => expect(moveRows(document, from, to, by)).toEqual(edits));
	test('a longer move goes as far as there is room', () => {
		expect(ids(applyAll(document, moveRows(document, 3, 3, 9)))).toBe('settle hold wash release watch');
	});
});

test.each([
	['insert', insertRow(document, 5)],
	['delete', deleteRows(document, 1, 3)],
	['duplicate', duplicateRows(document, 0, 4)],
	['move', moveRows(document, 3, 4, -2)]
])('%s is undone exactly', (_, edits) => {
	expect(applyAll(applyAll(document, edits), inverted(edits))).toEqual(document);
});

test.each([
	['hold', ['hold', 'hold-2'], 'hold-3'],
	['Low salinity', [], 'low-salinity'],
	['3 moves!', [], 'moves'],
	['', ['row'], 'row-2']
])('an id for %j beside %j is %s', (wish, taken, id) => expect(freeId(wish, taken)).toBe(id));

test('what named a row that is gone can be pointed at the row above, and only that', () => {
	const gone = applyAll(document, deleteRows(document, 2, 2));
	const mend = pointAbove(gone, 'phases.watch.starts');
	expect(mend?.title).toBe('Point it to row 2, hold');
	const mended = applyAll(gone, mend?.edits ?? []);
	expect(mended.phases[2]?.starts).toBe('after hold + 1 d');
	expect(pointAbove(mended, 'phases.watch.starts')).toBeNull();
	expect(pointAbove(gone, 'phases.watch.lasts')).toBeNull();
	expect(pointAbove(gone, 'phases.settle.starts')).toBeNull();
});

test('a row that was taken out is told by its old number and kind until it is back', () => {
	const edits = deleteRows(document, 2, 2);
	const without = applyAll(document, edits);
	const done = record(emptyHistory, edits);
	const gone = rowsGone(done, without);
	expect(goneInWords(String(without.phases[2]?.starts), gone)).toMatch(
		/^after the deleted row \(3 [A-Z][a-z]+\) \+ 1 d$/
	);
	// what was never a row, or is one again, stays as it is written
	expect(goneInWords('after nowhere', gone)).toBe('after nowhere');
	expect(rowsGone(done, document)).toEqual({});
	expect([document, without].map(dangles)).toEqual([false, true]);
	// moved: it is out and in again
	expect(rowsGone(record(emptyHistory, moveRows(document, 2, 2, 1)), document)).toEqual({});
});
