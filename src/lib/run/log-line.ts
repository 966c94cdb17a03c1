import { readDoseAmount, readVolumeL, read, type Read } from '../units/index.ts';
import type { LoggedAmount } from './log.ts';
import { taskId, type Known } from './log-known.ts';
import type { Json, Reader } from './reader.ts';
import type { Medicine } from './run.ts';

/** One entry of the log being read: its cells by key, and what they may name. A needed cell that is absent is told. */
export class Line {
	readonly reader: Reader;
	readonly place: string;
	readonly entry: Json;
	readonly known: Known;

	constructor(reader: Reader, place: string, entry: Json, known: Known) {
		this.reader = reader;
		this.place = place;
		this.entry = entry;
		this.known = known;
	}

	at = (key: string): string => `${this.place}.${key}`;

	missing(key: string, expected: string): null {
		return this.reader.report(this.at(key), { code: 'missing', seen: '', expected });
	}

	has = (key: string): boolean => !this.reader.absent(this.entry[key]);

	text(key: string, most = 200): string | undefined {
		return this.reader.text(this.at(key), this.entry[key], most) ?? undefined;
	}

	cell<T>(key: string, expected: string, grammar: (text: string) => Read<T>): T | null {
		if (!this.has(key)) return this.missing(key, expected);
		return this.reader.cell(this.at(key), this.entry[key], grammar);
	}

	word<T extends string>(key: string, words: readonly T[]): T | null {
		if (!this.has(key)) return this.missing(key, `one of ${words.join(', ')}`);
		return this.reader.word(this.at(key), this.entry[key], words);
	}

	count(key: string, low: number, expected: string): number | null {
		if (!this.has(key)) return this.missing(key, expected);
		return this.reader.whole(this.at(key), this.entry[key], low, 100_000, expected);
	}

	amount(): LoggedAmount | null {
		return this.cell('amount', 'what was measured out, such as 5.0 mL', readAmount);
	}

	/**
	 * A task's id. In a file its phase has to be there: a slip of the pen would lose a dose. A sheet keeps what was
	 * logged for a row that is gone.
	 */
	task(): string | null {
		const expected = 'the id of a task of this run, such as copper/dose/1';
		const task = this.text('task');
		if (task === undefined) return this.has('task') ? null : this.missing('task', expected);
		const phase = taskId.exec(task)?.[1];
		const known = phase !== undefined && (this.reader.today !== null || this.known.phases.has(phase));
		return known ? task : this.reader.refuse(this.at('task'), task, 'no-such-task', expected);
	}

	photo(): string | null {
		const { photo } = this.entry;
		const known = typeof photo === 'string' && /^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$/.test(photo);
		return known ? photo : this.reader.refuse(this.at('photo'), photo, 'id', 'the id of a stored picture');
	}

	lot(): string | null {
		const { lot } = this.entry;
		const expected = 'the id of a lot of this run';
		if (!this.has('lot')) return this.missing('lot', expected);
		if (typeof lot === 'string' && this.known.lots.has(lot)) return lot;
		return this.reader.refuse(this.at('lot'), lot, 'no-such-lot', expected);
	}

	medicine(): Medicine | null {
		const { medicine } = this.entry;
		const expected = 'the id of a medicine of this run';
		if (!this.has('medicine')) return this.missing('medicine', expected);
		const found = this.known.medicines.find(({ id }) => id === medicine);
		return found ?? this.reader.refuse(this.at('medicine'), medicine, 'no-such-medicine', expected);
	}
}

/** Litres and gallons are water, smaller volumes and masses come out of a bottle. */
function readAmount(text: string): Read<LoggedAmount> {
	const litres = /\d ?(l|litres?|liters?|(us |imp\.? )?gal)$/i.test(text.trim()) ? readVolumeL(text) : null;
	return litres?.ok ? read({ value: litres.value, unit: 'L' }) : readDoseAmount(text);
}
