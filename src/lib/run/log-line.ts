import type { Read } from '../units/index.ts';
import type { LoggedAmount } from './log.ts';
import { readPouredAmount, takesOf, type Takes } from './log-amount.ts';
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

	/**
	 * What was measured out. What the bottle takes, and how much there is, is asked where an entry comes in; one that
	 * stands in the log keeps its say when the bottle or the tank is written anew.
	 */
	amount(takes: Takes): LoggedAmount | null {
		const expected = 'what was measured out, such as 5.0 mL';
		return this.cell('amount', expected, (text) => {
			const strict = readPouredAmount(text, takes);
			if (strict.ok || this.isNew || takes.unit === 'L') return strict;
			const kept = readPouredAmount(text, { unit: null, mostL: null });
			return kept.ok ? kept : strict;
		});
	}

	/** A volume of water that went in or out of the tank. */
	litres(key: string, expected: string): number | null {
		const mostL = this.isNew ? this.known.mostL : null;
		return this.cell(key, expected, (text) => {
			const amount = readPouredAmount(text, { unit: 'L', mostL });
			return amount.ok ? { ok: true, value: amount.value.value } : amount;
		});
	}

	/** What a job of this run is measured out in. */
	takesOf(task: string | null): Takes {
		const [, phase = '', kind = ''] = taskId.exec(task ?? '') ?? [];
		const bottle = this.known.medicines.find(({ id }) => id === this.known.phases.get(phase));
		return takesOf(kind, bottle, this.isNew ? this.known.mostL : null);
	}

	/** It is on its way into the log, or stands in a file that is read strictly. */
	get isNew(): boolean {
		return this.reader.today === null;
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
		const known = phase !== undefined && (!this.isNew || this.known.phases.has(phase));
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
