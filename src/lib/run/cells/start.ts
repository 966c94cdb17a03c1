import { read, readDurationDays, unreadable, type Read } from '../../units/index.ts';
import type { Start } from '../run.ts';
import { tidy, type CellContext, type PrintContext } from './context.ts';
import { printDay, readDay } from './date.ts';

const reference = /^(after|with) (?:row )?#?([a-z][a-z0-9-]*|\d{1,4})(?: ?\+ ?(.+))?$/i;

/** Most days one cell may count. */
export const mostDays = 100_000;

/** `on 27 Nov`, `after 2`, `after 2 + 1 d`, `with 2 + 2 d`; a date alone will do. */
export function readStart(text: string, context: CellContext): Read<Start> {
	const source = tidy(text);
	const parts = reference.exec(source);
	if (parts) return readReference(text, parts, context);
	if (/^(after|with)\b/i.test(source)) return unreadable('starts', text, expectedStart(context));
	const day = readDay(source.replace(/^on /i, ''), context.today);
	if (day.ok) return read({ on: day.value });
	return /\d/.test(source)
		? unreadable(day.problem.code, text, day.problem.expected)
		: unreadable('starts', text, expectedStart(context));
}

const expectedStart = (context: CellContext): string =>
	context.today === null
		? 'on 2026-11-27, after settle + 1 d or with settle + 2 d'
		: 'on 27 Nov, after 2 + 1 d or with 2 + 2 d';

function readReference(text: string, parts: RegExpExecArray, context: CellContext): Read<Start> {
	const [, word = '', row = '', wait] = parts;
	const id = phaseOf(row, context);
	if (id === null) return unreadable('no-such-phase', text, noSuchPhase(row, context));
	const plus = wait === undefined ? read(0) : readDurationDays(wait);
	if (!plus.ok || !Number.isInteger(plus.value) || plus.value > mostDays) {
		return unreadable('starts', text, `whole days to wait, such as ${word.toLowerCase()} ${row} + 2 d`);
	}
	return read(
		word.toLowerCase() === 'after' ? { after: id, plusDays: plus.value } : { with: id, plusDays: plus.value }
	);
}

function phaseOf(row: string, context: CellContext): string | null {
	if (/^\d/.test(row)) return context.today === null ? null : (context.rows[Number(row) - 1] ?? null);
	const id = row.toLowerCase();
	return context.rows.includes(id) ? id : null;
}

function noSuchPhase(row: string, context: CellContext): string {
	if (/^\d/.test(row) && context.today !== null) return `a row that exists: there are ${context.rows.length}`;
	return context.today === null
		? 'the id of a phase of this run'
		: 'the number of a row that is there, such as after 2';
}

export function printStart(start: Start, context: Pick<PrintContext, 'form' | 'rows'>): string {
	if ('on' in start) return `on ${printDay(start.on, context.form)}`;
	const word = 'after' in start ? 'after' : 'with';
	const id = 'after' in start ? start.after : start.with;
	const row = context.form === 'sheet' ? context.rows.indexOf(id) + 1 : 0;
	return `${word} ${row || id}${start.plusDays === 0 ? '' : ` + ${start.plusDays} d`}`;
}
