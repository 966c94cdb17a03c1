import type { ComparisonWords, Names, ShownSlip, ShownWay } from '$lib/planner';
import type { Day, Edit } from '$lib/run';
import { clientId } from './client-id';
import { postEntries } from './outbox-post';
import type { Held, LogEntry } from './outbox-shelf';
import type { OutboxDesk } from './outbox.svelte';
import { send } from './saver';
import type { Stand } from './slip-moved';

/** A run's slips as the server worked them out. */
export interface OpenedSlips extends Stand {
	id: string;
	name: string;
	version: number;
	phases: Record<string, string>;
	medicines: Record<string, string>;
	slips: ShownSlip[];
	/** the moment they were worked out for, and its day in the run's zone */
	at: string;
	today: string;
}

/** A way that was taken, and what it moved. */
export interface Taken {
	title: string;
	text: string;
	/** the day of release before any of the open jobs was missed */
	planned: Day | null;
	moved: ComparisonWords;
}

/** Takes ways: hands them to the outbox, and says what moved once the store has written them. */
export class SlipDesk {
	readonly #opened: () => OpenedSlips;
	readonly #reload: () => Promise<void>;
	readonly #outbox: OutboxDesk;
	/** the way that was taken last, and the entry it became */
	#last: { entry: string; edits: Edit[] } | null = null;
	/** its own words, until the store has answered */
	#unanswered: Omit<Taken, 'moved'> | null = null;
	busy = $state(false);
	/** why nothing was written */
	trouble = $state('');
	taken: Taken | null = $state.raw(null);

	constructor(opened: () => OpenedSlips, reload: () => Promise<void>, outbox: OutboxDesk) {
		this.#opened = opened;
		this.#reload = reload;
		this.#outbox = outbox;
	}

	/** A way of the job that waits to be sent. */
	waiting(task: string): Held | undefined {
		const { id } = this.#opened();
		return this.#outbox.state.waiting.find((held) => held.way && held.run === id && held.entry.task === task);
	}

	/** Takes a way as it is shown. Without network it is kept and sent later, and {@link arrived} says what moved. */
	async take(slip: ShownSlip, way: ShownWay): Promise<void> {
		const [choice] = way.entries;
		if (!choice) throw new Error('a way writes its choice');
		const { title, release, danger, edits } = way;
		this.busy = true;
		this.trouble = '';
		const shown = { title, text: slip.text, does: { release, danger, edits } };
		const entry = this.#outbox.append(this.#opened().id, { ...choice }, shown);
		this.#last = { entry: entry.id, edits };
		this.#unanswered = { title, text: slip.text, planned: way.planned };
		await this.#outbox.settled();
		this.busy = false;
		if (this.#outbox.state.refused.some((held) => held.entry.id === entry.id)) {
			this.#unanswered = null;
			this.#last = null;
			// what refused it stands above, with what changed
			await this.#reload();
		}
	}

	/** The store took entries of this run. */
	async arrived(): Promise<void> {
		const told = this.#unanswered;
		const last = this.#last?.entry;
		if (told && !this.#outbox.state.waiting.some(({ entry }) => entry.id === last)) {
			this.#unanswered = null;
			await this.#tell(told);
		} else await this.#reload();
	}

	/** Takes the last way back: its entries are struck by corrections, its edits undone. */
	async takeBack(): Promise<void> {
		const last = this.#last;
		if (!last) return;
		const at = new Date().toISOString();
		const voids = [{ id: clientId(), at, kind: 'correct', entry: last.entry, void: true }];
		const undone = last.edits.map(({ path, to, was }): Edit => ({ path, to: was, was: to })).reverse();
		if (!(await this.#write(undone, clientId(), voids))) return;
		this.#last = null;
		await this.#tell({
			title: 'Taken back',
			text: this.taken?.text ?? '',
			planned: this.taken?.planned ?? null
		});
	}

	get canTakeBack(): boolean {
		return this.taken !== null && this.#last !== null;
	}

	/** True once both are with the store. */
	async #write(edits: readonly Edit[], save: string, entries: readonly LogEntry[]): Promise<boolean> {
		const { id, version } = this.#opened();
		this.busy = true;
		this.trouble = '';
		try {
			if (edits.length > 0) {
				const saved = await send(id, version, { id: save, edits });
				if (saved.kind !== 'saved') return this.#fail(saved.sentence);
			}
			const posted = await postEntries(id, entries);
			return posted.kind === 'taken' || this.#fail(posted.sentence);
		} finally {
			this.busy = false;
		}
	}

	#fail(sentence: string): false {
		this.trouble = `It could not be written: ${sentence}`;
		return false;
	}

	async #tell(what: Omit<Taken, 'moved'>): Promise<void> {
		const before = this.#opened();
		const moved = import('./slip-moved');
		await this.#reload();
		const after = this.#opened();
		const names: Names = {
			phase: (id) => after.phases[id] ?? id,
			medicine: (id) => after.medicines[id] ?? id
		};
		const { whatMoved } = await moved;
		this.taken = {
			...what,
			moved: whatMoved(after.id, before, after, { now: after.at, today: after.today }, names, what.planned)
		};
	}
}
