import {
	troublesOf,
	withUnit,
	type FactField,
	type FieldTrouble,
	type RawEntry,
	type Typed
} from '$lib/ledger';
import { readRun, type Bag, type Sign } from '$lib/run';
import type { FactRecord } from './fact-record.svelte';

const field = (key: string, name: string, more: Partial<FactField>): FactField => ({
	key,
	name,
	form: 'text',
	optional: true,
	...more
});

/** What is written down of an arrival, the bag first. */
export const intakeFields: readonly FactField[] = [
	field('lot', 'Which fish', { form: 'lot' }),
	field('temperature', 'Temperature in the bag', { example: '24 C' }),
	field('salinity', 'Salinity in the bag', { example: '27 ppt' }),
	field('pH', 'pH in the bag', { example: '6.8' }),
	field('ammonia', 'Ammonia in the bag', { example: '8 mg/L' }),
	field('as', 'The ammonia kit counts', {
		form: 'choice',
		choices: [
			{ value: 'tan', name: 'total, as N (TAN)' },
			{ value: 'nh3-total', name: 'total, as NH₃' }
		]
	}),
	field('count', 'Fish counted', { example: '5' }),
	field('mass', 'Mass, all together', { example: '64 g' }),
	field('breathsPerMinute', 'Breaths a minute', { example: '80' }),
	field('signs', 'Signs', { form: 'signs' }),
	field('photo', 'Photo', { form: 'photo' }),
	field('note', 'Note', { example: 'long journey, one bag leaked' })
];

const units: Record<string, string> = { temperature: '°C', salinity: 'ppt', ammonia: 'mg/L', mass: 'g' };
const bagKeys = ['temperature', 'salinity', 'pH', 'ammonia', 'as', 'count', 'mass'] as const;
const figures = new Set(['pH', 'count']);

/** The record of an arrival while it is typed: one look at the fish that holds the readings of their bag. */
export class IntakeDraft {
	readonly #record: FactRecord;

	typed: Typed = $state.raw({ as: 'tan' });
	troubles: readonly FieldTrouble[] = $state.raw([]);

	readonly signs: readonly Sign[] = $derived.by(() =>
		Array.isArray(this.typed.signs) ? (this.typed.signs as Sign[]) : []
	);
	/** the bag as far as it can be read */
	readonly bag: Bag = $derived.by(() => {
		const { document } = this.#record;
		const { log } = readRun({ ...document, log: this.#readable() }, { today: null });
		const [look] = log;
		return look?.kind === 'observation' ? (look.bag ?? {}) : {};
	});

	constructor(record: FactRecord) {
		this.#record = record;
		const arriving = record.run.lots.find(({ arrived }) => arrived === record.today) ?? record.run.lots[0];
		if (arriving) this.typed = { as: 'tan', lot: arriving.id };
	}

	unitOf(key: string): string {
		return units[key] ?? '';
	}

	troubleOf(key: string): string {
		return this.troubles.find((trouble) => trouble.field === key)?.sentence ?? '';
	}

	put(key: string, value: string | boolean | string[]): void {
		this.typed = { ...this.typed, [key]: value };
		this.troubles = this.troubles.filter((trouble) => trouble.field !== key);
	}

	#text(key: string): string {
		const value = this.typed[key];
		return typeof value === 'string' ? value.trim() : '';
	}

	/** The cell of the bag that a field comes to; a kit's scale says nothing without its figure. */
	#cell(key: string): string | number | undefined {
		const text = this.#text(key);
		if (text === '' || (key === 'as' && this.#text('ammonia') === '')) return undefined;
		if (figures.has(key)) return Number.isFinite(Number(text)) ? Number(text) : text;
		return withUnit(text, this.unitOf(key));
	}

	#bagCells(): Record<string, string | number> {
		return Object.fromEntries(
			bagKeys.flatMap((key) => {
				const cell = this.#cell(key);
				return cell === undefined ? [] : [[key, cell]];
			})
		);
	}

	/** One entry for each cell alone would be dropped whole for one slip: what cannot be read is left out here. */
	#readable(): object[] {
		const at = '2026-01-01T00:00:00Z';
		const cells = Object.entries(this.#bagCells());
		const alone = (cell: [string, unknown]) => ({
			id: 'x',
			at,
			kind: 'observation',
			signs: [],
			bag: Object.fromEntries([cell])
		});
		const good = cells.filter(
			(cell) => readRun({ ...this.#record.document, log: [alone(cell)] }, { today: null }).log.length === 1
		);
		return [{ id: 'x', at, kind: 'observation', signs: [], bag: Object.fromEntries(good) }];
	}

	/** Writes the record; null and the troubles stand at their fields when the log would refuse it. */
	write(): RawEntry | null {
		const [lot, photo, note, breaths] = ['lot', 'photo', 'note', 'breathsPerMinute'].map((key) =>
			this.#text(key)
		);
		const entry = {
			kind: 'observation',
			signs: [...this.signs],
			...(lot ? { lot } : {}),
			...(breaths ? { breathsPerMinute: Number.isFinite(Number(breaths)) ? Number(breaths) : breaths } : {}),
			...(photo ? { photo } : {}),
			...(note ? { note } : {}),
			bag: this.#bagCells()
		};
		const trial: RawEntry = { id: 'new-fact', at: new Date().toISOString(), ...entry };
		this.troubles = troublesOf(this.#record.document, this.#record.raws, trial, 'observation', intakeFields);
		return this.troubles.length > 0 ? null : this.#record.write(entry);
	}
}
