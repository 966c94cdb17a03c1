import type { PostAnswer } from './outbox-post.ts';
import type { Held, LogEntry, Shelf, ShownWayDoes } from './outbox-shelf.ts';

/** What an entry says: its kind and that kind's keys; id and moment are added. */
export type Fact = { kind: string; at?: string } & Record<string, unknown>;

/** How the outbox reaches the world. */
export interface OutboxPorts {
	shelf: Shelf;
	/** `way`: the one entry is a way that is taken */
	post: (run: string, entries: readonly LogEntry[], way?: ShownWayDoes) => Promise<PostAnswer>;
	newId: () => string;
	nowMs: () => number;
	/** the same moment as the log writes it, with the device's offset */
	nowText: () => string;
	/** calls back after so many milliseconds */
	later: (act: () => void, ms: number) => void;
	/** something of {@link OutboxState} may be another */
	changed: (state: OutboxState) => void;
	/** the store took entries of these runs, or knows more of them than this device */
	sent: (runs: readonly string[]) => void;
}

/** What the pages show of it. */
export interface OutboxState {
	/** entries that wait to be sent, oldest first */
	waiting: readonly Held[];
	/** entries that the store refused, each with its sentence; kept until someone lets them go */
	refused: readonly Held[];
	/** why what waits is still waiting; empty when nothing is wrong */
	trouble: string;
	/** false: a reload would lose what waits, for the device keeps nothing */
	lasting: boolean;
}

const MOST_AT_ONCE = 50;
const FIRST_PAUSE_MS = 3000;
const LONGEST_PAUSE_MS = 60_000;

/**
 * Log entries on their way to the store: kept on the device, sent in the order they were made, each until the store
 * has answered. The store passes over an id it knows, so sending twice (a lost answer, two tabs) adds nothing. A
 * refused entry is set aside with the reason and does not hold up those behind it.
 */
export class Outbox {
	readonly #ports: OutboxPorts;
	#flight: Promise<void> | null = null;
	#waking = false;
	#pauseMs = FIRST_PAUSE_MS;
	#trouble = '';

	constructor(ports: OutboxPorts) {
		this.#ports = ports;
	}

	get state(): OutboxState {
		const held = this.#ports.shelf.all();
		return {
			waiting: held.filter(({ refusal }) => refusal === null),
			refused: held.filter(({ refusal }) => refusal !== null),
			trouble: this.#trouble,
			lasting: this.#ports.shelf.lasting
		};
	}

	/** Keeps a fact as an entry of the run's log, happened now unless it says when, and sends it. */
	append(run: string, fact: Fact, way?: ShownWayDoes): LogEntry {
		const entry: LogEntry = { id: this.#ports.newId(), at: this.#ports.nowText(), ...fact };
		this.#ports.shelf.add(run, entry, this.#ports.nowMs(), way);
		this.#tell();
		void this.flush();
		return entry;
	}

	/** Undoes an entry: one that never left is dropped, of any other the log says that it is void. */
	takeBack(run: string, id: string): 'dropped' | 'voided' {
		const held = this.#ports.shelf.all().find(({ entry }) => entry.id === id);
		if (held && (!held.tried || held.refusal !== null)) {
			this.letGo(id);
			return 'dropped';
		}
		this.append(run, { kind: 'correct', entry: id, void: true });
		return 'voided';
	}

	/** Sends a refused entry once more, in its old place. */
	again(id: string): void {
		for (const held of this.state.refused)
			if (held.entry.id === id) this.#ports.shelf.note(held, { refusal: null });
		this.#tell();
		void this.flush();
	}

	/** Forgets an entry that is held here. */
	letGo(id: string): void {
		for (const { key, entry } of this.#ports.shelf.all()) if (entry.id === id) this.#ports.shelf.remove(key);
		this.#tell();
	}

	/** Sends what waits, until nothing does or the store cannot be reached; then it tries again by itself. */
	flush(): Promise<void> {
		this.#flight ??= this.#send().finally(() => {
			this.#flight = null;
			// logged in the very moment the last answer came
			if (!this.#waking && this.state.waiting.length > 0) void this.flush();
		});
		return this.#flight;
	}

	async #send(): Promise<void> {
		const reached = new Set<string>();
		let most = MOST_AT_ONCE;
		for (let batch = this.#next(most); batch.length > 0; batch = this.#next(most)) {
			const run = batch[0]?.run ?? '';
			for (const held of batch) this.#ports.shelf.note(held, { tried: true });
			const answer = await this.#ports.post(
				run,
				batch.map(({ entry }) => entry),
				batch[0]?.way
			);
			if (answer.kind === 'away') {
				this.#wait(answer.sentence);
				break;
			}
			this.#trouble = '';
			this.#pauseMs = FIRST_PAUSE_MS;
			if (answer.kind === 'taken') {
				reached.add(run);
				for (const { key } of batch) this.#ports.shelf.remove(key);
			} else if (batch.length > 1) most = 1;
			else {
				// a way is refused where the run is another than this page believes
				if (batch[0]?.way) reached.add(run);
				this.#setAside(batch, answer.sentence);
			}
			this.#tell();
		}
		if (reached.size > 0) this.#ports.sent([...reached]);
	}

	/** The oldest entries of one run that wait; a way that was taken goes alone, after what was logged before it. */
	#next(most: number): Held[] {
		const { waiting } = this.state;
		const own = waiting.filter(({ run }) => run === waiting[0]?.run);
		const way = own.findIndex((held) => held.way);
		return own.slice(0, way < 0 ? most : Math.min(most, Math.max(1, way)));
	}

	/** A refused entry that was taken back already goes with what takes it back: there is nothing to say about it. */
	#setAside([held]: readonly Held[], sentence: string): void {
		if (!held) return;
		const voids = this.state.waiting.filter(
			({ entry }) => entry.void === true && entry.entry === held.entry.id
		);
		if (voids.length === 0) this.#ports.shelf.note({ ...held, tried: true }, { refusal: sentence });
		else for (const { key } of [held, ...voids]) this.#ports.shelf.remove(key);
	}

	#wait(sentence: string): void {
		this.#trouble = sentence;
		this.#tell();
		if (this.#waking) return;
		this.#waking = true;
		this.#ports.later(() => {
			this.#waking = false;
			void this.flush();
		}, this.#pauseMs);
		this.#pauseMs = Math.min(LONGEST_PAUSE_MS, this.#pauseMs * 2);
	}

	#tell(): void {
		this.#ports.changed(this.state);
	}
}
