import { inUnit, read, readQuantity, unreadable, type Read } from '../../units/index.ts';
import type { Lasts } from '../run.ts';
import { tidy, type CellContext, type PrintContext } from './context.ts';
import { figure } from './figure.ts';
import { printDay, readDay } from './date.ts';
import { mostDays } from './start.ts';

const counted = /^(\d{1,4}) ?(doses?|moves?)$/i;
const expected = '14 d, 3 wk, 45 min, 2 doses, 4 moves, until clear or until 3 Jan 2027';

/** `14 d`, `3 wk`, `45 min` (a bath), `2 doses`, `4 moves`, `until clear`, `until 3 Jan`. */
export function readLasts(text: string, context: CellContext): Read<Lasts> {
	const source = tidy(text);
	const count = counted.exec(source);
	if (count) return readCount(text, Number(count[1]), /^d/i.test(count[2] ?? ''));
	const until = /^until (.+)$/i.exec(source)?.[1];
	if (until !== undefined) return readUntil(text, until, context);
	const duration = readQuantity(source, 'duration');
	if (!duration.ok) return unreadable(duration.problem.code, text, expected);
	const minutes = inUnit(duration.value, 'min');
	if (minutes <= 0) return unreadable('out-of-range', text, `more than nothing: ${expected}`);
	if (/^(min|h|s)/i.test(duration.value.unit)) return read({ minutes });
	const days = inUnit(duration.value, 'd');
	if (Number.isInteger(days) && days <= mostDays) return read({ days });
	return unreadable('whole-days', text, 'whole days such as 14 d; a bath in minutes such as 45 min');
}

function readCount(text: string, count: number, doses: boolean): Read<Lasts> {
	if (count < 1) return unreadable('out-of-range', text, `at least 1: ${expected}`);
	return read(doses ? { doses: count } : { moves: count });
}

function readUntil(text: string, until: string, context: CellContext): Read<Lasts> {
	if (/^(it is )?clear$/i.test(until)) return read({ untilClear: true });
	const day = readDay(until, context.today);
	if (day.ok) return read({ until: day.value });
	return unreadable(day.problem.code, text, `until clear, or ${day.problem.expected}`);
}

export function printLasts(lasts: Lasts, context: PrintContext): string {
	if ('days' in lasts) return `${lasts.days} d`;
	if ('minutes' in lasts) return `${figure(lasts.minutes)} min`;
	if ('doses' in lasts) return `${lasts.doses} dose${lasts.doses === 1 ? '' : 's'}`;
	if ('moves' in lasts) return `${lasts.moves} move${lasts.moves === 1 ? '' : 's'}`;
	return 'until' in lasts ? `until ${printDay(lasts.until, context.form)}` : 'until clear';
}
