import { randomUUID } from 'node:crypto';
import type { Store } from './store.ts';
import type { NoteWay } from './caldav-rows.ts';

/** One line of what was sent, received, refused. */
export interface Note {
	at: string;
	way: NoteWay;
	sentence: string;
}

/** Notes kept per account; older ones go. */
const most = 500;

/** Writes a look's notes, in order, and drops the oldest beyond 500. */
export async function keepNotes(store: Store, account: string, notes: readonly Note[]): Promise<void> {
	for (const note of notes) {
		await store.db
			.insertInto('calendar_note')
			.values({ ...note, account, id: randomUUID() })
			.execute();
	}
	const oldest = await store.db
		.selectFrom('calendar_note')
		.select('at')
		.where('account', '=', account)
		.orderBy('at', 'desc')
		.offset(most)
		.limit(1)
		.executeTakeFirst();
	if (!oldest) return;
	await store.db
		.deleteFrom('calendar_note')
		.where('account', '=', account)
		.where('at', '<=', oldest.at)
		.execute();
}

/** The latest notes of an account, the newest first. */
export const readNotes = (store: Store, account: string, limit = 100): Promise<Note[]> =>
	store.db
		.selectFrom('calendar_note')
		.select(['at', 'way', 'sentence'])
		.where('account', '=', account)
		.orderBy('at', 'desc')
		.limit(limit)
		.execute();
