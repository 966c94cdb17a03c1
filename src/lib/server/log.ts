import { patiently } from './fault.ts';
import { getRun } from './runs.ts';
import type { Store } from './store.ts';

/** An entry as the plan file writes it: `id`, `at`, `kind`, and what that kind says. */
export type Entry = { id: string; at: string; kind: string } & Record<string, unknown>;

/**
 * Adds entries, each once: an id the run already has is passed over, so that a client may send again what it is
 * not sure about. All or none are added. Answers how many were new; null when there is no such run.
 */
export function appendLog(
	store: Store,
	run: string,
	entries: readonly Entry[],
	who: string
): Promise<number | null> {
	const received = store.now();
	return patiently(() =>
		store.db.transaction().execute(async (trx) => {
			const known = await trx.selectFrom('run').select('id').where('id', '=', run).executeTakeFirst();
			if (!known) return null;
			let added = 0;
			// one at a time: the same id may stand twice in one sending
			for (const entry of entries) {
				const { id, at, kind } = entry;
				const row = { run, id, at, kind, body: JSON.stringify(entry), received, who };
				const done = await trx
					.insertInto('log')
					.values(row)
					.onConflict((conflict) => conflict.columns(['run', 'id']).doNothing())
					.executeTakeFirst();
				added += Number(done.numInsertedOrUpdatedRows);
			}
			return added;
		})
	);
}

/** A run's entries, in the order they happened: by instant, then id. */
export async function readLog(store: Store, run: string): Promise<Entry[]> {
	const rows = await patiently(() =>
		store.db.selectFrom('log').select('body').where('run', '=', run).execute()
	);
	return inOrder(rows.map((row) => JSON.parse(row.body) as Entry));
}

/** Every run's entries at once, by run id. */
export async function readLogs(store: Store): Promise<Map<string, Entry[]>> {
	const rows = await patiently(() => store.db.selectFrom('log').select(['run', 'body']).execute());
	const logs = Map.groupBy(rows, (row) => row.run);
	return new Map(
		[...logs].map(([run, own]) => [run, inOrder(own.map((row) => JSON.parse(row.body) as Entry))])
	);
}

function inOrder(entries: Entry[]): Entry[] {
	return entries
		.map((entry) => ({ entry, atMs: Date.parse(entry.at) }))
		.sort((a, b) => a.atMs - b.atMs || (a.entry.id < b.entry.id ? -1 : 1))
		.map(({ entry }) => entry);
}

/** A run as one plan file, its log joined; null when there is no such run. */
export async function planFileOf(store: Store, run: string): Promise<Record<string, unknown> | null> {
	const stored = await getRun(store, run);
	return stored ? { id: run, ...stored.document, log: await readLog(store, run) } : null;
}
