import type { Edit } from '../run/index.ts';
import type { Block } from './clipboard.ts';
import { shiftDays } from './date-text.ts';
import { shiftRows } from './reference.ts';
import type { Box } from './selection.ts';
import { sourceTexts, type Desk } from './table.ts';
import { takeBlock, typeBlock } from './typing.ts';

/** One cell carried `by` rows on: a day or a row it names steps along, everything else is copied. */
export const carried = (text: string, by: number): string => shiftRows(shiftDays(text, by), by);

/**
 * The block below (or above, with a negative count) a filled one: the source repeats, and what names a day or a
 * row steps by a source's height each time. Days in the source must be ISO days.
 */
export function filledDown(source: Block, rows: number): Block {
	const height = source.length;
	return Array.from({ length: Math.abs(rows) }, (_, index) => {
		const place = rows > 0 ? index : -rows - 1 - index;
		const turn = Math.floor(place / height) + 1;
		const from = rows > 0 ? place % height : height - 1 - (place % height);
		const row = source[from] ?? [];
		return row.map((text) => carried(text, Math.sign(rows) * turn * height));
	});
}

/** The block to the right of a filled one: columns differ in kind, so nothing steps. */
export const filledRight = (source: Block, columns: number): Block =>
	source.map((row) => Array.from({ length: columns }, (_, index) => row[index % row.length] ?? ''));

/** Fills the rest of a rectangle from its first `source` rows. */
export function fillDown(desk: Desk, box: Box, source = 1): Edit[] {
	const rows = box.bottom - box.top + 1 - source;
	if (rows <= 0) return [];
	const taken = takeBlock(sourceTexts(desk), { ...box, bottom: box.top + source - 1 });
	return typeBlock(desk, box.top + source, box.left, filledDown(taken, rows));
}

/** Fills the rest of a rectangle from its first `source` columns. */
export function fillRight(desk: Desk, box: Box, source = 1): Edit[] {
	const columns = box.right - box.left + 1 - source;
	if (columns <= 0) return [];
	const taken = takeBlock(sourceTexts(desk), { ...box, right: box.left + source - 1 });
	return typeBlock(desk, box.top, box.left + source, filledRight(taken, columns));
}
