import { existsSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { Kysely, PostgresDialect } from 'kysely';
import pg from 'pg';
import { faultOf, isAway } from './fault.ts';
import { migrate } from './migrations.ts';
import { dataFolder, makeDataFolder } from './place.ts';
import { changesOf, openSqlite, sqliteDamage, sqliteDialect } from './sqlite.ts';
import type { Tables } from './tables.ts';

/** An open store. The verbs of this room take it as their first argument. */
export interface Store {
	db: Kysely<Tables>;
	engine: 'sqlite' | 'postgres';
	/** where backups and, on SQLite, the data stand */
	folder: string;
	/** the clock, so that tests can turn it; ISO 8601, UTC */
	now: () => string;
	/** another answer once anything was written, here or by another process; null where the engine does not say */
	changes: () => string | null;
	close: () => Promise<void>;
}

/** The name of the data inside the folder. */
export const sqliteName = 'lazaret.sqlite';

export interface StoreOptions {
	databaseUrl?: string;
	folder: string;
	now?: () => string;
}

/** The store the environment names: `DATABASE_URL` for PostgreSQL, else a file in the data folder. */
export const storeOptions = (env: Record<string, string | undefined>): StoreOptions => ({
	folder: dataFolder(env),
	...(env.DATABASE_URL ? { databaseUrl: env.DATABASE_URL } : {})
});

/** Opens, checks and migrates the store. Every trouble is an error whose message is one plain sentence. */
export async function openStore(options: StoreOptions): Promise<Store> {
	const now = options.now ?? (() => new Date().toISOString());
	makeDataFolder(options.folder);
	const store = options.databaseUrl
		? openPostgres(options.databaseUrl, options.folder, now)
		: openFile(options.folder, now);
	try {
		await migrate(store.db, store.engine, now());
		return store;
	} catch (error) {
		await store.close();
		throw new Error(startSentence(error), { cause: error });
	}
}

function openFile(folder: string, now: () => string): Store {
	const path = join(folder, sqliteName);
	const file = checkedFile(path);
	const db = new Kysely<Tables>({ dialect: sqliteDialect(file) });
	const close = async () => {
		await db.destroy();
		// a store that was never asked anything is not closed by Kysely
		if (file.isOpen) file.close();
	};
	return { db, engine: 'sqlite', folder, now, changes: changesOf(file), close };
}

function checkedFile(path: string): ReturnType<typeof openSqlite> {
	const known = existsSync(path);
	let file;
	try {
		file = openSqlite(path);
		const damage = known ? sqliteDamage(file) : null;
		if (damage === null) return file;
		file.close();
		throw new Error(damage);
	} catch (error) {
		throw openTrouble(path, error);
	}
}

/** The file is damaged: the message says so and names the way back. */
class DamagedStore extends Error {}

function openTrouble(path: string, error: unknown): Error {
	const { message, errstr } = error as { message: string; errstr?: string };
	const fault = faultOf(error);
	if (fault && fault.code !== 'damaged') {
		return new Error(`${path}: ${decapitalised(fault.sentence)}`, { cause: error });
	}
	const back = '"npm run -s lazaret -- restore BACKUP" puts a backup in its place and keeps the damaged file';
	const detail = errstr ?? message;
	return new DamagedStore(`the data in ${path} is damaged (${detail}): it was left as it is; ${back}`, {
		cause: error
	});
}

const decapitalised = (sentence: string) =>
	sentence.charAt(0).toLowerCase() + sentence.slice(1).replace(/\.$/, '');

/**
 * Opens the store for a restore: a damaged file is moved aside, into the same folder, and an empty one takes its
 * place. Answers where it went, null when nothing was wrong.
 */
export async function openForRestore(options: StoreOptions): Promise<{ store: Store; aside: string | null }> {
	try {
		return { store: await openStore(options), aside: null };
	} catch (error) {
		if (!(error instanceof DamagedStore)) throw error;
		const path = join(options.folder, sqliteName);
		const aside = `${path}.damaged-${Date.now()}`;
		for (const end of ['', '-wal', '-shm']) if (existsSync(path + end)) renameSync(path + end, aside + end);
		return { store: await openStore(options), aside };
	}
}

function openPostgres(url: string, folder: string, now: () => string): Store {
	if (!/^postgres(ql)?:\/\//.test(url) || !URL.canParse(url)) {
		throw new Error(
			'DATABASE_URL: saw something else, expected an address such as postgres://USER@HOST/NAME'
		);
	}
	const pool = new pg.Pool({ connectionString: url, max: 10, connectionTimeoutMillis: 5000 });
	// A connection that the server drops says so by an event, idle or in use between two questions. Unheard it would
	// end the process; the question that meets the broken connection fails by itself and is asked again.
	pool.on('error', () => undefined);
	pool.on('connect', (client) => client.on('error', () => undefined));
	const db = new Kysely<Tables>({ dialect: new PostgresDialect({ pool }) });
	let closed: Promise<void> | undefined;
	const end = async () => {
		await db.destroy();
		if (!pool.ended) await pool.end();
	};
	return { db, engine: 'postgres', folder, now, changes: () => null, close: () => (closed ??= end()) };
}

function startSentence(error: unknown): string {
	const { code, message } = error as { code?: string; message: string };
	if (isAway(error))
		return `the database of DATABASE_URL does not answer (${code ?? message}): is PostgreSQL running there?`;
	if (code?.startsWith('28')) return 'the database of DATABASE_URL refuses the user or the password it names';
	const fault = faultOf(error);
	return fault ? decapitalised(fault.sentence) : message;
}
