import { read, unreadable, type Read } from '../../units/index.ts';
import type { TestRule } from '../run.ts';
import { measurables } from '../vocabulary.ts';
import { tidy, type CellContext } from './context.ts';
import { printRepeat, readRepeat } from './repeat.ts';

const expected = `NH3 daily, Cu every 2 d or NO3 weekly, of ${measurables.join(', ')} or a medicine of this run`;
const words: Record<string, string> = {
	ammonia: 'NH3',
	tan: 'NH3',
	nitrite: 'NO2',
	nitrate: 'NO3',
	copper: 'Cu',
	salinity: 'S',
	temperature: 'T',
	oxygen: 'O2'
};

/** What a kit measures by its symbol, its plain name, or the id of a medicine; null if it is neither. */
export function readMeasurable(word: string, medicines: readonly string[]): string | null {
	const plain = word
		.replace(/[\u2080-\u2089]/g, (digit) => String(digit.charCodeAt(0) - 0x2080))
		.toLowerCase();
	const symbol = measurables.find((one) => one.toLowerCase() === plain);
	return symbol ?? medicines.find((id) => id === plain) ?? words[plain] ?? null;
}

/** `NH3 daily`, `Cu daily, NO3 weekly`, `NH3 every 2 d, pH Mon, Thu`; `none` is an empty list. */
export function readTests(text: string, context: Pick<CellContext, 'medicines'>): Read<TestRule[]> {
	const source = tidy(text);
	if (/^(none|no|-)$/i.test(source)) return read([]);
	const pieces: { what: string; when: string }[] = [];
	const [first = '', ...more] = source.split(/( ?[,;] ?)/);
	// a comma may also stand within `Mon, Thu` and within a rule: what names nothing to test belongs to the last rule
	for (const [mark, piece] of [['', first] as const, ...pairs(more)]) {
		const [word = '', ...rest] = piece.split(' ');
		const what = readMeasurable(word, context.medicines);
		const last = pieces.at(-1);
		if (what) pieces.push({ what, when: rest.join(' ') });
		else if (last) last.when += `${mark}${piece}`;
		else return unreadable('test', text, expected);
	}
	const rules: TestRule[] = [];
	for (const { what, when } of pieces) {
		const repeat = when === '' ? null : readRepeat(when);
		if (!repeat?.ok) return unreadable('test', text, expected);
		rules.push({ what, repeat: repeat.value });
	}
	return read(rules);
}

const pairs = (texts: readonly string[]): [string, string][] =>
	texts.flatMap((text, i) => (i % 2 === 0 ? [[text, texts[i + 1] ?? '']] : []));

export const printTests = (rules: readonly TestRule[]): string =>
	rules.length === 0 ? 'none' : rules.map(({ what, repeat }) => `${what} ${printRepeat(repeat)}`).join(', ');
