import { closeSync, copyFileSync, existsSync, fsyncSync, mkdirSync, mkdtempSync, openSync } from 'node:fs';
import { readdirSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { Kysely, type Transaction } from 'kysely';
import { calendarTables } from './caldav-tables.ts';
import { same } from '../run/index.ts';
import { replay } from './edits.ts';
import { faultOf, patiently } from './fault.ts';
import { keptDocument } from './kept.ts';
import { migrate } from './migrations.ts';
import { anyPeople } from './people.ts';
import { openSqlite, sqliteDamage, sqliteDialect } from './sqlite.ts';
import type { Store } from './store.ts';
import type { Tables } from './tables.ts';

/** Every table a backup holds, parents before children. */
export const tables = [
	'run',
	'edit',
	'log',
	'feed',
	'course',
	'photo',
	...calendarTables,
	'person',
	'audit'
] as const;
type Copied = (typeof tables)[number];
/** Who may enter, and what they did. A restore never changes it where somebody is named already. */
const ofPeople = new Set<Copied>(['person', 'audit']);

/** How much a backup holds. */
export interface Held {
	runs: number;
	saves: number;
	entries: number;
}

/**
 * Copies everything, as of one moment and while the app goes on writing, into a SQLite file, whichever engine the
 * store is on. The file appears whole or not at all, and was read back and checked before it does.
 */
export async function backup(store: Store, file: string): Promise<Held> {
	const part = `${file}.${process.pid}.part`;
	mkdirSync(dirname(file), { recursive: true });
	removeSqlite(part);
	try {
		await copyInto(store, part);
		const checked = await verifyBackup(part);
		if (!checked.ok) throw new Error(checked.sentence);
		sync(part);
		renameSync(part, file);
		return checked.held;
	} finally {
		removeSqlite(part);
	}
}

async function copyInto(store: Store, path: string): Promise<void> {
	const file = openSqlite(path);
	const db = new Kysely<Tables>({ dialect: sqliteDialect(file) });
	try {
		await migrate(db, 'sqlite', store.now());
		await patiently(() =>
			store.db
				.transaction()
				.setIsolationLevel('repeatable read')
				.execute((from) => db.transaction().execute((to) => copyRows(from, to)))
		);
		// one plain file, without a write-ahead log beside it
		file.exec('pragma journal_mode = delete');
	} finally {
		await db.destroy();
	}
}

/** Every row of the tables; what stood in `to` goes. */
async function copyRows(
	from: Transaction<Tables> | Kysely<Tables>,
	to: Transaction<Tables>,
	which: readonly Copied[] = tables
): Promise<void> {
	for (const table of which.toReversed()) await to.deleteFrom(table).execute();
	for (const table of which) {
		const rows = (await from.selectFrom(table).selectAll().execute()) as never[];
		for (const row of rows) await to.insertInto(table).values(row).execute();
	}
}

function sync(path: string): void {
	const handle = openSync(path, 'r+');
	fsyncSync(handle);
	closeSync(handle);
}

const removeSqlite = (path: string) =>
	['', '-wal', '-shm', '-journal'].forEach((end) => rmSync(path + end, { force: true }));

export type Checked = { ok: true; held: Held } | { ok: false; sentence: string };

/** Reads a backup through: whole file, known tables, each history leading to its document. The file is only read. */
export const verifyBackup = (file: string): Promise<Checked> =>
	withCopy(file, async (db) => verifyRows(db, file)).catch((error: unknown) => ({
		ok: false,
		sentence: `${file}: saw ${sentenceOf(error)}, expected a backup`
	}));

const sentenceOf = (error: unknown) =>
	(error instanceof Error ? error.message : String(error)).replace(/\s+/g, ' ');

/** Works on a copy, brought up to date, of a backup: one from an earlier version has fewer tables. */
async function withCopy<T>(file: string, act: (db: Kysely<Tables>) => Promise<T>): Promise<T> {
	if (!existsSync(file)) throw new Error('no such file');
	const folder = mkdtempSync(join(tmpdir(), 'lazaret-backup-'));
	try {
		copyFileSync(file, join(folder, 'copy.sqlite'));
		const opened = openSqlite(join(folder, 'copy.sqlite'));
		const db = new Kysely<Tables>({ dialect: sqliteDialect(opened) });
		try {
			const damage = sqliteDamage(opened);
			if (damage !== null) throw new Error(`a damaged file (${damage})`);
			const known = opened.prepare("select 1 from sqlite_master where name = 'run'").get();
			if (!known) throw new Error('another kind of file');
			await migrate(db, 'sqlite', 'restored');
			return await act(db);
		} finally {
			await db.destroy();
			if (opened.isOpen) opened.close();
		}
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
}

async function verifyRows(db: Kysely<Tables>, file: string): Promise<Checked> {
	const runs = await db.selectFrom('run').select(['id', 'original', 'document', 'version']).execute();
	let saves = 0;
	for (const run of runs) {
		const history = await db
			.selectFrom('edit')
			.select('edits')
			.where('run', '=', run.id)
			.orderBy('version')
			.execute();
		saves += history.length;
		const end = replay(
			keptDocument(run.original),
			history.map((row) => row.edits)
		);
		if (history.length !== run.version || !same(end, keptDocument(run.document))) {
			return {
				ok: false,
				sentence: `${file}: run ${run.id}: saw a history that does not lead to its document, expected a backup`
			};
		}
	}
	const { entries } = await db
		.selectFrom('log')
		.select((e) => e.fn.countAll().as('entries'))
		.executeTakeFirstOrThrow();
	return { ok: true, held: { runs: runs.length, saves, entries: Number(entries) } };
}

/**
 * Puts a backup in the place of everything, in one transaction, after it was verified and what it replaces was
 * kept as a backup of its own. Works while the app runs. Answers where the replaced data stands.
 */
export async function restoreBackup(
	store: Store,
	file: string
): Promise<{ ok: true; held: Held; kept: string } | { ok: false; sentence: string }> {
	const checked = await verifyBackup(file);
	if (!checked.ok) return checked;
	const kept = join(backupFolder(store.folder), `before-restore-${stamp(store.now())}.sqlite`);
	await backup(store, kept);
	// an old backup would let in whoever was sent away since, or everybody
	const which = (await anyPeople(store)) ? tables.filter((table) => !ofPeople.has(table)) : tables;
	await withCopy(file, (from) => store.db.transaction().execute((to) => copyRows(from, to, which)));
	return { ok: true, held: checked.held, kept };
}

export const backupFolder = (folder: string): string => join(folder, 'backups');
const stamp = (now: string) => now.slice(0, 19).replace(/[:T-]/g, '');
const daily = /^daily-(\d{14})\.sqlite$/;

/**
 * Makes the day's backup when the newest is a day old or older, and removes the oldest beyond `keep`. Call it at
 * start and every hour. Answers the file it made, null when none was due.
 */
export async function dailyBackup(store: Store, keep: number): Promise<string | null> {
	const folder = backupFolder(store.folder);
	mkdirSync(folder, { recursive: true });
	const names = readdirSync(folder)
		.filter((name) => daily.test(name))
		.sort();
	const dayAgo = stamp(new Date(Date.parse(store.now()) - 24 * 3_600_000).toISOString());
	const now = stamp(store.now());
	// one from the future was made before the clock was set back: it does not stand in the way
	const due = !names.some((name) => {
		const made = daily.exec(name)?.[1] ?? '';
		return made > dayAgo && made <= now;
	});
	if (!due || keep < 1) return null;
	const file = join(folder, `daily-${now}.sqlite`);
	await backup(store, file);
	for (const name of names.slice(0, Math.max(0, names.length + 1 - keep)))
		rmSync(join(folder, name), { force: true });
	return file;
}

/**
 * Makes the day's backup now and looks again every hour. `LAZARET_BACKUPS` says how many days are kept (14), 0
 * makes none. A failure is said once an hour and stops nothing. Answers how to end it.
 */
export function scheduleBackups(store: Store, env: Record<string, string | undefined>): () => void {
	const keep = /^\d{1,4}$/.test(env.LAZARET_BACKUPS ?? '') ? Number(env.LAZARET_BACKUPS) : 14;
	const look = () => {
		dailyBackup(store, keep).catch((error: unknown) => {
			console.error(`lazaret: no backup was made: ${faultOf(error)?.sentence ?? sentenceOf(error)}`);
		});
	};
	look();
	const timer = setInterval(look, 3_600_000);
	timer.unref();
	return () => clearInterval(timer);
}
