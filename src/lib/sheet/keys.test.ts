import { describe, expect, test } from 'vitest';
import { actOf } from './keys.ts';

const press = (name: string) => {
	const parts = name.split('+');
	const key = name.endsWith('++') ? '+' : (parts.at(-1) ?? '');
	const has = (part: string) => parts.includes(part);
	return actOf({
		key: key === 'Space' ? ' ' : key,
		ctrlKey: has('Ctrl'),
		metaKey: has('Meta'),
		shiftKey: has('Shift'),
		altKey: has('Alt')
	});
};

// keys of the WAI-ARIA Authoring Practices grid pattern (cell movement and selection), then those spreadsheets share
describe.each([
	['ArrowDown', { act: 'step', way: 'down', extend: false }],
	['Shift+ArrowLeft', { act: 'step', way: 'left', extend: true }],
	['PageDown', { act: 'page', way: 'down', extend: false }],
	['PageUp', { act: 'page', way: 'up', extend: false }],
	['Shift+PageDown', { act: 'page', way: 'down', extend: true }],
	['Shift+Home', { act: 'edge', side: 'home', whole: false, extend: true }],
	['Ctrl+Shift+End', { act: 'edge', side: 'end', whole: true, extend: true }],
	['Home', { act: 'edge', side: 'home', whole: false, extend: false }],
	['Ctrl+End', { act: 'edge', side: 'end', whole: true, extend: false }],
	['Ctrl+a', { act: 'select', what: 'all' }],
	['Shift+Space', { act: 'select', what: 'rows' }],
	['Ctrl+Space', { act: 'select', what: 'columns' }],
	['F2', { act: 'edit' }],
	['Enter', { act: 'edit' }],
	['Escape', { act: 'leave' }],
	['Ctrl+ArrowUp', { act: 'jump', way: 'up', extend: false }],
	['Ctrl+Shift+ArrowRight', { act: 'jump', way: 'right', extend: true }],
	['Tab', { act: 'advance', way: 'right' }],
	['Shift+Tab', { act: 'advance', way: 'left' }],
	['Shift+Enter', { act: 'advance', way: 'up' }],
	['Delete', { act: 'clear' }],
	['Ctrl+z', { act: 'undo' }],
	['Meta+z', { act: 'undo' }],
	['Ctrl+Shift+Z', { act: 'redo' }],
	['Ctrl+y', { act: 'redo' }],
	['Ctrl+d', { act: 'fill-down' }],
	['Ctrl+r', { act: 'fill-right' }],
	['Ctrl++', { act: 'insert-row' }],
	['Ctrl+-', { act: 'delete-rows' }],
	// where plus and minus stand with Shift, or without it
	['Ctrl+=', { act: 'insert-row' }],
	['Ctrl+Shift++', { act: 'insert-row' }],
	['Ctrl+Shift+_', { act: 'delete-rows' }],
	['Ctrl+Shift+D', { act: 'duplicate-rows' }],
	['Backspace', { act: 'clear' }],
	['Ctrl+k', { act: 'courses' }],
	['Alt+ArrowUp', { act: 'move-rows', by: -1 }],
	['Alt+ArrowDown', { act: 'move-rows', by: 1 }],
	['Ctrl+f', { act: 'find' }]
])('%s', (name, act) => test(`is ${JSON.stringify(act)}`, () => expect(press(name)).toEqual(act)));

test.each([
	'a',
	'5',
	'Ctrl+c',
	'Ctrl+v',
	'Ctrl+x',
	'Alt+a',
	'Alt+ArrowLeft',
	'Alt+Home',
	'Alt+Enter',
	'Shift',
	'F5',
	'Ctrl+t'
])('%s is left to the cell or the browser', (name) => expect(press(name)).toBeNull());
