import { columns } from './columns.ts';
import type { Act } from './keys.ts';
import { advance, boxOf, jump, moveTo, step, type Extent, type Selection, type Spot } from './selection.ts';

/** Where a key leads; null when it asks for something else than moving or selecting. */
export function walked(
	selection: Selection,
	act: Act,
	extent: Extent,
	filled: (spot: Spot) => boolean
): Selection | null {
	switch (act.act) {
		case 'step':
		case 'page':
			return step(selection, act.way, extent, act.extend, act.act === 'page');
		case 'jump':
			return jump(selection, act.way, extent, filled, act.extend);
		case 'edge': {
			const from = act.extend ? selection.head : selection.active;
			const column = act.side === 'home' ? 0 : columns.length - 1;
			const row = !act.whole ? from.row : act.side === 'home' ? 0 : extent.rows - 1;
			return moveTo(selection, { row, column }, extent, act.extend);
		}
		case 'advance':
			return advance(selection, act.way, extent);
		case 'select':
			return wholeOf(selection, act.what, extent);
		default:
			return null;
	}
}

function wholeOf(selection: Selection, what: 'all' | 'rows' | 'columns', extent: Extent): Selection {
	const last = { row: extent.rows - 1, column: columns.length - 1 };
	const { top, bottom, left, right } = boxOf(selection);
	const anchor = { row: what === 'rows' ? top : 0, column: what === 'columns' ? left : 0 };
	const head = {
		row: what === 'rows' ? bottom : last.row,
		column: what === 'columns' ? right : last.column
	};
	return { active: anchor, anchor, head };
}
