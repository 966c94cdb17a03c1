import { documentTrouble, nameOf, type Document } from './document.ts';
import { patiently } from './fault.ts';
import { keptDocument } from './kept.ts';
import type { Store } from './store.ts';

/** A run as the list shows it. Instants are ISO 8601, UTC. */
export interface RunSummary {
	id: string;
	name: string;
	version: number;
	created: string;
	updated: string;
	deleted: string | null;
}

export interface StoredRun extends RunSummary {
	document: Document;
}

const summary = ['id', 'name', 'version', 'created', 'updated', 'deleted'] as const;

/** Every run that was not deleted, the latest made first; `deleted` asks for those instead. */
export function listRuns(store: Store, which: 'kept' | 'deleted' = 'kept'): Promise<RunSummary[]> {
	return patiently(() =>
		store.db
			.selectFrom('run')
			.select(summary)
			.where('deleted', which === 'kept' ? 'is' : 'is not', null)
			.orderBy('created', 'desc')
			.orderBy('id')
			.execute()
	);
}

/** Every run that was not deleted, or those of them that are named, with its document: what Today and the overview read. */
export async function openRuns(store: Store, ids?: readonly string[]): Promise<StoredRun[]> {
	const rows = await patiently(() => {
		const query = store.db
			.selectFrom('run')
			.select([...summary, 'document'])
			.where('deleted', 'is', null)
			.orderBy('created')
			.orderBy('id');
		return (ids ? query.where('id', 'in', ids) : query).execute();
	});
	return rows.map(stored);
}

/** One run, also a deleted one; null when there never was one of that id. */
export async function getRun(store: Store, id: string): Promise<StoredRun | null> {
	const row = await patiently(() =>
		store.db
			.selectFrom('run')
			.select([...summary, 'document'])
			.where('id', '=', id)
			.executeTakeFirst()
	);
	return row ? stored(row) : null;
}

const stored = (row: RunSummary & { document: string }): StoredRun => ({
	...row,
	document: keptDocument(row.document)
});

export interface NewRun {
	/** by the client, so that a resend makes no second run */
	id: string;
	document: unknown;
	who: string;
}

export type Created = { ok: true; run: StoredRun; made: boolean } | { ok: false; sentence: string };

/** Stores a new run at version 1. An id that is there already is answered with what is there. */
export async function createRun(store: Store, { id, document, who }: NewRun): Promise<Created> {
	const trouble = documentTrouble(document);
	if (trouble !== null) return { ok: false, sentence: trouble };
	const text = JSON.stringify(document);
	const name = nameOf(document as Document);
	const at = store.now();
	const made = await patiently(() =>
		store.db.transaction().execute(async (trx) => {
			const row = {
				id,
				name,
				document: text,
				original: text,
				version: 1,
				created: at,
				updated: at,
				deleted: null
			};
			const added = await trx
				.insertInto('run')
				.values(row)
				.onConflict((conflict) => conflict.column('id').doNothing())
				.executeTakeFirst();
			if (Number(added.numInsertedOrUpdatedRows) === 0) return false;
			const save = { run: id, version: 1, id: 'create', at, who, what: 'create' as const, edits: '[]' };
			await trx.insertInto('edit').values(save).execute();
			return true;
		})
	);
	const run = await getRun(store, id);
	if (!run) throw new Error(`run ${id} was made and is gone`);
	return { ok: true, run, made };
}
