import { medicines, type Active } from '$lib/formulary';
import { offerRepairs, plan, type Plan } from '$lib/planner';
import { applyAll, rebase, readRun, type Edit } from '$lib/run';
import {
	emptyHistory,
	inverted,
	record,
	redo,
	undo,
	type Desk,
	type History,
	type SheetDocument,
	type ShelfEntry
} from '$lib/sheet';
import { dayIn } from './almanac';
import { clientId } from './client-id';
import { keepUnsent, readUnsent, send, type Parcel } from './saver';

/** Every active ingredient as the sheet offers it. */
export const shelf: readonly ShelfEntry[] = Object.values(medicines).map(({ active, name, short }) => ({
	active,
	name,
	short
}));

export const rowOf = (active: string) => (active in medicines ? medicines[active as Active] : undefined);

export interface Opened {
	id: string;
	version: number;
	document: SheetDocument;
	log: readonly unknown[];
}

export type SaveState = 'saved' | 'saving' | 'not saved';

const REST_MS = 700;
const historyKey = (run: string) => `lazaret-history-${run}`;

/** One open run: the document, what follows from it, what was done to it, and how far that is saved. */
export class RunDesk {
	readonly id: string;
	readonly log: readonly unknown[];
	#version: number;
	#parcels: Parcel[] = [];
	#sending = false;
	#away = false;
	#resting: ReturnType<typeof setTimeout> | undefined;

	document: SheetDocument = $state.raw({ phases: [] });
	now: string = $state('');
	today: string = $state('');
	history: History = $state.raw(emptyHistory);
	saveState: SaveState = $state('saved');
	/** the plan with the repairs that were proved to work; null until they are tried */
	offered: Plan | null = $state.raw(null);
	/** why it is not saved, or what someone else did meanwhile */
	sentence = $state('');

	run = $derived.by(() => readRun({ ...this.document, id: this.id, log: this.log }, { today: this.today }));
	plan = $derived(plan(this.run, this.now));
	desk: Desk = $derived({ document: this.document, plan: this.plan, today: this.today, shelf });

	constructor(opened: Opened, now: string, today: string) {
		this.id = opened.id;
		this.log = opened.log;
		this.#version = opened.version;
		this.document = opened.document;
		this.now = now;
		this.today = today;
	}

	/** The clock moved on. */
	tick(now: string) {
		this.now = now;
		this.today = dayIn(this.run.timeZone, now);
	}

	/** Repairs are tried once the typing rests: each costs a march of its own. */
	#offer() {
		this.offered = null;
		clearTimeout(this.#resting);
		this.#resting = setTimeout(() => {
			const document = { ...this.document, id: this.id, log: this.log };
			this.offered = offerRepairs(document, this.now, this.today);
		}, REST_MS);
	}

	/** Takes up what this device still holds: acts that were not sent, and the pile for undo. */
	resume() {
		this.#offer();
		const unsent = readUnsent(this.id);
		if (unsent?.parcels.length) {
			this.#parcels = unsent.parcels;
			this.#version = Math.min(this.#version, unsent.base);
			for (const parcel of unsent.parcels) this.#apply(parcel.edits);
			void this.#sendAll();
		}
		try {
			const kept = sessionStorage.getItem(historyKey(this.id));
			if (kept) this.history = JSON.parse(kept) as History;
		} catch {
			// without it only the undo of before the reload is gone
		}
	}

	#apply(edits: readonly Edit[]) {
		try {
			this.document = applyAll(this.document, edits);
		} catch {
			this.sentence = 'A change made earlier no longer fits this run and was left out.';
		}
	}

	/** Makes edits, plans again at once and saves behind. */
	commit(edits: readonly Edit[]) {
		if (edits.length === 0) return;
		this.history = record(this.history, edits);
		this.#make(edits);
	}

	undo() {
		const back = undo(this.history);
		if (!back) return;
		this.history = back.history;
		this.#make(back.edits);
	}

	redo() {
		const again = redo(this.history);
		if (!again) return;
		this.history = again.history;
		this.#make(again.edits);
	}

	#make(edits: readonly Edit[]) {
		this.document = applyAll(this.document, edits);
		this.#offer();
		this.#parcels = [...this.#parcels, { id: clientId(), edits }];
		this.#keep();
		void this.#sendAll();
	}

	#keep() {
		keepUnsent(this.id, { base: this.#version, parcels: this.#parcels });
		try {
			sessionStorage.setItem(historyKey(this.id), JSON.stringify(this.history));
		} catch {
			// no room: undo then ends at the reload
		}
	}

	/** One act after the other, in order; stops at the first that does not arrive. */
	async #sendAll() {
		if (this.#sending) return;
		this.#sending = true;
		this.saveState = 'saving';
		while (this.#parcels[0]) {
			const answer = await send(this.id, this.#version, this.#parcels[0]);
			if (answer.kind === 'away') {
				this.#pause(answer.sentence);
				return;
			}
			const [parcel, ...rest] = this.#parcels;
			this.#parcels = rest;
			if (answer.kind !== 'refused') this.#version = answer.version;
			if (answer.kind === 'saved' && answer.others) this.#merge(answer.others.document, answer.others.edits);
			if (answer.kind === 'clash') this.#yield(answer.document, answer.sentence);
			if (answer.kind === 'refused' && parcel) {
				this.#apply(inverted(parcel.edits));
				this.sentence = answer.sentence;
			}
			this.#keep();
		}
		this.#sending = false;
		this.saveState = 'saved';
		if (this.#away) this.sentence = '';
		this.#away = false;
	}

	#pause(sentence: string) {
		this.#sending = false;
		this.saveState = 'not saved';
		this.sentence = sentence;
		this.#away = true;
		setTimeout(() => void this.#sendAll(), 4000);
	}

	/** Someone else saved meanwhile: theirs becomes the ground, ours that are not sent yet go on top. */
	#merge(document: unknown, since: readonly Edit[]) {
		this.document = document as SheetDocument;
		this.#parcels = this.#parcels.flatMap((parcel) => {
			const moved = rebase(parcel.edits, since);
			return moved.ok ? [{ ...parcel, edits: moved.edits }] : [];
		});
		for (const parcel of this.#parcels) this.#apply(parcel.edits);
		this.sentence = 'Someone else changed this run; their changes are in.';
	}

	/** The same cell was changed elsewhere: theirs stands, and the page says so. */
	#yield(document: unknown, sentence: string) {
		this.document = document as SheetDocument;
		for (const parcel of this.#parcels) this.#apply(parcel.edits);
		this.sentence = `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}. Theirs is shown; undo brings yours back.`;
	}
}
