import type { Glyph, Hue } from '$lib/calendar';
import type { TaskKind } from '$lib/planner';
import {
	withEntries,
	type JobRow,
	type SentEntry,
	type ShownTank,
	type TankToday,
	type Today,
	type TypedReading,
	type Verdict
} from '$lib/today';
import type { OutboxDesk } from './outbox.svelte';
import type { Fact } from './outbox';
import type { judging } from './today-judging';
import type { Units } from './unit-system.svelte';

/** The round as the app hands it out: with how its jobs are drawn, and the colour of each medicine by run and id. */
export type Round = Today & {
	hues: Record<string, Record<string, Hue>>;
	glyphs: Record<TaskKind, Glyph>;
	/** another one for each state of a run, by run */
	marks: Record<string, string>;
};

/** What a keeper says beside a reading: when it was, and a note. */
export interface Beside {
	at?: string;
	note?: string;
}

const keptKey = 'lazaret-round';
const LOOK_AGAIN_MS = 60_000;
/** How long a touch can be taken back beside its job; later the sheet of the job does it. */
const UNDO_MS = 10 * 60_000;

/** The page of the day: the round as the app last gave it, and what was logged since. */
export class TodayDesk {
	readonly #outbox: OutboxDesk;
	readonly #units: Units;
	readonly #dated: (sentence: string) => string;
	/** entries made on this page; those the round knows by now are passed over */
	#made: { run: string; entry: SentEntry }[] = $state.raw([]);

	round: Round = $state.raw() as Round;
	nowMs: number = $state(0);
	/** the app did not answer the last time it was asked */
	away = $state(false);
	/** what a reading said when it was logged, by entry */
	verdicts: Record<string, Verdict> = $state.raw({});
	/** fetched when the page stands: a touch on a job does not need it */
	judging: typeof judging | null = $state.raw(null);

	tanks: ShownTank[] = $derived.by(() =>
		this.round.tanks.map((tank) =>
			withEntries(
				tank,
				this.#entriesOf(tank.run),
				this.judging && { judge: this.judging.judge, again: this.again(tank) }
			)
		)
	);

	constructor(outbox: OutboxDesk, units: Units, dated: (sentence: string) => string, round: Round) {
		this.#outbox = outbox;
		this.#units = units;
		this.#dated = dated;
		this.round = round;
		this.nowMs = Date.parse(round.now);
	}

	/** Begins to look at the clock, and asks for the round when something was sent or time has passed. */
	open(): () => void {
		const kept = readKept();
		// a page that was kept for times without network is older than the round that was kept after it
		if (kept && kept.now > this.round.now) this.round = kept;
		else keep(this.round);
		this.nowMs = Date.now();
		void import('./today-judging').then((loaded) => (this.judging = loaded.judging));
		const look = () => {
			this.nowMs = Date.now();
			if (document.visibilityState === 'visible') void this.refresh();
		};
		if (this.nowMs - Date.parse(this.round.now) > LOOK_AGAIN_MS || kept === this.round) void this.refresh();
		const timer = setInterval(look, LOOK_AGAIN_MS);
		document.addEventListener('visibilitychange', look);
		window.addEventListener('online', look);
		const unlisten = this.#outbox.onSent(() => void this.refresh());
		return () => {
			clearInterval(timer);
			document.removeEventListener('visibilitychange', look);
			window.removeEventListener('online', look);
			unlisten();
		};
	}

	async refresh(): Promise<void> {
		try {
			const response = await fetch('/api/today', { cache: 'no-store' });
			if (response.status === 401) return leave();
			const { round } = (await response.json()) as { round?: Round };
			if (!round) throw new Error('not the answer of this app');
			this.round = round;
			this.away = false;
			keep(round);
		} catch {
			this.away = true;
		}
	}

	log(run: string, fact: Fact): string {
		const entry = this.#outbox.append(run, fact);
		this.nowMs = Date.now();
		this.#made = [...this.#made, { run, entry }];
		return entry.id;
	}

	/** Logs a reading, with what was said beside it, and says what it came to. */
	read(tank: ShownTank, row: JobRow, typed: TypedReading, as: string, more: Beside = {}): Verdict | null {
		if (!row.ask || !this.judging) return null;
		const form = as && as !== 'tan' ? { as } : {};
		const id = this.log(tank.run, {
			kind: 'reading',
			task: row.task,
			what: row.ask.what,
			value: typed.text,
			...form,
			...more
		});
		const shown = this.tanks.find(({ run }) => run === tank.run)?.rows.find(({ key }) => key === row.key);
		const verdict = shown?.verdict ?? this.judging.judge(row.ask, { value: typed.value, ...form });
		this.verdicts = { ...this.verdicts, [id]: verdict };
		return verdict;
	}

	takeBack(run: string, id: string): void {
		const entry = { id: `void-${id}`, at: new Date().toISOString(), kind: 'correct', entry: id, void: true };
		this.#outbox.takeBack(run, id);
		this.#made = [...this.#made.filter((one) => one.entry.id !== id), { run, entry }];
	}

	/** Jobs of an earlier service that nobody will do any more. */
	skipAll(run: string, tasks: readonly string[], reason: string): void {
		for (const task of tasks) this.log(run, { kind: 'missed', task, ...(reason ? { reason } : {}) });
	}

	/** A metric sentence in the keeper's units, its days as the keeper writes them. */
	told(text: string): string {
		const dated = this.#dated(text);
		return this.judging ? this.judging.sentenceIn(this.#units.system, dated) : dated;
	}

	get system(): Units['system'] {
		return this.#units.system;
	}

	canUndo(at: string): boolean {
		return this.nowMs - Date.parse(at) < UNDO_MS;
	}

	#entriesOf(run: string): SentEntry[] {
		const refused = new Set(this.#outbox.state.refused.map(({ entry }) => entry.id));
		const own = [...this.#made, ...this.#outbox.state.waiting].filter((one) => one.run === run);
		const byId = new Map(own.map(({ entry }) => [entry.id, entry]));
		return [...byId.values()].filter(({ id }) => !refused.has(id));
	}

	/** A second reading is due at the end of the tank's day, or in the morning where that is over. */
	again({ zone }: Pick<TankToday, 'zone'>): string {
		const hour = new Intl.DateTimeFormat('en', { hour: 'numeric', hourCycle: 'h23', timeZone: zone });
		return Number(hour.format(this.nowMs)) < 17 ? 'tonight' : 'tomorrow morning';
	}
}

function keep(round: Round): void {
	try {
		localStorage.setItem(keptKey, JSON.stringify(round));
	} catch {
		// no room: without network the page then shows what it was loaded with
	}
}

/** Whoever was here has to enter again: nothing of the plan stays on the device, what waits to be sent does. */
function leave(): void {
	localStorage.removeItem(keptKey);
	localStorage.removeItem('lazaret-ways');
	location.reload();
}

function readKept(): Round | null {
	try {
		return JSON.parse(localStorage.getItem(keptKey) ?? 'null') as Round | null;
	} catch {
		return null;
	}
}
