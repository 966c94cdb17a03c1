import { applyAll, type Edit } from '../run/index.ts';
import { fromHtml, fromTsv, tiled } from './clipboard.ts';
import { columns, typedColumns } from './columns.ts';
import { fillDown, fillRight } from './fill.ts';
import type { Box, Selection, Spot } from './selection.ts';
import type { Desk } from './table.ts';
import { typeBlock } from './typing.ts';

/** What is written at one stroke into several cells, and what is selected afterwards. */
export interface Put {
	edits: Edit[];
	selection: Selection;
}

const from = (anchor: Spot, head: Spot): Selection => ({ active: anchor, anchor, head });

/** A clipboard's text, as a table if it has one, at the corner of a selection and repeated to fill it. */
export function pasted(desk: Desk, box: Box, { plain, html }: { plain: string; html: string }): Put | null {
	const { top, left, bottom, right } = box;
	const block = tiled(fromHtml(html) ?? fromTsv(plain), bottom - top + 1, right - left + 1);
	if (block.length === 0) return null;
	const edits = typeBlock(desk, top, left, block);
	const rows = applyAll(desk.document, edits).phases.length;
	const head = {
		row: Math.min(top + block.length - 1, rows),
		column: Math.min(left + (block[0]?.length ?? 1) - 1, columns.length - 1)
	};
	return { edits, selection: from({ row: top, column: left }, head) };
}

/** What pulling the corner handle to a cell would fill, further down or further right, whichever is more. */
export function pullBox({ top, left, bottom, right }: Box, to: Spot | null): Box | null {
	if (!to) return null;
	const down = to.row - bottom;
	const across = Math.min(to.column, typedColumns.length - 1) - right;
	if (down <= 0 && across <= 0) return null;
	return down >= across
		? { top: bottom + 1, left, bottom: to.row, right }
		: { top, left: right + 1, bottom, right: right + across };
}

/** Fills by the handle: the selection, repeated and stepped, and then selected with what it filled. */
export function pulled(desk: Desk, { top, left, bottom, right }: Box, to: Spot): Put | null {
	const filled = pullBox({ top, left, bottom, right }, to);
	if (!filled) return null;
	const box = { top, left, bottom: filled.bottom, right: filled.right };
	const edits =
		filled.top > bottom ? fillDown(desk, box, bottom - top + 1) : fillRight(desk, box, right - left + 1);
	return { edits, selection: from({ row: top, column: left }, { row: box.bottom, column: box.right }) };
}
