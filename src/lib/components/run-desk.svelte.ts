import type { Finding, Plan } from '$lib/planner';
import { readRun, type Edit, type Run } from '$lib/run';
import {
	acted,
	adopted,
	answered,
	emptyHistory,
	heard,
	opened as openedCopy,
	redo,
	refused,
	rowsGone,
	undo,
	type Desk,
	type History,
	type Question,
	type Save,
	type SheetDocument,
	type WorkingCopy
} from '$lib/sheet';
import { afterPaint } from './after-paint';
import { dayIn } from './almanac';
import { clientId } from './client-id';
import { CourseShelf } from './course-shelf.svelte';
import type { Engine } from './engine';
import { listen, newsSince } from './news';
import { RepairShop } from './repair-shop';
import { send, type Answer } from './saver';
import { shelf } from './shelf';
import { copyBefore, dropUnsent, keepUnsent, unsentOf } from './unsent';

export interface Opened {
	id: string;
	version: number;
	document: SheetDocument;
	log: readonly unknown[];
	/** made by the server for the moment the page was opened */
	plan: Plan;
	/** what rows were that are gone and that cells still name, by id */
	gone?: Readonly<Record<string, string>>;
}

export type SaveState = 'saved' | 'saving' | 'not saved';

const REST_MS = 700;
/** A page that nobody touches asks for a new plan this long after it was opened. */
const STALE_MS = 600_000;

/** One open run: the document, what follows from it, what was done to it, and how far that is saved. */
export class RunDesk {
	readonly id: string;
	readonly log: readonly unknown[];
	/** under which this page keeps what was not sent */
	readonly #page = clientId();
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

