import { DatabaseSync, type SQLInputValue } from 'node:sqlite';
import { SqliteDialect, type SqliteDatabase, type SqliteStatement } from 'kysely';

/**
 * Only scalars may be bound: node:sqlite takes a Date or an object in first place for a bag of named parameters
 * and shifts the others along without a word.
 */
function scalar(value: unknown): SQLInputValue {
	if (value === null || value === undefined) return null;
	if (typeof value === 'boolean') return value ? 1 : 0;
	if (typeof value === 'string' || typeof value === 'number' || typeof value === 'bigint') return value;
	if (value instanceof Uint8Array) return value;
	throw new TypeError(`SQLite stores text, numbers and bytes, not ${Object.prototype.toString.call(value)}`);
}

const scalars = (values: readonly unknown[]) => values.map(scalar);

/** Kysely's own words around a transaction, as SQLite has to hear them. */
function spoken(db: DatabaseSync, sql: string): string {
	// a deferred transaction that turns to writing fails at once when another process writes; an immediate one waits
	if (sql === 'begin') return 'begin immediate';
	// a full disk may have rolled back already, and a complaint about that would hide the reason
	return sql === 'rollback' && !db.isTransaction ? 'select 1' : sql;
}

function statement(db: DatabaseSync, sql: string): SqliteStatement {
	const prepared = db.prepare(spoken(db, sql));
	return {
		reader: prepared.columns().length > 0,
		// its rows have no prototype, which deep comparisons and some libraries trip over
		all: (values) => prepared.all(...scalars(values)).map((row) => ({ ...row })),
		run: (values) => prepared.run(...scalars(values)),
		*iterate(values) {
			for (const row of prepared.iterate(...scalars(values))) yield { ...row };
		}
	};
}

/** Opens or makes the file (or `:memory:`), set so that a commit that returned has reached the disk. */
export function openSqlite(path: string): DatabaseSync {
	const db = new DatabaseSync(path, { timeout: 5000, enableForeignKeyConstraints: true });
	try {
		db.exec('pragma journal_mode = wal; pragma synchronous = full; pragma trusted_schema = off;');
		return db;
	} catch (error) {
		db.close();
		throw error;
	}
}

/** Kysely on node:sqlite. Kysely itself lets one transaction at a time through the single connection. */
export function sqliteDialect(db: DatabaseSync): SqliteDialect {
	const database: SqliteDatabase = { prepare: (sql) => statement(db, sql), close: () => db.close() };
	return new SqliteDialect({ database });
}

/** Tells states of the file apart: what this connection has written, and what others have (SQLite's own counters). */
export function changesOf(db: DatabaseSync): () => string {
	const own = db.prepare('select total_changes() as n');
	const others = db.prepare('pragma data_version');
	return () => `${String(own.get()?.n)}/${String(others.get()?.data_version)}`;
}

const oneLine = (found: unknown) => String(found ?? 'no answer').replace(/\s+/g, ' ');

/** What SQLite finds wrong with the file, `null` when nothing. */
export function sqliteDamage(db: DatabaseSync): string | null {
	const [first] = db.prepare('pragma quick_check(1)').all();
	if (first?.quick_check !== 'ok') return oneLine(first?.quick_check);
	const [orphan] = db.prepare('pragma foreign_key_check').all();
	return orphan ? `a row of ${String(orphan.table)} belongs to nothing` : null;
}
