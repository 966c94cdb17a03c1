import { flushSync } from 'svelte';
import type { Edit } from '$lib/run';
import {
	actOf,
	advance,
	at,
	boxOf,
	clearBox,
	columns,
	courseNamed,
	deleteRows,
	duplicateRows,
	fillDown,
	fillRight,
	findNext,
	gridTexts,
	holds,
	insertCourse,
	insertRow,
	moveRows,
	moveTo,
	pasted,
	pulled,
	step,
	takeBlock,
	toHtml,
	toTsv,
	typeCell,
	typedAt,
	unchanged,
	walked,
	type Act,
	type Course,
	type Desk,
	type Direction,
	type Put,
	type Selection,
	type Spot
} from '$lib/sheet';

/** The rows that computed columns do not reach into are typed; the grid holds one empty row behind the last. */
export class SheetDesk {
	readonly #desk: () => Desk;
	readonly #commit: (edits: Edit[]) => void;
	/** it is walked, searched and copied from, never typed into */
	readonly readOnly: boolean;
	readonly #undo: () => void;
	readonly #redo: () => void;
	readonly #catchUp: () => void;

	selection: Selection = $state.raw(at(0, 0));
	/** the cell whose field still stands: a field that has the focus is slow to take away, so it goes a frame later */
	leftBehind: Spot | null = $state.raw(null);
	/** text of the cell being typed; null while the grid is walked */
	draft: string | null = $state(null);
	/** the text was opened, so arrows walk in it; typed over a cell, they finish it */
	opened = false;
	/** Esc was pressed: the next Tab goes on to what follows the sheet */
	leaving = $state(false);
	finding = $state(false);
	/** puts the keyboard's place into the active cell; the drawn sheet says how */
	focusActive: () => void = () => undefined;
	/** a course is being chosen */
	choosing = $state(false);

