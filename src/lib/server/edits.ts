import type { Transaction } from 'kysely';
import { rebase, same, type Clash, type Edit } from '../run/index.ts';
import { makeEdits, nameOf, type Document } from './document.ts';
import { patiently } from './fault.ts';
import { keptDocument, keptEdits, Spoiled } from './kept.ts';
import type { Store } from './store.ts';
import type { SaveKind, Tables } from './tables.ts';

export interface Save {
	/** by the client, once per run: the same save sent again changes nothing */
	id: string;
	/** the version the edits were made on */
	base: number;
	edits: readonly Edit[];
	who: string;
}

/** Every save after a version, in order, whoever made it, and the document it led to. */
export interface News {
	version: number;
	document: Document;
	saves: Told[];
}
type Told = Pick<HistoryRow, 'version' | 'who' | 'at' | 'edits'> & { id: string };

/** `news` since `base`, the save itself included, is null when nobody else saved meanwhile and it was not known. */
export type Saved =
	| { kind: 'saved'; version: number; news: News | null }
	| { kind: 'clash'; news: News; sentence: string; clashes: Clash[] }
	| { kind: 'refused'; sentence: string }
	| { kind: 'no-run' };

type Row = { document: string; version: number; deleted: string | null };

const sameCell = 'someone else changed the same cell';

/**
 * Saves edits as one new version. Edits on an older version are carried past what others saved since; only when
 * both touched the same cell, or both sides do not fit together, is nothing saved, and the answer holds what they did.
 */
export const saveEdits = (store: Store, run: string, save: Save): Promise<Saved> =>
	patiently(() => store.db.transaction().execute((trx) => saveEditsIn(store, trx, run, save)));

/** The same as a part of something larger that is written as a whole or not at all. */
export async function saveEditsIn(
	store: Store,
	trx: Transaction<Tables>,
	run: string,
	save: Save
): Promise<Saved> {
	const row = await lockedRun(store, trx, run);
	if (!row || row.deleted !== null) return { kind: 'no-run' };
	if (save.base < 1 || save.base > row.version) {
		return { kind: 'refused', sentence: `base: saw ${save.base}, expected 1 to ${row.version}` };
	}
	const since = await savesAfter(trx, run, save.base);
	const document = keptDocument(row.document);
	const others = since.filter((other) => other.id !== save.id);
	const told = { version: row.version, document, saves: since };
	const news = others.length > 0 ? told : null;
	if (since.length > others.length || (await isKnown(trx, run, save.id)))
		return { kind: 'saved', version: row.version, news: since.length > 0 ? told : null };
	const moved = rebase(
		save.edits,
		others.flatMap((other) => other.edits)
	);
	if (news && !moved.ok) return { kind: 'clash', news, sentence: sameCell, clashes: moved.clashes };
	const made = makeEdits(document, moved.ok ? moved.edits : save.edits);
	// what does not fit beside the others' saves may fit once it is made with them in sight
	if (news && !made.ok) return { kind: 'clash', news, sentence: made.sentence, clashes: [] };
	if (!made.ok) return { kind: 'refused', sentence: made.sentence };
	const version = row.version + 1;
	const { id, who } = save;
	const { edits } = made;
	const at = await writeVersion(store, trx, run, version, { id, who, what: 'edit', edits }, made.document);
	const saves = [...since, { version, id, who, at, edits }];
	return { kind: 'saved', version, news: news && { version, document: made.document, saves } };
}

/** What was saved since a version, and where that led; null when nothing was, or there is no such run. */
export async function editsSince(store: Store, run: string, version: number): Promise<News | null> {
	const read = () =>
		store.db.transaction().execute(async (trx) => {
			const row = await trx
				.selectFrom('run')
				.select(['document', 'version'])
				.where('id', '=', run)
				.where('version', '>', version)
				.executeTakeFirst();
			if (!row) return null;
			const saves = await savesAfter(trx, run, version);
			return { version: row.version, document: keptDocument(row.document), saves };
		});
	return patiently(read);
}

/** The run's row, held against other writers until the transaction ends. */
export function lockedRun(store: Store, trx: Transaction<Tables>, run: string): Promise<Row | undefined> {
	const query = trx.selectFrom('run').select(['document', 'version', 'deleted']).where('id', '=', run);
	// on SQLite the transaction already holds the only write lock
	return (store.engine === 'postgres' ? query.forUpdate() : query).executeTakeFirst();
}

async function savesAfter(trx: Transaction<Tables>, run: string, version: number): Promise<Told[]> {
	const rows = await trx
		.selectFrom('edit')
		.select(['version', 'id', 'who', 'at', 'edits'])
		.where('run', '=', run)
		.where('version', '>', version)
		.orderBy('version')
		.execute();
	return rows.map((row) => ({ ...row, edits: keptEdits(row.edits) }));
}

