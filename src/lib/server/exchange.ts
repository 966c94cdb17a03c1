import type { Transaction } from 'kysely';
import { z } from 'zod';
import { same } from '../run/index.ts';
import { documentTrouble, editSchema, firstIssue, nameOf, type Document } from './document.ts';
import { courseSchema, keepCourse, listCourses, type StoredCourse } from './courses.ts';
import { replay } from './edits.ts';
import { entrySchema, idSchema } from './entries.ts';
import { patiently } from './fault.ts';
import { keptDocument, keptEdits, keptEntry } from './kept.ts';
import type { Tables } from './tables.ts';
import type { Store } from './store.ts';

/** Everything in the store as one JSON file, open to any program. */
export interface Everything {
	format: 'lazaret-all/1';
	exported: string;
	runs: ExportedRun[];
	/** what keepers saved as courses */
	courses: StoredCourse[];
}

interface ExportedRun {
	id: string;
	created: string;
	updated: string;
	deleted: string | null;
	/** the document of version 1, on which the history replays to `document` */
	original: unknown;
	document: unknown;
	version: number;
	history: { version: number; id: string; at: string; who: string; what: string; edits: unknown[] }[];
	log: unknown[];
	photos: { id: string; type: string; body: string; received: string; who: string }[];
}

/** All runs, deleted ones too, with history and log, as of one moment. */
export async function exportAll(store: Store): Promise<Everything> {
	const { rows, saves, entries, photos } = await patiently(() => snapshot(store));
	const history = Map.groupBy(saves, (save) => save.run);
	const logs = Map.groupBy(entries, (entry) => entry.run);
	const pictures = Map.groupBy(photos, (photo) => photo.run);
	const runs = rows.map((row) => ({
		...row,
		original: keptDocument(row.original) as unknown,
		document: keptDocument(row.document) as unknown,
		history: (history.get(row.id) ?? []).map(({ run: _run, edits, ...save }) => ({
			...save,
			edits: keptEdits(edits)
		})),
		log: (logs.get(row.id) ?? []).map((entry) => keptEntry(entry.body) as unknown),
		photos: (pictures.get(row.id) ?? []).map(({ run: _run, ...photo }) => photo)
	}));
	return { format: 'lazaret-all/1', exported: store.now(), runs, courses: await listCourses(store) };
}

function snapshot(store: Store) {
	return store.db
		.transaction()
		.setIsolationLevel('repeatable read')
		.execute(async (trx) => ({
			rows: await trx
				.selectFrom('run')
				.select(['id', 'created', 'updated', 'deleted', 'original', 'document', 'version'])
				.orderBy('created')
				.orderBy('id')
				.execute(),
			saves: await trx.selectFrom('edit').selectAll().orderBy('run').orderBy('version').execute(),
			entries: await trx
				.selectFrom('log')
				.select(['run', 'body'])
				.orderBy('run')
				.orderBy('at')
				.orderBy('id')
				.execute(),
			photos: await trx.selectFrom('photo').selectAll().orderBy('run').orderBy('id').execute()
		}));
}

const instant = z.iso.datetime({ offset: true });
const save = z.strictObject({
	version: z.int().min(1),
	id: idSchema,
	at: instant,
	who: z.string().min(1).max(100),
	what: z.enum(['create', 'edit', 'restore', 'delete', 'undelete', 'import']),
	edits: z.array(editSchema)
});
const photo = z.strictObject({
	id: idSchema,
	type: z.enum(['image/jpeg', 'image/png', 'image/webp']),
	body: z.base64(),
	received: instant,
	who: z.string().min(1).max(100)
});
const everything = z.strictObject({
	format: z.literal('lazaret-all/1'),
	exported: instant,
	runs: z.array(
		z.strictObject({
			id: idSchema,
			created: instant,
			updated: instant,
			deleted: instant.nullable(),
			original: z.json(),
			document: z.json(),
			version: z.int().min(1),
			history: z.array(save).min(1),
			log: z.array(z.unknown()).max(1_000_000),
			// exports of before pictures were kept have none
			photos: z.array(photo).max(10_000).default([])
		})
	),
	courses: z.array(courseSchema).max(10_000).optional()
});
type ReadRun = z.infer<typeof everything>['runs'][number];

