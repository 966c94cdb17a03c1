import { readNumber, type Read } from '../units/index.ts';
import type { CellProblem, Day } from './run.ts';

export type Json = Record<string, unknown>;

export const isJson = (value: unknown): value is Json =>
	typeof value === 'object' && value !== null && !Array.isArray(value);

/** What a cell shows of a value that is not even text. */
const shown = (value: unknown): string =>
	(typeof value === 'string' ? value : (JSON.stringify(value) ?? String(value))).slice(0, 80);

/**
 * Reads the cells of a document one by one. A cell that is absent is null; one that cannot be read is null too, and
 * a problem with its place. In a sheet (`today` is known) an emptied cell counts as absent.
 */
export class Reader {
	readonly problems: CellProblem[] = [];

	readonly today: Day | null;

	constructor(today: Day | null) {
		this.today = today;
	}

	report(cell: string, problem: { code: string; seen: string; expected: string }): null {
		this.problems.push({ ...problem, cell });
		return null;
	}

	refuse(cell: string, value: unknown, code: string, expected: string): null {
		return this.report(cell, { code, seen: shown(value), expected });
	}

	absent(value: unknown): boolean {
		return value === undefined || (this.today !== null && (value === null || value === ''));
	}

	/** A cell of text, read by the grammar of its column. */
	cell<T>(cell: string, value: unknown, grammar: (text: string) => Read<T>): T | null {
		if (this.absent(value)) return null;
		if (typeof value !== 'string')
			return this.refuse(cell, value, 'text', 'a text with its unit in quotes, such as "112 L"');
		const result = grammar(value);
		return result.ok ? result.value : this.report(cell, result.problem);
	}

	text(cell: string, value: unknown, most = 200): string | null {
		if (this.absent(value)) return null;
		if (typeof value !== 'string') return this.refuse(cell, value, 'text', 'a text');
		return value.length <= most ? value : this.refuse(cell, value, 'too-long', `at most ${most} characters`);
	}

	flag(cell: string, value: unknown): boolean {
		if (this.absent(value)) return false;
		if (typeof value !== 'boolean') this.refuse(cell, value, 'flag', 'true or false');
		return value === true;
	}

	/** A plain number, or a text that is one, within bounds. */
	number(cell: string, value: unknown, low: number, high: number, what: string): number | null {
		return this.numberIf(cell, value, what, (number) => number >= low && number <= high);
	}

	whole(cell: string, value: unknown, low: number, high: number, what: string): number | null {
		return this.numberIf(cell, value, what, (n) => Number.isInteger(n) && n >= low && n <= high);
	}

	private numberIf(
		cell: string,
		value: unknown,
		what: string,
		fits: (number: number) => boolean
	): number | null {
		if (this.absent(value)) return null;
		const number = typeof value === 'number' ? value : typeof value === 'string' ? plainNumber(value) : NaN;
		return Number.isFinite(number) && fits(number) ? number : this.refuse(cell, value, 'number', what);
	}

	/** One of a closed list of words. */
	word<T extends string>(cell: string, value: unknown, words: readonly T[]): T | null {
		if (this.absent(value)) return null;
		const found = words.find((word) => word === value);
		return found ?? this.refuse(cell, value, 'word', `one of ${words.join(', ')}`);
	}

	words<T extends string>(cell: string, value: unknown, words: readonly T[]): T[] {
		return this.list(cell, value).flatMap((item, i) => this.word(`${cell}.${i}`, item, words) ?? []);
	}

	list(cell: string, value: unknown): unknown[] {
		if (this.absent(value)) return [];
		if (Array.isArray(value)) return value;
		this.refuse(cell, value, 'list', 'a list');
		return [];
	}

	object(cell: string, value: unknown): Json {
		if (this.absent(value)) return {};
		if (isJson(value)) return value;
		this.refuse(cell, value, 'object', 'an object with named cells');
		return {};
	}
}

function plainNumber(text: string): number {
	const number = readNumber(text.trim());
	return number.ok ? number.value : NaN;
}
