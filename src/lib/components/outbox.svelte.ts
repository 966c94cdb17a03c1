import { createContext } from 'svelte';
import { clientId } from './client-id';
import { localInstant } from './local-instant';
import { Outbox, type Fact, type OutboxState } from './outbox';
import { postEntries, postWay, type PostAnswer } from './outbox-post';
import { Shelf, type LogEntry, type ShownWayDoes } from './outbox-shelf';
import type { PhotoShelf } from './photo-shelf';

const nothing: OutboxState = { waiting: [], refused: [], trouble: '', lasting: true };

/** The outbox as pages see it: one for the whole app, handed down from the layout. */
export class OutboxDesk {
	#box: Outbox | null = null;
	#photos: Promise<PhotoShelf> | null = null;
	#listeners = new Set<(runs: readonly string[]) => void>();
	state: OutboxState = $state.raw(nothing);

	/** Takes up what this device still holds and sends it; ends with the answer. Only in a browser. */
	open(): () => void {
		const box = new Outbox({
			shelf: new Shelf(storageOf()),
			post: async (run, entries, way) => {
				const pictures = await this.#sendPhotos(entries);
				if (pictures.kind !== 'taken') return pictures;
				return way && entries[0] ? postWay(run, entries[0], way) : postEntries(run, entries);
			},
			newId: clientId,
			nowMs: () => Date.now(),
			nowText: () => localInstant(Date.now()),
			later: (act, ms) => setTimeout(act, ms),
			changed: (state) => (this.state = state),
			sent: (runs) => this.#listeners.forEach((listen) => listen(runs))
		});
		this.#box = box;
		const look = () => {
			this.state = box.state;
			void box.flush();
		};
		const others = (event: StorageEvent) => event.key?.startsWith('lazaret-log:') && (this.state = box.state);
		window.addEventListener('online', look);
		window.addEventListener('storage', others);
		document.addEventListener('visibilitychange', look);
		look();
		return () => {
			window.removeEventListener('online', look);
			window.removeEventListener('storage', others);
			document.removeEventListener('visibilitychange', look);
		};
	}

	/** Logs a fact of a run: `append(run, { kind: 'done', task })`. Kept at once, sent behind. */
	append(run: string, fact: Fact, way?: ShownWayDoes): LogEntry {
		if (!this.#box) throw new Error('nothing is logged before the page runs in a browser');
		return this.#box.append(run, fact, way);
	}

	/** Waits until nothing is being sent. */
	async settled(): Promise<void> {
		await this.#box?.flush();
	}

	takeBack(run: string, id: string): 'dropped' | 'voided' | undefined {
		return this.#box?.takeBack(run, id);
	}

	again(id: string): void {
		this.#box?.again(id);
	}

	letGo(id: string): void {
		this.#box?.letGo(id);
	}

	/** The pictures that this device still holds. A page where they are taken brings the shelf along: it may be offline by then. */
	photos(Made?: typeof PhotoShelf): Promise<PhotoShelf> {
		this.#photos ??= Made
			? Promise.resolve(new Made())
			: import('./photo-shelf').then((loaded) => new loaded.PhotoShelf());
		return this.#photos;
	}

	/** Pictures go before the entries that name them. */
	async #sendPhotos(entries: readonly LogEntry[]): Promise<PostAnswer> {
		const named = entries.flatMap(({ photo, as }) => [photo, (as as { photo?: unknown } | undefined)?.photo]);
		for (const id of named) {
			if (typeof id !== 'string') continue;
			const sent = await (await this.photos()).send(id);
			if (sent.kind !== 'taken') return sent;
		}
		return { kind: 'taken' };
	}

	/** Hears which runs the store took entries of; ends with the answer. */
	onSent(listen: (runs: readonly string[]) => void): () => void {
		this.#listeners.add(listen);
		return () => this.#listeners.delete(listen);
	}
}

function storageOf(): Storage | null {
	try {
		return localStorage;
	} catch {
		return null;
	}
}

/** The app's one outbox: the layout sets it, pages and forms get it. */
export const [getOutbox, setOutbox] = createContext<OutboxDesk>();