	#copy: WorkingCopy<SheetDocument> = $state.raw(openedCopy(1, { phases: [] }));
	document = $derived(this.#copy.document);
	history = $derived(this.#copy.history);
	/** cells that were changed elsewhere while they were typed into here */
	questions: readonly Question[] = $derived(this.#copy.questions);
	now: string = $state('');
	today: string = $state('');
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
	readonly courses = new CourseShelf();
	/** those that others took out */
	#goneElsewhere: Readonly<Record<string, string>> = $state.raw({});
	/** rows that cells may still name */
	gone = $derived.by(() => ({ ...this.#goneElsewhere, ...rowsGone(this.history, this.document) }));
	desk: Desk = $derived.by(() => ({
		gone: this.gone,
		document: this.document,
		plan: this.drawn.plan,
		today: this.today,
		shelf,
		courses: this.engine ? [...this.engine.courses, ...this.courses.own] : []
	}));

	constructor(opened: Opened, now: string, today: string) {
		this.id = opened.id;
		this.log = opened.log;
		this.#copy = openedCopy(opened.version, opened.document);
		this.#first = opened.plan;
		this.#goneElsewhere = opened.gone ?? {};
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
		return version === this.#copy.version ? findings : null;
	}

	/** Takes up what this device still holds, and hears of what others save. Answers how to stop hearing. */
	resume(): () => void {
		this.#offer();
		void this.#recall().then(() => this.#adopt());
		const { tell, stop } = listen(this.id, () => void this.#hear());
		this.#tell = tell;
		addEventListener('pagehide', this.#handOver);
		return () => {
			removeEventListener('pagehide', this.#handOver);
			stop();
		};
	}

	async #hear() {
		const news = await newsSince(this.id, this.#copy.version);
		if (news) this.#take(news.saves);
		await this.#adopt();
	}

	/** What could be taken back before this tab was loaded again still can. */
	async #recall() {
		const before = copyBefore(this.id);
		if (!before) return;
		const { version } = this.#copy;
		const news = before.version < version ? await newsSince(this.id, before.version) : null;
		const { history } = heard(before, news?.saves.filter((save) => save.version <= version) ?? []);
		if (this.history === emptyHistory) this.#copy = { ...this.#copy, history };
	}

	/** What pages of this run left unsent on this device, each as soon as it knows of the same saves as this one. */
	async #adopt() {
		for (const [page, kept] of unsentOf(this.id, this.#page)) {
			const left = kept as WorkingCopy<SheetDocument>;
			const apart = left.version !== this.#copy.version;
			const news = apart && (await newsSince(this.id, Math.min(left.version, this.#copy.version)));
			if (news) this.#take(news.saves);
			const same = news ? heard(left, news.saves) : left;
			if (same.version !== this.#copy.version) continue;
			this.#set(adopted(this.#copy, same));
			dropUnsent(this.id, page);
			void this.#sendAll();
		}
	}

	#set(copy: WorkingCopy<SheetDocument>) {
		this.#show(copy);
		keepUnsent(this.id, this.#page, copy);
	}

	#show(copy: WorkingCopy<SheetDocument>) {
		const { document } = this;
		this.#copy = copy;
		if (copy.document === document) return;
		void this.engage();
		this.#offer();
	}

	/** Saves of the store, own ones among them. */
	#take(saves: readonly Save[]) {
		const { document, version } = this.#copy;
		this.#set(heard(this.#copy, saves));
		if (this.document === document) return;
		const gone = rowsGone({ done: saves.map(({ edits }) => edits) }, this.document);
		this.#goneElsewhere = { ...this.#goneElsewhere, ...gone };
		const [last] = saves.filter((save) => save.version > version);
		if (last) this.sentence = 'This run was changed elsewhere; the changes are in.';
	}

	/** Makes edits, plans again at once and saves behind. */
	commit(edits: readonly Edit[]) {
		if (edits.length > 0) this.#make(edits);
	}

	undo() {
		const back = undo(this.history);
		if (back) this.#make(back.edits, back.history);
	}

	redo() {
		const again = redo(this.history);
		if (again) this.#make(again.edits, again.history);
	}

	#make(edits: readonly Edit[], history?: History) {
		this.#show(acted(this.#copy, { id: clientId(), edits }, history));
		this.saveState = 'saving';
		// what was typed is seen first, then what follows from it; a page that is left before hands over as it goes
		afterPaint(() => setTimeout(this.#handOver));
	}

	#handOver = () => {
		if (this.#copy.waiting.length === 0) return;
		keepUnsent(this.id, this.#page, this.#copy);
		void this.#sendAll();
	};

	/** The keeper chose one of two values of a cell. */
	answer(question: Question, choice: 'theirs' | 'yours') {
		this.#set(answered(this.#copy, question, choice, clientId()));
		void this.#sendAll();
	}

	/** One act after the other, in order; stops at the first that does not arrive. */
	async #sendAll() {
		if (this.#sending) return;
		this.#sending = true;
		while (this.#copy.waiting[0]) {
			this.saveState = 'saving';
			const [act] = this.#copy.waiting;
			const answer = await send(this.id, this.#copy.version, act);
			if (answer.kind === 'away') {
				this.#pause(answer.sentence);
				return;
			}
			this.#settle(answer, act);
		}
		this.#sending = false;
		this.saveState = 'saved';
		this.#tell();
		if (this.#away) this.sentence = '';
		this.#away = false;
	}

	#settle(answer: Exclude<Answer, { kind: 'away' }>, { id, edits }: { id: string; edits: readonly Edit[] }) {
		const { version } = this.#copy;
		if (answer.kind === 'saved' && !answer.news)
			this.#take([{ version: answer.version, id, edits, who: '', at: '' }]);
		else if (answer.kind !== 'refused' && answer.news) this.#take(answer.news.saves);
		// an answer that brings nothing new would be asked for again and again
		if (answer.kind !== 'saved' && this.#copy.version === version && this.#copy.waiting[0]?.id === id) {
			this.#set(refused(this.#copy));
			this.sentence = answer.sentence;
		}
	}

	#pause(sentence: string) {
		this.#sending = false;
		this.saveState = 'not saved';
		this.sentence = sentence;
		this.#away = true;
		setTimeout(() => void this.#sendAll(), 4000);
	}
}
