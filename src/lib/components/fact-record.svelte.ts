import { logLines, type RawEntry, type Writer } from '$lib/ledger';
import { plan } from '$lib/planner';
import { readRun } from '$lib/run';
import { dayIn } from './almanac';
import type { OutboxDesk } from './outbox.svelte';

/** A run as its pages of facts open it. */
export interface OpenedRecord {
	id: string;
	version: number;
	document: Record<string, unknown>;
	log: readonly RawEntry[];
	writers: readonly Writer[];
}

/** The facts of one run, those on their way to the store included, and what follows from them. */
export class FactRecord {
	readonly #opened: () => OpenedRecord;
	readonly #outbox: OutboxDesk;

	now: string = $state('');

	readonly #held = $derived.by(() => {
		const here = new Set(this.#opened().log.map(({ id }) => id));
		return this.#outbox.state.waiting.filter(({ run, entry }) => run === this.id && !here.has(entry.id));
	});
	/** ids of entries that no store has yet */
	readonly waiting = $derived(new Set(this.#held.map(({ entry }) => entry.id)));
	readonly raws: readonly RawEntry[] = $derived.by(() => [
		...this.#opened().log,
		...this.#held.map(({ entry }) => entry)
	]);
	readonly today = $derived.by(() => dayIn(String(this.#opened().document.timeZone), this.now));
	readonly run = $derived.by(() =>
		readRun({ ...this.#opened().document, id: this.id, log: this.raws }, { today: this.today })
	);
	readonly plan = $derived(plan(this.run, this.now));
	readonly names = $derived({ run: this.run, plan: this.plan });
	readonly lines = $derived.by(() => logLines(this.names, this.raws, this.#opened().writers));

	constructor(opened: () => OpenedRecord, outbox: OutboxDesk, now: string) {
		this.#opened = opened;
		this.#outbox = outbox;
		this.now = now;
	}

	get id(): string {
		return this.#opened().id;
	}

	get document(): Record<string, unknown> {
		return this.#opened().document;
	}

	get version(): number {
		return this.#opened().version;
	}

	/** Keeps a fact and sends it behind; the entry it became. */
	write(fact: { kind: string } & Record<string, unknown>): RawEntry {
		return this.#outbox.append(this.id, fact);
	}

	takeBack(id: string): void {
		this.#outbox.takeBack(this.id, id);
	}
}

/** Lets the record follow the clock, and the page the store, until the answer is called. Only in a browser. */
export function follow(record: FactRecord, outbox: OutboxDesk, load: () => void): () => void {
	const tick = () => (record.now = new Date().toISOString());
	tick();
	const clock = setInterval(tick, 30_000);
	const silent = outbox.onSent(load);
	return () => {
		clearInterval(clock);
		silent();
	};
}
