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
	readonly #place: () => { record: FactRecord; row: LedgerRow; measure: Measure };

	text = $state('');
	trouble = $state('');

	/** `place`: where in the ledger it is typed, as it stands when it is written. */
	constructor(place: () => { record: FactRecord; row: LedgerRow; measure: Measure }) {
		this.#place = place;
	}

	/** Of today it was read now, of an earlier day at its service. */
	#at(): string {
		const { record, row } = this.#place();
		const { run } = record;
		const now = new Date().toISOString();
		const clock = wallClock(run.timeZone, Date.parse(now));
		const isNow = clock.day === row.day;
		return instantIn(run.timeZone, row.day, isNow ? clock.time : row.time).at;
	}

	write(): void {
		this.trouble = '';
		if (this.text.trim() === '') return;
		const { record, row, measure } = this.#place();
		const { what } = measure;
		const { plan, document, raws } = record;
		const fact = factOf('reading', { what, value: this.text }, measure);
		const test = plan.tasks.find(
			(task) =>
				task.kind === 'test' &&
				task.date === row.day &&
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
		record.write(entry);
		this.text = '';
	}
}
