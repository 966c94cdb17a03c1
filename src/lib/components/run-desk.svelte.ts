import type { Finding, Plan } from '$lib/planner';
import { applyAll, exchange, readRun, type Edit, type Run } from '$lib/run';
import {
	carriedOver,
	emptyHistory,
	inverted,
	record,
	redo,
	undo,
	type Desk,
	type History,
	type SheetDocument
} from '$lib/sheet';
import { afterPaint } from './after-paint';
import { dayIn } from './almanac';
import { clientId } from './client-id';
import { CourseShelf } from './course-shelf.svelte';
import type { Engine } from './engine';
import { listen, newsSince } from './news';
import { RepairShop } from './repair-shop';
import { keepUnsent, readUnsent, send, type Answer, type Parcel } from './saver';
import { shelf } from './shelf';

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
	#tell: () => void = () => undefined;
	#resting: ReturnType<typeof setTimeout> | undefined;
	readonly #shop = new RepairShop();
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
	/** what the page draws, one frame behind what is typed, so that no key waits for the march */
	drawn: { document: SheetDocument; run: Run; plan: Plan };
	#behind = false;
	#keptHistory: History | undefined;
	readonly courses = new CourseShelf();
	desk: Desk = $derived.by(() => ({
		document: this.document,
		plan: this.drawn.plan,
		today: this.today,
		shelf,
		courses: this.engine ? [...this.engine.courses, ...this.courses.own] : []
	}));

	constructor(opened: Opened, now: string, today: string) {
		this.id = opened.id;
		this.log = opened.log;
		this.#version = opened.version;
		this.document = opened.document;
		this.#first = opened.plan;
		this.#opened = this.now = now;
		this.today = today;
		this.drawn = $state.raw({ document: this.document, run: this.run, plan: this.plan });
	}

	/** Draws what follows from the document as it stands. */
	catchUp() {
		const { document, run, plan } = this;
		if (this.drawn.document !== document) this.offered = null;
		this.drawn = { document, run, plan };
	}

	/** Catches up in the frame after this one, whatever changed; to be called in an effect. */
	follow() {
		void [this.document, this.engine, this.now, this.today];
		if (this.#behind) return;
		this.#behind = true;
		afterPaint(() => {
			this.#behind = false;
			this.catchUp();
		});
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
		clearTimeout(this.#resting);
		this.#resting = setTimeout(() => void this.#tryRepairs(), REST_MS);
	}

	/** Of a page that was only opened the server tries them. */
	async #tryRepairs() {
		const { document, engine, now, today, id, log } = this;
		const findings = engine
			? await this.#shop.try({ document: { ...document, id, log }, now, today })
			: await this.#askRepairs();
		if (findings && this.document === document) this.offered = { ...this.plan, findings };
	}

	async #askRepairs(): Promise<Finding[] | null> {
		const answer = await fetch(`/api/runs/${encodeURIComponent(this.id)}/repairs`).catch(() => null);
		if (!answer?.ok) return null;
		const { version, findings } = (await answer.json()) as { version: number; findings: Finding[] };
		return version === this.#version ? findings : null;
	}

	/** Takes up what this device still holds, and hears of what others save. Answers how to stop hearing. */
	resume(): () => void {
		this.#takeUp();
		const { tell, stop } = listen(this.id, () => void this.#hear());
		this.#tell = tell;
		addEventListener('pagehide', this.#handOver);
		return () => {
			removeEventListener('pagehide', this.#handOver);
			stop();
		};
	}

	async #hear() {
		if (this.#sending || this.#parcels.length) return;
		const news = await newsSince(this.id, this.#version);
		// what is being sent now brings the same news in its answer
		if (!news || news.version <= this.#version || this.#sending) return;
		this.#version = news.version;
		this.#merge(news.document, news.edits);
	}

	/** Acts that were not sent, and the pile for undo. */
	#takeUp() {
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
		this.saveState = 'saving';
		// what was typed is seen first; a page that is left before that hands over as it goes
		afterPaint(this.#handOver);
	}

	#handOver = () => {
		if (this.#parcels.length === 0) return;
		this.#keep();
		void this.#sendAll();
	};

	#keep() {
		keepUnsent(this.id, { base: this.#version, parcels: this.#parcels });
		if (this.#keptHistory === this.history) return;
		try {
			sessionStorage.setItem(historyKey(this.id), JSON.stringify((this.#keptHistory = this.history)));
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
			if (answer.kind === 'saved' && answer.others)
				this.#merge(answer.others.document, answer.others.edits, parcel?.edits);
			if (answer.kind === 'clash') this.#yield(answer);
			if (answer.kind === 'refused' && parcel) {
				this.#apply(inverted(parcel.edits));
				this.sentence = answer.sentence;
			}
			this.#keep();
		}
		this.#sending = false;
		this.saveState = 'saved';
		this.#tell();
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

	/**
	 * Others saved meanwhile: their document, in which `sent` is already, becomes the ground, and what is not sent yet
	 * goes on top. What can be taken back follows the rows it names.
	 */
	#merge(document: unknown, since: readonly Edit[], sent: readonly Edit[] = []) {
		void this.engage();
		this.document = document as SheetDocument;
		let others = exchange(sent, since)?.since ?? since;
		this.#parcels = this.#parcels.flatMap((parcel) => {
			const both = exchange(parcel.edits, others);
			if (!both) return [];
			others = both.since;
			return [{ ...parcel, edits: both.edits }];
		});
		for (const parcel of this.#parcels) this.#apply(parcel.edits);
		this.history = carriedOver(this.history, others);
		this.#offer();
		this.sentence = 'This run was changed elsewhere; the changes are in.';
	}

	/** The same cell was changed elsewhere: theirs stands, and one step back brings ours. */
	#yield({ document, sentence, clashes }: Extract<Answer, { kind: 'clash' }>) {
		void this.engage();
		this.document = document as SheetDocument;
		for (const parcel of this.#parcels) this.#apply(parcel.edits);
		const overruled = clashes.map(({ path, theirs, yours }): Edit => ({ path, was: yours, to: theirs }));
		this.history = record(emptyHistory, overruled);
		this.#offer();
		this.sentence = `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}. Theirs is shown; undo brings yours back.`;
	}
}
