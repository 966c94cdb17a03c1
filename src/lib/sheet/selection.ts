/** A cell by its place in the grid, both from 0. */
export interface Spot {
	row: number;
	column: number;
}

/** What is selected: the rectangle between `anchor`, which stays, and `head`, which Shift moves; keys go to `active` in it. */
export interface Selection {
	active: Spot;
	anchor: Spot;
	head: Spot;
}

/** A rectangle of cells, all four sides included. */
export interface Box {
	top: number;
	left: number;
	bottom: number;
	right: number;
}

export interface Extent {
	rows: number;
	columns: number;
}

export type Direction = 'up' | 'down' | 'left' | 'right';

const steps: Record<Direction, Spot> = {
	up: { row: -1, column: 0 },
	down: { row: 1, column: 0 },
	left: { row: 0, column: -1 },
	right: { row: 0, column: 1 }
};

/** Rows that a Page key passes. */
const pageRows = 10;

const hold = (value: number, most: number) => Math.max(0, Math.min(most, value));

const inside = (spot: Spot, extent: Extent): Spot => ({
	row: hold(spot.row, extent.rows - 1),
	column: hold(spot.column, extent.columns - 1)
});

/** One cell, selected and active. */
export const at = (row: number, column: number): Selection => {
	const spot = { row, column };
	return { active: spot, anchor: spot, head: spot };
};

/** Moves the head; the rest follows unless the selection is being extended. */
export const moveTo = (selection: Selection, spot: Spot, extent: Extent, extend: boolean): Selection => {
	const head = inside(spot, extent);
	return extend ? { ...selection, head } : { active: head, anchor: head, head };
};

/** The cell a movement starts from. */
const origin = (selection: Selection, extend: boolean): Spot => (extend ? selection.head : selection.active);

export function boxOf({ anchor, head }: Selection): Box {
	return {
		top: Math.min(anchor.row, head.row),
		bottom: Math.max(anchor.row, head.row),
		left: Math.min(anchor.column, head.column),
		right: Math.max(anchor.column, head.column)
	};
}

export const holds = (box: Box, row: number, column: number): boolean =>
	row >= box.top && row <= box.bottom && column >= box.left && column <= box.right;

/** One cell on, or with `page` a page of rows. */
export function step(
	selection: Selection,
	way: Direction,
	extent: Extent,
	extend = false,
	page = false
): Selection {
	const { row, column } = steps[way];
	const reach = page ? pageRows : 1;
	const from = origin(selection, extend);
	return moveTo(
		selection,
		{ row: from.row + row * reach, column: from.column + column * reach },
		extent,
		extend
	);
}

/**
 * Ctrl+arrow: to the last filled cell of the block ahead, or across the gap to the next filled one, or to the
 * edge, as in every spreadsheet.
 */
export function jump(
	selection: Selection,
	way: Direction,
	extent: Extent,
	filled: (spot: Spot) => boolean,
	extend = false
): Selection {
	const { row, column } = steps[way];
	const next = (spot: Spot): Spot => ({ row: spot.row + row, column: spot.column + column });
	const outside = (spot: Spot) =>
		spot.row < 0 || spot.column < 0 || spot.row >= extent.rows || spot.column >= extent.columns;
	let spot = origin(selection, extend);
	const runsOn = filled(spot) && !outside(next(spot)) && filled(next(spot));
	do {
		const ahead = next(spot);
		if (outside(ahead) || (runsOn && !filled(ahead))) break;
		spot = ahead;
	} while (runsOn || !filled(spot));
	return moveTo(selection, spot, extent, extend);
}

/** Tab and Enter inside a selected rectangle go round in it; elsewhere they move to the next cell. */
export function advance(selection: Selection, way: Direction, extent: Extent): Selection {
	const box = boxOf(selection);
	const width = box.right - box.left + 1;
	const height = box.bottom - box.top + 1;
	const count = width * height;
	if (count === 1) return step(selection, way, extent);
	const across = selection.active.column - box.left;
	const down = selection.active.row - box.top;
	const { row, column } = steps[way];
	const byRows = column !== 0;
	const next = ((byRows ? down * width + across : across * height + down) + row + column + count) % count;
	const active = byRows
		? { row: box.top + Math.floor(next / width), column: box.left + (next % width) }
		: { row: box.top + (next % height), column: box.left + Math.floor(next / height) };
	return { ...selection, active };
}
