/** An entry of a run's log as the plan file writes it: `id`, `at`, `kind`, and what that kind says. */
export type LogEntry = { id: string; at: string; kind: string } & Record<string, unknown>;

/** What a way to go on was shown to do when it was taken: it is written only if it still does that. */
export interface ShownWayDoes {
	/** the way and the job it is for, to name it by */
	title: string;
	text: string;
	does: { release: string | null; danger: string | null; edits: readonly unknown[] };
}

/** An entry that this device still holds. */
export interface Held {
	/** where it stands on the shelf; sorted by it, entries are in the order they were made */
	key: string;
	run: string;
	entry: LogEntry;
	/** it was sent at least once, so the store may have it though no answer came */
	tried: boolean;
	/** why the store did not take it; null while it waits */
	refusal: string | null;
	/** the entry is a choice that counts only while the run is as it was shown */
	way?: ShownWayDoes;
}

type Storage = Pick<globalThis.Storage, 'length' | 'key' | 'getItem' | 'setItem' | 'removeItem'>;

const prefix = 'lazaret-log:';

/**
 * Entries on their way to the store, kept on this device: one key for each, so that two tabs never write over each
 * other's. Where the device keeps nothing (no room, forbidden), they stand in this page's memory only.
 */
export class Shelf {
	readonly #storage: Storage | null;
	readonly #loose = new Map<string, Held>();

	constructor(storage: Storage | null) {
		this.#storage = storage;
	}

	/** True while every entry would survive a reload. */
	get lasting(): boolean {
		return this.#loose.size === 0;
	}

	/** All that is held, oldest first. */
	all(): Held[] {
		const kept = new Map<string, Held>();
		for (let i = 0; i < (this.#storage?.length ?? 0); i++) {
			const key = this.#storage?.key(i) ?? '';
			const held = key.startsWith(prefix) ? this.#read(key) : null;
			if (held) kept.set(key, held);
		}
		for (const [key, held] of this.#loose) kept.set(key, held);
		return [...kept.values()].sort((a, b) => (a.key < b.key ? -1 : 1));
	}

	/** Puts an entry behind all others; `nowMs` orders it against those of other tabs. */
	add(run: string, entry: LogEntry, nowMs: number, way?: ShownWayDoes): Held {
		const last = Number(this.all().at(-1)?.key.slice(prefix.length).split(':')[0] ?? 0);
		const stamp = String(Math.max(nowMs, last + 1)).padStart(15, '0');
		const key = `${prefix}${stamp}:${entry.id}`;
		const held: Held = { key, run, entry, tried: false, refusal: null, ...(way ? { way } : {}) };
		this.#write(held);
		return held;
	}

	/** Notes what became of an entry; one that another tab has sent meanwhile stays gone. */
	note(held: Held, became: Partial<Pick<Held, 'tried' | 'refusal'>>): void {
		if (this.has(held.key)) this.#write({ ...held, ...became });
	}

	has(key: string): boolean {
		return this.#loose.has(key) || this.#read(key) !== null;
	}

	remove(key: string): void {
		this.#loose.delete(key);
		try {
			this.#storage?.removeItem(key);
		} catch {
			// what cannot be removed is sent again, and adds nothing there
		}
	}

	#read(key: string): Held | null {
		try {
			const value = JSON.parse(this.#storage?.getItem(key) ?? 'null') as Omit<Held, 'key'> | null;
			return value && typeof value.entry?.id === 'string' ? { ...value, key } : null;
		} catch {
			return null;
		}
	}

	#write({ key, ...value }: Held): void {
		try {
			if (!this.#storage) throw new Error('this device keeps nothing');
			this.#storage.setItem(key, JSON.stringify(value));
			this.#loose.delete(key);
		} catch {
			this.#loose.set(key, { key, ...value });
		}
	}
}
