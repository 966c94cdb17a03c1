import { labels } from '$lib/formulary';
import type { Finding, Plan } from '$lib/planner';
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
import { CourseShelf } from './course-shelf.svelte';
import type { Engine } from './engine';
import { keepUnsent, readUnsent, send, type Parcel } from './saver';

/** Every active ingredient as the sheet offers it. */
export const shelf: readonly ShelfEntry[] = Object.values(labels);

export interface Opened {
	id: string;
	version: number;
	document: SheetDocument;
	log: readonly unknown[];
	/** made by the server for the moment the page was opened */
	plan: Plan;
}

export type SaveState = 'saved' | 'saving' | 'not saved';

const REST_MS = 700;
/** A page that nobody touches asks for a new plan this long after it was opened. */
const STALE_MS = 600_000;
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
	readonly #first: Plan;
	readonly #opened: string;
	#fetched: Promise<Engine> | undefined;
	/** absent until somebody goes to write */
	engine: Engine | null = $state.raw(null);

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
	plan = $derived.by(() => (this.engine ? this.engine.plan(this.run, this.now) : this.#first));
	readonly courses = new CourseShelf();
	desk: Desk = $derived({
		document: this.document,
		plan: this.plan,
		today: this.today,
		shelf,
		courses: this.engine ? [...this.engine.courses, ...this.courses.own] : []
	});

	constructor(opened: Opened, now: string, today: string) {
		this.id = opened.id;
		this.log = opened.log;
		this.#version = opened.version;
		this.document = opened.document;
		this.#first = opened.plan;
		this.#opened = this.now = now;
		this.today = today;
	}

	/** The clock moved on. */
	tick(now: string) {
		this.now = now;
		this.today = dayIn(this.run.timeZone, now);
		if (Date.parse(now) - Date.parse(this.#opened) > STALE_MS) void this.engage();
	}

	/** Fetches the planner, once; from then on every change is planned here and at once. */
	engage(): Promise<Engine> {
		this.#fetched ??= import('./engine').then(({ engine }) => {
			void this.courses.load();
			return (this.engine = engine);
		});
		// an app that cannot be reached just now is asked again by the next who goes to write
		this.#fetched.catch(() => (this.#fetched = undefined));
		return this.#fetched;
	}

	/** Repairs are tried once the typing rests: each costs a march of its own. */
	#offer() {
		this.offered = null;
		clearTimeout(this.#resting);
		this.#resting = setTimeout(() => void this.#tryRepairs(), REST_MS);
	}

	/** Of a page that was only opened the server tries them. */
	async #tryRepairs() {
		const { document, engine } = this;
		const offered = engine
			? engine.offerRepairs({ ...document, id: this.id, log: this.log }, this.now, this.today)
			: await this.#askRepairs();
		if (offered && this.document === document) this.offered = offered;
	}

	async #askRepairs(): Promise<Plan | null> {
		const answer = await fetch(`/api/runs/${encodeURIComponent(this.id)}/repairs`).catch(() => null);
		if (!answer?.ok) return null;
		const { version, findings } = (await answer.json()) as { version: number; findings: Finding[] };
		return version === this.#version ? { ...this.#first, findings } : null;
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
		void this.engage();
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
		void this.engage();
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
		void this.engage();
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
		void this.engage();
		this.document = document as SheetDocument;
		for (const parcel of this.#parcels) this.#apply(parcel.edits);
		this.sentence = `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}. Theirs is shown; undo brings yours back.`;
	}
}
