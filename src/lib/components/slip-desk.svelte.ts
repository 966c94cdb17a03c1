import type { ComparisonWords, Names, ShownSlip, ShownWay } from '$lib/planner';
import type { Edit } from '$lib/run';
import { clientId } from './client-id';
import { postEntries } from './outbox-post';
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
	/** the moment they were worked out for */
	at: string;
	today: string;
}

/** A way that was taken, and what it moved. */
export interface Taken {
	title: string;
	text: string;
	moved: ComparisonWords;
}

/** Ids of one way, kept so that trying again writes nothing twice. */
interface Ids {
	save: string;
	entries: string[];
}

/** Takes ways: writes their edits and entries, and says what moved. */
export class SlipDesk {
	readonly #opened: () => OpenedSlips;
	readonly #reload: () => Promise<void>;
	readonly #ids = new Map<ShownWay, Ids>();
	#last: { entries: string[]; edits: Edit[] } | null = null;
	busy = $state(false);
	/** why nothing was written */
	trouble = $state('');
	taken: Taken | null = $state.raw(null);

	constructor(opened: () => OpenedSlips, reload: () => Promise<void>) {
		this.#opened = opened;
		this.#reload = reload;
	}

	/** Writes exactly what the way says, edits before entries: a day that clashes must not leave half of it behind. */
	async take(slip: ShownSlip, way: ShownWay): Promise<void> {
		const ids = this.#idsOf(way);
		const entries = way.entries.map((entry, i) => ({ id: ids.entries[i] ?? clientId(), ...entry }));
		if (!(await this.#write(way.edits, ids.save, entries))) return;
		this.#last = { entries: ids.entries, edits: way.edits };
		await this.#tell({ title: way.title, text: slip.text });
	}

	/** Takes the last way back: its entries are struck by corrections, its edits undone. */
	async takeBack(): Promise<void> {
		const last = this.#last;
		if (!last) return;
		const at = new Date().toISOString();
		const voids = last.entries.map((entry) => ({ id: clientId(), at, kind: 'correct', entry, void: true }));
		const undone = last.edits.map(({ path, to, was }): Edit => ({ path, to: was, was: to })).reverse();
		if (!(await this.#write(undone, clientId(), voids))) return;
		this.#last = null;
		await this.#tell({ title: 'Taken back', text: this.taken?.text ?? '' });
	}

	get canTakeBack(): boolean {
		return this.taken !== null && this.#last !== null;
	}

	#idsOf(way: ShownWay): Ids {
		const known = this.#ids.get(way) ?? { save: clientId(), entries: way.entries.map(() => clientId()) };
		this.#ids.set(way, known);
		return known;
	}

	/** True once both are with the store. */
	async #write(
		edits: readonly Edit[],
		save: string,
		entries: readonly ({ id: string; at: string; kind: string } & Record<string, unknown>)[]
	): Promise<boolean> {
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

	async #tell(what: Pick<Taken, 'title' | 'text'>): Promise<void> {
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
			moved: whatMoved(after.id, before, after, { now: after.at, today: after.today }, names)
		};
	}
}
