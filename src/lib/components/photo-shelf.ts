import { awaySentence, passing, type PostAnswer } from './outbox-post';

/** A picture on its way to the store. */
interface Kept {
	id: string;
	run: string;
	type: string;
	/** bytes and not a blob: some browsers lose blobs that they kept */
	bytes: ArrayBuffer;
	keptMs: number;
}

/** Longest side of a picture that is sent; enough for a spot of half a millimetre on a fish of ten centimetres. */
const longest = 1280;
const name = 'lazaret-photos';
/** A picture that no entry took along within this time is let go. */
const LONGEST_KEPT_MS = 7 * 86_400_000;

/**
 * Pictures of this device until they are in the store: kept in the browser's database, else in this page's memory
 * only. An entry names its picture by id; the picture goes before it, once.
 */
export class PhotoShelf {
	readonly #loose = new Map<string, Kept>();

	/** Makes a picture smaller and keeps it; null when the file is none. `lasting`: it survives a reload. */
	async keep(run: string, id: string, file: Blob, nowMs: number): Promise<{ lasting: boolean } | null> {
		const blob = await smaller(file);
		if (!blob) return null;
		const kept = { id, run, type: blob.type, bytes: await blob.arrayBuffer(), keptMs: nowMs };
		try {
			await this.#clean(nowMs);
			await inStore('readwrite', (photos) => photos.put(kept));
			return { lasting: true };
		} catch {
			this.#loose.set(id, kept);
			return { lasting: false };
		}
	}

	/** A picture that is still here; null where it is not, or in the store by now. */
	async find(id: string): Promise<Blob | null> {
		const kept = await this.#find(id);
		return kept && new Blob([kept.bytes], { type: kept.type });
	}

	async drop(id: string): Promise<void> {
		this.#loose.delete(id);
		await inStore('readwrite', (photos) => photos.delete(id)).catch(() => undefined);
	}

	/** Sends a picture unless it was sent; the store keeps it once under its id. */
	async send(id: string): Promise<PostAnswer> {
		const kept = await this.#find(id);
		if (!kept) return { kind: 'taken' };
		try {
			const response = await fetch(`/api/photos/${id}?run=${encodeURIComponent(kept.run)}`, {
				method: 'PUT',
				headers: { 'content-type': kept.type },
				body: kept.bytes,
				redirect: 'manual'
			});
			const { photo, error } = (await response.json()) as { photo?: string; error?: { message: string } };
			if (photo === id) {
				await this.drop(id);
				return { kind: 'taken' };
			}
			const final = error && response.status >= 400 && response.status < 500 && !passing.has(response.status);
			return final
				? { kind: 'refused', sentence: `Its picture was not taken: ${error.message}.` }
				: { kind: 'away', sentence: error?.message ?? awaySentence };
		} catch {
			return { kind: 'away', sentence: awaySentence };
		}
	}

	async #find(id: string): Promise<Kept | null> {
		const loose = this.#loose.get(id);
		if (loose) return loose;
		const found: unknown = await inStore('readonly', (photos) => photos.get(id)).catch(() => undefined);
		return (found as Kept | undefined) ?? null;
	}

	async #clean(nowMs: number): Promise<void> {
		const all = (await inStore('readonly', (photos) => photos.getAll())) as Kept[];
		for (const { id, keptMs } of all) if (nowMs - keptMs > LONGEST_KEPT_MS) await this.drop(id);
	}
}

/** One question to the browser's database, answered once it is written. */
async function inStore<T>(
	mode: IDBTransactionMode,
	ask: (photos: IDBObjectStore) => IDBRequest<T>
): Promise<T> {
	const opening = indexedDB.open(name, 1);
	opening.onupgradeneeded = () => opening.result.createObjectStore('photo', { keyPath: 'id' });
	const db = await answer(opening);
	try {
		const work = db.transaction('photo', mode);
		const asked = ask(work.objectStore('photo'));
		await new Promise<void>((done, failed) => {
			work.oncomplete = () => done();
			work.onabort = () => failed(work.error ?? new Error('nothing was kept'));
		});
		return asked.result;
	} finally {
		db.close();
	}
}

const answer = <T>(request: IDBRequest<T>): Promise<T> =>
	new Promise((done, failed) => {
		request.onsuccess = () => done(request.result);
		request.onerror = () => failed(request.error ?? new Error('the database does not open'));
	});

/** Drawing it anew also leaves behind what a phone writes into it: where it was taken, and with what. */
async function smaller(file: Blob): Promise<Blob | null> {
	try {
		const picture = await createImageBitmap(file);
		const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
		const canvas = document.createElement('canvas');
		canvas.width = Math.max(1, Math.round(picture.width * scale));
		canvas.height = Math.max(1, Math.round(picture.height * scale));
		canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
		return await new Promise((give) => canvas.toBlob(give, 'image/jpeg', 0.8));
	} catch {
		return null;
	}
}
