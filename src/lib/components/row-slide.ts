import { calm } from './calendar-drag';

/** As short as every other motion here. */
const slideMs = 150;

/**
 * Rows that were moved, put in or taken out show where they came from: told the order before the sheet is drawn anew and
 * after, it slides those in sight from their old place to the new. Only transforms move, so nothing is laid out again.
 */
export class RowSlide {
	#order: readonly string[] = [];
	#tops = new Map<string, number>();

	/** Before a new order is drawn: where each row stands. */
	before(body: HTMLTableSectionElement | undefined) {
		this.#tops.clear();
		if (!body || calm()) return;
		for (const [at, id] of this.#order.entries()) {
			const row = body.rows[at];
			if (row) this.#tops.set(id, row.offsetTop);
		}
	}

	/** Once it is drawn: the rows in sight slide there, new ones come up out of the paper. */
	after(body: HTMLTableSectionElement | undefined, order: readonly string[]) {
		const first = this.#order.length === 0;
		this.#order = order;
		if (!body || first || this.#tops.size === 0) return;
		const frame = body.closest('table')?.parentElement;
		const [top, bottom] = [frame?.scrollTop ?? 0, (frame?.scrollTop ?? 0) + (frame?.clientHeight ?? 0)];
		const places = order.map((id, at) => ({ id, row: body.rows[at], now: body.rows[at]?.offsetTop ?? 0 }));
		for (const { id, row, now } of places) {
			const was = this.#tops.get(id);
			if (!row || was === now || now > bottom || now + row.offsetHeight < top) continue;
			const from = was === undefined ? { opacity: 0 } : { transform: `translateY(${was - now}px)` };
			row.animate([from, {}], { duration: slideMs, easing: 'ease-out', id: 'slide' });
		}
		this.#tops.clear();
	}
}