/** What an import did, in runs and log entries. */
export interface Imported {
	added: number;
	/** runs whose history in the file went further than here */
	extended: number;
	kept: number;
	entries: number;
}

export type ImportAnswer = { ok: true; value: Imported } | { ok: false; sentence: string };

/**
 * Takes such a file in: runs that are new, the further history of those that are here, log entries that are new.
 * All of it or nothing; a run whose history parted from ours is refused by name. Doing it twice changes nothing.
 */
export async function importAll(store: Store, file: unknown, who: string): Promise<ImportAnswer> {
	const read = everything.safeParse(file);
	if (!read.success) return { ok: false, sentence: firstIssue(read.error) };
	for (const run of read.data.runs) {
		const trouble = runTrouble(run);
		if (trouble !== null) return { ok: false, sentence: `run ${run.id}: ${trouble}` };
	}
	const done: Imported = { added: 0, extended: 0, kept: 0, entries: 0 };
	try {
		await store.db.transaction().execute(async (trx) => {
			for (const run of read.data.runs) await takeRun(store, trx, run, who, done);
			for (const course of read.data.courses ?? []) await keepCourse({ ...store, db: trx }, course, who);
		});
	} catch (error) {
		if (error instanceof Parted) return { ok: false, sentence: error.message };
		throw error;
	}
	return { ok: true, value: done };
}

/** Rolls the import back. */
class Parted extends Error {}

/** What is wrong with one run of the file: its frame, its history, its log. */
function runTrouble(run: ReadRun): string | null {
	const frame = documentTrouble(run.original) ?? documentTrouble(run.document);
	if (frame !== null) return frame;
	if (run.history.length !== run.version || run.history.some((row, i) => row.version !== i + 1)) {
		return `history: expected the versions 1 to ${run.version}`;
	}
	if (new Set(run.history.map((row) => row.id)).size !== run.version)
		return 'history: saw an id twice, expected it once';
	const entries = z.array(entrySchema).safeParse(run.log);
	if (!entries.success) return `log.${firstIssue(entries.error)}`;
	if (!replaysTo(run)) return 'document: expected what its history leads to';
	return null;
}

function replaysTo(run: ReadRun): boolean {
	try {
		const edits = run.history.map((row) => JSON.stringify(row.edits));
		return same(replay(run.original as Document, edits), run.document);
	} catch {
		return false;
	}
}

async function takeRun(
	store: Store,
	trx: Transaction<Tables>,
	run: ReadRun,
	who: string,
	done: Imported
): Promise<void> {
	const here = await trx
		.selectFrom('edit')
		.select(['version', 'id'])
		.where('run', '=', run.id)
		.orderBy('version')
		.execute();
	const parted = here.find((row, i) => i < run.version && row.id !== run.history[i]?.id);
	if (parted)
		throw new Parted(`run ${run.id}: its history here is another from version ${parted.version} on`);
	const { id, created, updated, deleted, version } = run;
	const name = nameOf(run.document as Document);
	const state = { name, document: JSON.stringify(run.document), version, updated, deleted };
	if (here.length === 0) {
		await trx
			.insertInto('run')
			.values({ id, created, original: JSON.stringify(run.original), ...state })
			.execute();
		done.added++;
	} else if (version > here.length) {
		await trx.updateTable('run').set(state).where('id', '=', id).execute();
		done.extended++;
	} else done.kept++;
	for (const { edits, ...save } of run.history.slice(here.length)) {
		await trx
			.insertInto('edit')
			.values({ run: id, ...save, edits: JSON.stringify(edits) })
			.execute();
	}
	for (const body of run.log as { id: string; at: string; kind: string }[]) {
		const entry = {
			run: id,
			id: body.id,
			at: body.at,
			kind: body.kind,
			body: JSON.stringify(body),
			received: store.now(),
			who
		};
		const added = await trx
			.insertInto('log')
			.values(entry)
			.onConflict((conflict) => conflict.columns(['run', 'id']).doNothing())
			.executeTakeFirst();
		done.entries += Number(added.numInsertedOrUpdatedRows);
	}
	for (const picture of run.photos) {
		await trx
			.insertInto('photo')
			.values({ run: id, ...picture })
			.onConflict((conflict) => conflict.column('id').doNothing())
			.execute();
	}
}
