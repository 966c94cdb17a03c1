import { describe, expect, test } from 'vitest';
import { advance, at, boxOf, jump, moveTo, step, type Selection } from './selection.ts';

// A grid of 4 rows and 5 columns; `x` is a filled cell. Spots are written row,column from 0.
const grid = ['xx.x.', 'x....', '....x', 'x.x.x'];
const extent = { rows: 4, columns: 5 };
const filled = ({ row, column }: { row: number; column: number }) => grid[row]?.[column] === 'x';
const spot = (selection: Selection) => `${selection.active.row},${selection.active.column}`;
const corners = (selection: Selection) => {
	const { top, left, bottom, right } = boxOf(selection);
	return `${top},${left} ${bottom},${right}`;
};

describe('one step', () => {
	// WAI-ARIA Authoring Practices, grid pattern: arrows move one cell and stop at the edge
	test.each([
		['up', 0, 2, '0,2'],
		['down', 3, 2, '3,2'],
		['left', 1, 0, '1,0'],
		['right', 1, 4, '1,4'],
		['down', 1, 1, '2,1'],
		['left', 2, 3, '2,2']
	] as const)('%s from %i,%i is %s', (way, row, column, there) => {
		expect(spot(step(at(row, column), way, extent))).toBe(there);
	});
	test('a page passes ten rows, or as many as there are', () => {
		expect(spot(step(at(1, 2), 'down', { rows: 30, columns: 5 }, false, true))).toBe('11,2');
		expect(spot(step(at(1, 2), 'up', { rows: 30, columns: 5 }, false, true))).toBe('0,2');
	});
});

// what spreadsheets do on Ctrl+arrow, from memory: to the end of the block, across a gap to the next filled cell, else
// to the edge
test.each([
	['right', 0, 0, '0,1'],
	['right', 0, 1, '0,3'],
	['right', 0, 3, '0,4'],
	['down', 0, 0, '1,0'],
	['down', 1, 0, '3,0'],
	['down', 0, 1, '3,1'],
	['up', 3, 4, '2,4'],
	['up', 2, 4, '0,4'],
	['left', 3, 4, '3,2'],
	['left', 2, 4, '2,0']
] as const)('a jump %s from %i,%i lands on %s', (way, row, column, there) => {
	expect(spot(jump(at(row, column), way, extent, filled))).toBe(there);
});

describe('extending', () => {
	test('keeps the active cell and stretches the rectangle to either side', () => {
		let selection = step(at(1, 1), 'down', extent, true);
		selection = step(selection, 'right', extent, true);
		expect([spot(selection), corners(selection)]).toEqual(['1,1', '1,1 2,2']);
		selection = moveTo(selection, { row: 0, column: 0 }, extent, true);
		expect([spot(selection), corners(selection)]).toEqual(['1,1', '0,0 1,1']);
	});
	test('a plain step lets the rectangle go', () => {
		const wide = step(at(1, 1), 'down', extent, true);
		expect(corners(step(wide, 'down', extent))).toBe('2,1 2,1');
	});
	test('a jump carries the far corner', () => {
		expect(corners(jump(at(0, 0), 'right', extent, filled, true))).toBe('0,0 0,1');
	});
});

describe('Tab and Enter', () => {
	const walk = (selection: Selection, way: 'right' | 'down' | 'left' | 'up', steps: number) => {
		const places = [];
		for (let taken = 0; taken < steps; taken++)
			places.push(spot((selection = advance(selection, way, extent))));
		return places.join(' ');
	};
	const box: Selection = { ...at(1, 1), head: { row: 2, column: 2 } };
	test('go round inside a rectangle, by rows and by columns', () => {
		expect(walk(box, 'right', 4)).toBe('1,2 2,1 2,2 1,1');
		expect(walk(box, 'down', 4)).toBe('2,1 1,2 2,2 1,1');
		expect(walk(box, 'left', 2)).toBe('2,2 2,1');
	});
	test('leave the rectangle as it is', () => {
		expect(corners(advance(box, 'right', extent))).toBe('1,1 2,2');
	});
	test('move on where only one cell is selected', () => {
		expect(walk(at(0, 0), 'right', 2)).toBe('0,1 0,2');
	});
});
