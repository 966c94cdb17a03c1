import type { Transaction } from 'kysely';
import { readRun } from '../run/index.ts';
import { patiently } from './fault.ts';
import { keptDocument, keptEntry } from './kept.ts';
import { getRun } from './runs.ts';
import type { Store } from './store.ts';
import type { Tables } from './tables.ts';

/** An entry as the plan file writes it: `id`, `at`, `kind`, and what that kind says. */
export type Entry = { id: string; at: string; kind: string } & Record<string, unknown>;

/** `added` counts what was new; a refusal names the entry and what about it cannot be read. */
export type Logged = { ok: true; added: number } | { ok: false; sentence: string };

/**
 * Adds entries, each once: an id the run already has is passed over, so that a client may send again what it is
 * not sure about. All or none are added. Null when there is no such run.
 */
export const appendLog = (
	store: Store,
	run: string,
	entries: readonly Entry[],
	who: string
): Promise<Logged | null> =>
	patiently(() => store.db.transaction().execute((trx) => appendLogIn(store, trx, run, entries, who)));

/** The same as a part of something larger that is written as a whole or not at all. */
export async function appendLogIn(
	store: Store,
	trx: Transaction<Tables>,
	run: string,
	entries: readonly Entry[],
	who: string
): Promise<Logged | null> {
	const row = await trx.selectFrom('run').select('document').where('id', '=', run).executeTakeFirst();
	if (!row) return null;
	const fresh = await unknownOf(trx, run, entries);
	if (fresh.length === 0) return { ok: true, added: 0 };
	const beside = await namedBy(trx, run, fresh);
	const trouble = entriesTrouble(keptDocument(row.document), beside, fresh);
	if (trouble !== null) return { ok: false, sentence: trouble };
	const received = store.now();
	let added = 0;
	for (const entry of fresh) {
		const { id, at, kind } = entry;
		const values = { run, id, at, kind, body: JSON.stringify(entry), received, who };
		// on PostgreSQL another app may have added the same one since the look above
		const done = await trx
			.insertInto('log')
			.values(values)
			.onConflict((conflict) => conflict.columns(['run', 'id']).doNothing())
			.executeTakeFirst();
		added += Number(done.numInsertedOrUpdatedRows);
	}
	return { ok: true, added };
}

/** The entries the run has not yet, each once. */
async function unknownOf(trx: Transaction<Tables>, run: string, entries: readonly Entry[]): Promise<Entry[]> {
	const ids = entries.map((entry) => entry.id);
	if (ids.length === 0) return [];
	const known = await trx
		.selectFrom('log')
		.select('id')
		.where('run', '=', run)
		.where('id', 'in', ids)
		.execute();
	const seen = new Set(known.map((row) => row.id));
	return entries.filter((entry) => !seen.has(entry.id) && seen.add(entry.id));
}

/**
 * The earlier entries that new ones may speak of: those they correct, fish that joined, left or died, and corrections.
 * A long log is not read whole.
 */
async function namedBy(trx: Transaction<Tables>, run: string, fresh: readonly Entry[]): Promise<Entry[]> {
	const corrected = fresh.flatMap(({ entry }) => (typeof entry === 'string' ? [entry] : []));
	const rows = await trx
		.selectFrom('log')
		.select('body')
		.where('run', '=', run)
		.where((where) =>
			where.or([
				where('kind', 'in', ['fish', 'loss', 'correct']),
				where('id', 'in', corrected.length > 0 ? corrected : [''])
			])
		)
		.execute();
	return inOrder(rows.map(({ body }) => keptEntry(body)));
}

/** What the first of the new entries that cannot be read says wrong, beside the run and the entries it has. */
function entriesTrouble(document: object, known: readonly Entry[], fresh: readonly Entry[]): string | null {
	const { problems } = readRun({ ...document, log: [...known, ...fresh] }, { today: null });
	for (const { cell, seen, expected } of problems) {
		const entry = fresh.find(({ id }) => cell === `log.${id}` || cell.startsWith(`log.${id}.`));
		const key = entry && cell.slice(`log.${entry.id}.`.length);
		if (entry) return `${entry.id}: ${key ? `${key}: ` : ''}saw ${seen || 'nothing'}, expected ${expected}`;
	}
	return null;
}

/** A run's entries, in the order they happened: by instant, then id. */
export async function readLog(store: Store, run: string): Promise<Entry[]> {
	const rows = await patiently(() =>
		store.db.selectFrom('log').select('body').where('run', '=', run).execute()
	);
	return inOrder(rows.map((row) => keptEntry(row.body)));
}

/** Who sent each entry of a run. */
export const logWriters = (store: Store, run: string): Promise<{ id: string; who: string }[]> =>
	patiently(() => store.db.selectFrom('log').select(['id', 'who']).where('run', '=', run).execute());

/** Every run's entries at once, or those of the runs that are named, by run id. */
export async function readLogs(store: Store, runs?: readonly string[]): Promise<Map<string, Entry[]>> {
	const rows = await patiently(() => {
		const query = store.db.selectFrom('log').select(['run', 'body']);
		return (runs ? query.where('run', 'in', runs) : query).execute();
	});
	const logs = Map.groupBy(rows, (row) => row.run);
	return new Map([...logs].map(([run, own]) => [run, inOrder(own.map((row) => keptEntry(row.body)))]));
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