	#texts: string[][] = [];
	/** rows that read as before are the very same value, so that they are not drawn again */
	texts = $derived.by(() => (this.#texts = unchanged(this.#texts, gridTexts(this.#desk()))));
	box = $derived(boxOf(this.selection));

	constructor(
		desk: () => Desk,
		acts: {
			commit: (edits: Edit[]) => void;
			undo: () => void;
			redo: () => void;
			/** makes the computed columns follow what was typed a moment ago */
			catchUp: () => void;
			readOnly?: boolean;
		}
	) {
		this.#desk = desk;
		this.readOnly = acts.readOnly ?? false;
		this.#commit = (edits) => this.readOnly || acts.commit(edits);
		this.#undo = acts.undo;
		this.#redo = acts.redo;
		this.#catchUp = acts.catchUp;
	}

	get extent() {
		return { rows: this.texts.length, columns: columns.length };
	}

	get active(): Spot {
		return this.selection.active;
	}

	textAt(spot: Spot): string {
		return this.texts[spot.row]?.[spot.column] ?? '';
	}

	select(spot: Spot, extend = false) {
		this.settle();
		this.leaving = false;
		this.selection = moveTo(this.selection, spot, this.extent, extend);
	}

	selectRows(row: number, extend = false) {
		this.settle();
		const anchor = { row: extend ? this.selection.anchor.row : row, column: 0 };
		this.selection = { active: anchor, anchor, head: { row, column: columns.length - 1 } };
	}

	selectColumns(column: number, extend = false) {
		this.settle();
		const anchor = { row: 0, column: extend ? this.selection.anchor.column : column };
		this.selection = { active: anchor, anchor, head: { row: this.extent.rows - 1, column } };
	}

	/** Ends typing and keeps what was typed. */
	settle() {
		if (this.draft === null) return;
		const { row, column } = this.active;
		const typed = this.draft;
		this.draft = null;
		const course = column === 0 ? courseNamed(this.#desk(), row, typed) : undefined;
		if (course) this.putCourse(course, row);
		else this.#commit(typeCell(this.#desk(), row, column, typed));
	}

	/** Puts the rows of a course in before a row, the selected one as a rule. */
	putCourse(course: Course, row = this.box.top) {
		this.#commit(insertCourse(this.#desk(), row, course));
	}

	/** Ends typing and forgets it. */
	restore() {
		this.draft = null;
	}

	edit(text = this.textAt(this.active)) {
		if (!typedAt(this.active.column) || this.readOnly) return;
		this.draft = text;
		this.opened = true;
	}

	/** Answers a key of the walked grid; false where the key is not the sheet's. */
	press(event: KeyboardEvent): boolean {
		const act = actOf(event);
		if (!act) return false;
		if (act.act === 'advance' && (this.leaving || this.#atEnd(act.way))) {
			this.leaving = false;
			return event.key !== 'Tab';
		}
		this.leaving = act.act === 'leave';
		this.#do(act);
		return true;
	}

	/** Answers Ctrl Z and Ctrl Y anywhere on the page but in a field, which undoes its own. */
	pressAside(event: KeyboardEvent) {
		const act = actOf(event);
		const field = (event.target as Element).closest?.('input, textarea, select, dialog');
		if (event.defaultPrevented || field || (act?.act !== 'undo' && act?.act !== 'redo')) return;
		event.preventDefault();
		this.act(act);
	}

	/** The keys go to the active cell, as it is drawn now. */
	takeKeys() {
		flushSync();
		this.focusActive();
	}

	#atEnd(way: string): boolean {
		const { row, column } = this.active;
		const { top, bottom, left, right } = this.box;
		// what is selected is gone round in
		if (top !== bottom || left !== right) return false;
		if (way === 'right') return row === this.extent.rows - 1 && column === columns.length - 1;
		return way === 'left' && row === 0 && column === 0;
	}

	#do(act: Act) {
		const walk = walked(this.selection, act, this.extent, (spot) => this.textAt(spot) !== '');
		if (walk) this.selection = walk;
		const { top, bottom } = this.#rows();
		switch (act.act) {
			case 'edit':
				if (typedAt(this.active.column)) this.edit();
				else this.move('down');
				break;
			case 'clear':
				this.#commit(clearBox(this.#desk(), this.box));
				break;
			case 'fill-down':
				this.#commit(fillDown(this.#desk(), this.box));
				break;
			case 'fill-right':
				this.#commit(fillRight(this.#desk(), this.box));
				break;
			case 'insert-row':
				this.#commit(insertRow(this.#desk().document, Math.min(this.box.top, this.extent.rows - 1)));
				break;
			case 'delete-rows':
				this.#commit(deleteRows(this.#desk().document, top, bottom));
				break;
			case 'duplicate-rows':
				this.#commit(duplicateRows(this.#desk().document, top, bottom));
				break;
			case 'move-rows':
				this.moveRows(act.by);
				break;
			case 'undo':
				if (!this.readOnly) this.#undo();
				break;
			case 'redo':
				if (!this.readOnly) this.#redo();
				break;
			case 'find':
				this.finding = true;
				break;
			case 'courses':
				this.choosing = !this.readOnly;
				break;
			case 'leave':
				break;
		}
	}

	/** Does what a button of the sheet says. */
	act(act: Act) {
		this.settle();
		this.#do(act);
	}

	move(way: Direction) {
		this.selection = advance(this.selection, way, this.extent);
	}

	/** To the next cell, out of a selected rectangle too. */
	step(way: Direction) {
		this.selection = step(this.selection, way, this.extent);
	}

	moveRows(by: number) {
		const { top, bottom } = this.#rows();
		const edits = moveRows(this.#desk().document, top, bottom, by);
		if (edits.length === 0) return;
		this.#commit(edits);
		const shifted = (spot: Spot) => ({ ...spot, row: spot.row + by });
		const { active, anchor, head } = this.selection;
		this.selection = { active: shifted(active), anchor: shifted(anchor), head: shifted(head) };
	}

	#rows() {
		return { top: this.box.top, bottom: Math.min(this.box.bottom, this.extent.rows - 2) };
	}

	copy(event: ClipboardEvent, cut: boolean) {
		this.#catchUp();
		const block = takeBlock(this.texts, this.box);
		event.clipboardData?.setData('text/plain', toTsv(block));
		event.clipboardData?.setData('text/html', toHtml(block));
		event.preventDefault();
		if (cut) this.#commit(clearBox(this.#desk(), this.box));
	}

	paste(event: ClipboardEvent) {
		event.preventDefault();
		const text = (type: string) => event.clipboardData?.getData(type) ?? '';
		this.#put(pasted(this.#desk(), this.box, { plain: text('text/plain'), html: text('text/html') }));
	}

	/** The corner handle was pulled to a cell. */
	fillTo(to: Spot) {
		this.#put(pulled(this.#desk(), this.box, to));
	}

	#put(put: Put | null) {
		if (!put) return;
		this.#commit(put.edits);
		if (!this.readOnly) this.selection = put.selection;
	}

	holds(row: number, column: number): boolean {
		return holds(this.box, row, column);
	}

	/** Goes to the next cell that holds the text; false when none does. */
	find(wanted: string): boolean {
		const found = findNext(this.texts, this.active, wanted);
		if (found) this.selection = found;
		return found !== null;
	}

	/** Ends the search and gives the keys back to the sheet. */
	endFind() {
		this.finding = false;
		this.focusActive();
	}
}
