import type { Direction } from './selection.ts';

/** What a key asks of the grid. */
export type Act =
	| { act: 'step' | 'jump' | 'page'; way: Direction; extend: boolean }
	| { act: 'edge'; side: 'home' | 'end'; whole: boolean; extend: boolean }
	| { act: 'advance'; way: Direction }
	| { act: 'move-rows'; by: 1 | -1 }
	| { act: 'select'; what: 'all' | 'rows' | 'columns' }
	| {
			act:
				| 'edit'
				| 'clear'
				| 'undo'
				| 'redo'
				| 'fill-down'
				| 'fill-right'
				| 'insert-row'
				| 'delete-rows'
				| 'duplicate-rows'
				| 'find'
				| 'courses'
				| 'leave';
	  };

/** The part of a keyboard event that matters here. */
export interface KeyPress {
	key: string;
	shiftKey: boolean;
	ctrlKey: boolean;
	metaKey: boolean;
	altKey: boolean;
}

/** The ways of the arrow keys. */
export const arrows: Record<string, Direction> = {
	ArrowUp: 'up',
	ArrowDown: 'down',
	ArrowLeft: 'left',
	ArrowRight: 'right'
};

const withCtrl: Record<string, Act> = {
	z: { act: 'undo' },
	y: { act: 'redo' },
	d: { act: 'fill-down' },
	r: { act: 'fill-right' },
	a: { act: 'select', what: 'all' },
	f: { act: 'find' },
	k: { act: 'courses' },
	'+': { act: 'insert-row' },
	'=': { act: 'insert-row' },
	'-': { act: 'delete-rows' },
	' ': { act: 'select', what: 'columns' }
};

const withCtrlShift: Record<string, Act> = {
	z: { act: 'redo' },
	d: { act: 'duplicate-rows' },
	'+': { act: 'insert-row' },
	_: { act: 'delete-rows' }
};

const alone: Record<string, Act> = {
	F2: { act: 'edit' },
	Delete: { act: 'clear' },
	Backspace: { act: 'clear' },
	Escape: { act: 'leave' }
};

/** The act of a key in a grid that is not being edited; null: the key is not for the grid. */
export function actOf(press: KeyPress): Act | null {
	const { key, shiftKey: extend, altKey } = press;
	const ctrl = press.ctrlKey || press.metaKey;
	const way = arrows[key];
	if (way && altKey)
		return way === 'up' || way === 'down' ? { act: 'move-rows', by: way === 'up' ? -1 : 1 } : null;
	if (altKey) return null;
	if (way) return { act: ctrl ? 'jump' : 'step', way, extend };
	if (key === 'PageUp' || key === 'PageDown')
		return { act: 'page', way: key === 'PageUp' ? 'up' : 'down', extend };
	if (key === 'Home' || key === 'End')
		return { act: 'edge', side: key === 'Home' ? 'home' : 'end', whole: ctrl, extend };
	if (ctrl) return (extend ? withCtrlShift : withCtrl)[key.length === 1 ? key.toLowerCase() : key] ?? null;
	if (key === 'Tab') return { act: 'advance', way: extend ? 'left' : 'right' };
	if (key === 'Enter') return extend ? { act: 'advance', way: 'up' } : { act: 'edit' };
	if (key === ' ' && extend) return { act: 'select', what: 'rows' };
	return alone[key] ?? null;
}
