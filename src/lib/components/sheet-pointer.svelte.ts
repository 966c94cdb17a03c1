import { columns } from '$lib/sheet';
import type { SheetDesk } from './sheet-desk.svelte';

/** What the pointer does to the sheet: it selects a rectangle, pulls the corner handle, or carries rows by their heads. */
export class SheetPointer {
	readonly #sheet: SheetDesk;

	#drags: 'box' | 'fill' | 'rows' | null = null;
	/** what the finger that is down does when it is lifted where it was put */
	#tap: (() => void) | null = null;
	/** the cell the handle was pulled to */
	fill: { row: number; column: number } | null = $state.raw(null);
	/** the row that carried rows would follow, or precede when carried up */
	drop = $state(-1);

	constructor(sheet: SheetDesk) {
		this.#sheet = sheet;
	}

	cellDown(event: PointerEvent, row: number, column: number) {
		const sheet = this.#sheet;
		const here = sheet.active.row === row && sheet.active.column === column;
		if (here && sheet.draft !== null) return;
		this.#press(event, () => {
			// a menu is asked of all that is selected
			if (event.button && sheet.holds(row, column)) return;
			sheet.select({ row, column }, event.shiftKey);
			this.#drags = 'box';
		});
	}

	cellEnter(event: PointerEvent, row: number, column: number) {
		if (event.buttons !== 1) return;
		if (this.#drags === 'box') this.#sheet.select({ row, column }, true);
		if (this.#drags === 'fill') this.fill = { row, column };
	}

	headDown(event: PointerEvent, row: number) {
		const sheet = this.#sheet;
		this.#press(event, () => {
			const inside = sheet.box.left === 0 && sheet.box.right === columns.length - 1 && sheet.holds(row, 0);
			if (!inside || event.shiftKey) sheet.selectRows(row, event.shiftKey);
			this.#drags = 'rows';
		});
	}

	headEnter(event: PointerEvent, row: number) {
		if (this.#drags === 'rows' && event.buttons === 1) this.drop = row;
	}

	columnDown(event: PointerEvent, column: number) {
		this.#press(event, () => this.#sheet.selectColumns(column, event.shiftKey));
	}

	/** The keys that follow a press at once must find the focus in the new cell. A finger that scrolls presses nothing. */
	#press(event: PointerEvent, press: () => void) {
		if (event.button === 1) return;
		event.preventDefault();
		const pressed = () => {
			press();
			this.#sheet.takeKeys();
			// the menu of the active cell is its field's, which can be pasted into
			if (event.button) (document.activeElement as HTMLElement).style.pointerEvents = 'auto';
		};
		if (event.pointerType === 'touch') this.#tap = pressed;
		else pressed();
	}

	handleDown(event: PointerEvent) {
		this.#drags = 'fill';
		// else every cell under a finger is that of the handle
		(event.target as Element).releasePointerCapture(event.pointerId);
		event.stopPropagation();
		event.preventDefault();
	}

	up() {
		const sheet = this.#sheet;
		this.#tap?.();
		if (this.#drags === 'fill' && this.fill) sheet.fillTo(this.fill);
		if (this.#drags === 'rows' && this.drop >= 0 && !sheet.holds(this.drop, 0)) {
			sheet.moveRows(this.drop < sheet.box.top ? this.drop - sheet.box.top : this.drop - sheet.box.bottom);
		}
		this.cancel();
	}

	/** The finger scrolls, or the browser took the pointer away. */
	cancel() {
		this.#drags = this.fill = this.#tap = null;
		this.drop = -1;
	}
}
