import { columns } from '$lib/sheet';
import type { SheetDesk } from './sheet-desk.svelte';

/** What the pointer does to the sheet: it selects a rectangle, pulls the corner handle, or carries rows by their heads. */
export class SheetPointer {
	readonly #sheet: SheetDesk;

	#drags: 'box' | 'fill' | 'rows' | null = null;
	/** the cell the handle was pulled to */
	fill: { row: number; column: number } | null = $state.raw(null);
	/** the row that carried rows would follow, or precede when carried up */
	drop = $state(-1);

	constructor(sheet: SheetDesk) {
		this.#sheet = sheet;
	}

	cellDown(event: PointerEvent, row: number, column: number) {
		const sheet = this.#sheet;
		if (event.button !== 0) return;
		const here = sheet.active.row === row && sheet.active.column === column;
		if (here && sheet.draft !== null) return;
		sheet.select({ row, column }, event.shiftKey);
		this.#drags = 'box';
		// the keys that follow a press at once must find the focus in the new cell
		this.#sheet.takeKeys();
		event.preventDefault();
	}

	cellEnter(event: PointerEvent, row: number, column: number) {
		if (event.buttons !== 1) return;
		if (this.#drags === 'box') this.#sheet.select({ row, column }, true);
		if (this.#drags === 'fill') this.fill = { row, column };
	}

	headDown(event: PointerEvent, row: number) {
		const sheet = this.#sheet;
		if (event.button !== 0) return;
		const inside = sheet.box.left === 0 && sheet.box.right === columns.length - 1 && sheet.holds(row, 0);
		if (!inside || event.shiftKey) sheet.selectRows(row, event.shiftKey);
		this.#drags = 'rows';
		this.drop = -1;
		this.#sheet.takeKeys();
		event.preventDefault();
	}

	headEnter(event: PointerEvent, row: number) {
		if (this.#drags === 'rows' && event.buttons === 1) this.drop = row;
	}

	columnDown(event: PointerEvent, column: number) {
		if (event.button !== 0) return;
		this.#sheet.selectColumns(column, event.shiftKey);
		this.#sheet.takeKeys();
		event.preventDefault();
	}

	handleDown(event: PointerEvent) {
		this.#drags = 'fill';
		const { bottom, right } = this.#sheet.box;
		this.fill = { row: bottom, column: right };
		event.stopPropagation();
		event.preventDefault();
	}

	up() {
		const sheet = this.#sheet;
		if (this.#drags === 'fill' && this.fill) sheet.fillTo(this.fill);
		if (this.#drags === 'rows' && this.drop >= 0 && !sheet.holds(this.drop, 0)) {
			sheet.moveRows(this.drop < sheet.box.top ? this.drop - sheet.box.top : this.drop - sheet.box.bottom);
		}
		this.#drags = this.fill = null;
		this.drop = -1;
	}
}
