import {
	factOf,
	instantIn,
	troublesOf,
	wallClock,
	type LedgerRow,
	type Measure,
	type RawEntry
} from '$lib/ledger';
import type { FactRecord } from './fact-record.svelte';

/** A reading typed into its place in the ledger. What cannot be read stays there with its reason. */
export class ReadingDraft {
	readonly #record: FactRecord;
	readonly #row: LedgerRow;
	readonly #measure: Measure;

	text = $state('');
	trouble = $state('');

	constructor(record: FactRecord, row: LedgerRow, measure: Measure) {
		this.#record = record;
		this.#row = row;
		this.#measure = measure;
	}

	/** Of today it was read now, of an earlier day at its service. */
	#at(): string {
		const { run } = this.#record;
		const now = new Date().toISOString();
		const clock = wallClock(run.timeZone, Date.parse(now));
		const isNow = clock.day === this.#row.day;
		return instantIn(run.timeZone, this.#row.day, isNow ? clock.time : this.#row.time).at;
	}

	write(): void {
		this.trouble = '';
		if (this.text.trim() === '') return;
		const { what } = this.#measure;
		const { plan, document, raws } = this.#record;
		const fact = factOf('reading', { what, value: this.text }, this.#measure);
		const test = plan.tasks.find(
			(task) =>
				task.kind === 'test' &&
				task.date === this.#row.day &&
				['open', 'planned'].includes(task.state) &&
				task.what?.includes(what)
		);
		const entry = { ...fact, at: this.#at(), ...(test ? { task: test.id } : {}) };
		const trial: RawEntry = { id: 'new-fact', ...entry };
		const [trouble] = troublesOf(document, raws, trial, 'reading');
		if (trouble) {
			this.trouble = trouble.sentence;
			return;
		}
		this.#record.write(entry);
		this.text = '';
	}
}
