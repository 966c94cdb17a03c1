import { read, readFraction, unreadable, type Read } from '../../units/index.ts';
import type { Change } from '../run.ts';
import { tidy } from './context.ts';
import { figure } from './figure.ts';
import { printRepeat, readRepeat } from './repeat.ts';

const expected = 'auto, none, 25% every 3 d, 30% daily or 50% before dose';
const shape = /^([\d.,]+ ?%) ?(.*)$/;

/** `auto`, `none` (null), `25% every 3 d`, `30% daily`, `50% before dose`. */
export function readChange(text: string): Read<Change | null> {
	const source = tidy(text);
	if (/^auto(matic)?$/i.test(source)) return read({ auto: true });
	if (/^(none|no|-)$/i.test(source)) return read(null);
	const parts = shape.exec(source);
	const fraction = readFraction(parts?.[1] ?? '');
	if (!parts || !fraction.ok) return unreadable('change', text, expected);
	if (fraction.value <= 0) return unreadable('change', text, 'a share over 0 % and up to 100 %');
	const when = (parts[2] ?? '').trim();
	if (/^before (each |every |a )?doses?$/i.test(when))
		return read({ fraction: fraction.value, beforeDose: true });
	const repeat = readRepeat(when);
	return when !== '' && repeat.ok
		? read({ fraction: fraction.value, repeat: repeat.value })
		: unreadable('change', text, expected);
}

export function printChange(change: Change | null): string {
	if (!change) return 'none';
	if ('auto' in change) return 'auto';
	const share = `${figure(change.fraction * 100)}%`;
	return 'beforeDose' in change ? `${share} before dose` : `${share} ${printRepeat(change.repeat)}`;
}