async function isKnown(trx: Transaction<Tables>, run: string, id: string): Promise<boolean> {
	const row = await trx
		.selectFrom('edit')
		.select('version')
		.where('run', '=', run)
		.where('id', '=', id)
		.executeTakeFirst();
	return row !== undefined;
}

async function writeVersion(
	store: Store,
	trx: Transaction<Tables>,
	run: string,
	version: number,
	save: { id: string; who: string; what: SaveKind; edits: readonly Edit[] },
	document: Document
): Promise<string> {
	const at = store.now();
	const { id, who, what } = save;
	await trx
		.insertInto('edit')
		.values({ run, version, id, at, who, what, edits: JSON.stringify(save.edits) })
		.execute();
	await trx
		.updateTable('run')
		.set({ document: JSON.stringify(document), name: nameOf(document), version, updated: at })
		.where('id', '=', run)
		.execute();
	return at;
}

/** One save of the past. */
export interface HistoryRow {
	version: number;
	at: string;
	who: string;
	what: SaveKind;
	edits: Edit[];
}

/** The saves of a run, the latest first, at most `limit` of those before version `before`. */
export async function history(
	store: Store,
	run: string,
	limit = 200,
	before?: number
): Promise<HistoryRow[]> {
	const rows = await patiently(() => {
		const query = store.db
			.selectFrom('edit')
			.select(['version', 'at', 'who', 'what', 'edits'])
			.where('run', '=', run)
			.orderBy('version', 'desc')
			.limit(limit);
		return (before === undefined ? query : query.where('version', '<', before)).execute();
	});
	return rows.map((row) => ({ ...row, edits: keptEdits(row.edits) }));
}

/** The document as of any version, by replaying the history on the original; null when there was no such version. */
export async function documentAt(store: Store, run: string, version: number): Promise<Document | null> {
	const row = await patiently(() =>
		store.db.selectFrom('run').select(['original', 'version']).where('id', '=', run).executeTakeFirst()
	);
	if (!row || version < 1 || version > row.version) return null;
	const saves = await patiently(() =>
		store.db
			.selectFrom('edit')
			.select('edits')
			.where('run', '=', run)
			.where('version', '<=', version)
			.orderBy('version')
			.execute()
	);
	return replay(
		keptDocument(row.original),
		saves.map((save) => save.edits)
	);
}

/** The saves' edits (JSON text, in order of version) made on a document. Throws when one of them leads nowhere. */
export function replay(original: Document, saves: readonly string[]): Document {
	return saves.reduce((document, edits) => {
		const made = makeEdits(document, keptEdits(edits));
		if (!made.ok) throw new Spoiled(made.sentence);
		return made.document;
	}, original);
}

/** Makes an earlier version the newest again, as a save of its own: what came between stays in the history. */
export async function restoreVersion(
	store: Store,
	run: string,
	version: number,
	by: { id: string; who: string }
): Promise<Saved> {
	const then = await documentAt(store, run, version);
	if (!then) return { kind: 'no-run' };
	return patiently(() =>
		store.db.transaction().execute(async (trx): Promise<Saved> => {
			const row = await lockedRun(store, trx, run);
			if (!row) return { kind: 'no-run' };
			if (await isKnown(trx, run, by.id)) return { kind: 'saved', version: row.version, news: null };
			const edits = between(keptDocument(row.document), then);
			await writeVersion(store, trx, run, row.version + 1, { ...by, what: 'restore', edits }, then);
			return { kind: 'saved', version: row.version + 1, news: null };
		})
	);
}

/** Edits, one per top-level key that differs, that turn one document into the other. */
function between(from: Document, to: Document): Edit[] {
	const keys = new Set([...Object.keys(from), ...Object.keys(to)]);
	return [...keys]
		.filter((key) => !same(from[key], to[key]))
		.map((key) => ({
			path: [key],
			...(key in to ? { to: to[key] } : {}),
			...(key in from ? { was: from[key] } : {})
		}));
}

/** Takes a run off the lists, or puts it back. Nothing is erased. */
export function setDeleted(
	store: Store,
	run: string,
	deleted: boolean,
	by: { id: string; who: string }
): Promise<boolean> {
	return patiently(() =>
		store.db.transaction().execute(async (trx) => {
			const row = await lockedRun(store, trx, run);
			if (!row) return false;
			if ((row.deleted !== null) === deleted || (await isKnown(trx, run, by.id))) return true;
			const what = deleted ? 'delete' : 'undelete';
			const document = keptDocument(row.document);
			await writeVersion(store, trx, run, row.version + 1, { ...by, what, edits: [] }, document);
			await trx
				.updateTable('run')
				.set({ deleted: deleted ? store.now() : null })
				.where('id', '=', run)
				.execute();
			return true;
		})
	);
}
