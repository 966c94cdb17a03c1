import { sql, type Kysely, type Transaction } from 'kysely';
import { calendarServers, calendarServices } from './caldav-tables.ts';
import type { Tables } from './tables.ts';

type Step = (db: Transaction<Tables>) => Promise<void>;

/** Forward only: a step that has been released is never changed, a new one is added below it. */
export const steps: Record<string, Step> = {
	'1-runs': async (db) => {
		await db.schema
			.createTable('run')
			.addColumn('id', 'text', (column) => column.primaryKey())
			.addColumn('name', 'text', (column) => column.notNull())
			.addColumn('document', 'text', (column) => column.notNull())
			.addColumn('original', 'text', (column) => column.notNull())
			.addColumn('version', 'integer', (column) => column.notNull())
			.addColumn('created', 'text', (column) => column.notNull())
			.addColumn('updated', 'text', (column) => column.notNull())
			.addColumn('deleted', 'text')
			.execute();
		await db.schema
			.createTable('edit')
			.addColumn('run', 'text', (column) => column.notNull().references('run.id'))
			.addColumn('version', 'integer', (column) => column.notNull())
			.addColumn('id', 'text', (column) => column.notNull())
			.addColumn('at', 'text', (column) => column.notNull())
			.addColumn('who', 'text', (column) => column.notNull())
			.addColumn('what', 'text', (column) => column.notNull())
			.addColumn('edits', 'text', (column) => column.notNull())
			.addPrimaryKeyConstraint('edit_version', ['run', 'version'])
			.addUniqueConstraint('edit_id', ['run', 'id'])
			.execute();
		await db.schema
			.createTable('log')
			.addColumn('run', 'text', (column) => column.notNull().references('run.id'))
			.addColumn('id', 'text', (column) => column.notNull())
			.addColumn('at', 'text', (column) => column.notNull())
			.addColumn('kind', 'text', (column) => column.notNull())
			.addColumn('body', 'text', (column) => column.notNull())
			.addColumn('received', 'text', (column) => column.notNull())
			.addColumn('who', 'text', (column) => column.notNull())
			.addPrimaryKeyConstraint('log_id', ['run', 'id'])
			.execute();
	},
	'2-feeds': async (db) => {
		await db.schema
			.createTable('feed')
			.addColumn('id', 'text', (column) => column.primaryKey())
			.addColumn('name', 'text', (column) => column.notNull())
			.addColumn('scope', 'text', (column) => column.notNull())
			.addColumn('secret', 'text', (column) => column.notNull().unique())
			.addColumn('created', 'text', (column) => column.notNull())
			.addColumn('identity', 'text', (column) => column.notNull())
			.addColumn('body', 'text')
			.addColumn('etag', 'text')
			.addColumn('changed', 'text')
			.addColumn('left_out', 'text')
			.execute();
	},
	'3-people': async (db) => {
		await db.schema
			.createTable('person')
			.addColumn('id', 'text', (column) => column.primaryKey())
			.addColumn('name', 'text', (column) => column.notNull())
			.addColumn('folded', 'text', (column) => column.notNull().unique())
			.addColumn('role', 'text', (column) => column.notNull())
			.addColumn('pass', 'text', (column) => column.notNull())
			.addColumn('created', 'text', (column) => column.notNull())
			.execute();
		await db.schema
			.createTable('session')
			.addColumn('id', 'text', (column) => column.primaryKey())
			.addColumn('token', 'text', (column) => column.notNull().unique())
			.addColumn('person', 'text', (column) => column.notNull().references('person.id'))
			.addColumn('created', 'text', (column) => column.notNull())
			.addColumn('seen', 'text', (column) => column.notNull())
			.addColumn('device', 'text', (column) => column.notNull())
			.execute();
		await db.schema
			.createTable('attempt')
			.addColumn('hole', 'text', (column) => column.primaryKey())
			.addColumn('failed', 'integer', (column) => column.notNull())
			.addColumn('last', 'text', (column) => column.notNull())
			.addColumn('until', 'text', (column) => column.notNull())
			.execute();
		await db.schema
			.createTable('audit')
			.addColumn('id', 'text', (column) => column.primaryKey())
			.addColumn('at', 'text', (column) => column.notNull())
			.addColumn('who', 'text', (column) => column.notNull())
			.addColumn('what', 'text', (column) => column.notNull())
			.addColumn('about', 'text', (column) => column.notNull())
			.addColumn('address', 'text', (column) => column.notNull())
			.execute();
		await db.schema.createIndex('audit_at').on('audit').column('at').execute();
	},
	'4-courses': async (db) => {
		await db.schema
			.createTable('course')
			.addColumn('id', 'text', (column) => column.primaryKey())
			.addColumn('name', 'text', (column) => column.notNull())
			.addColumn('phases', 'text', (column) => column.notNull())
			.addColumn('created', 'text', (column) => column.notNull())
			.addColumn('who', 'text', (column) => column.notNull())
			.execute();
	},
	'5-photos': async (db) => {
		await db.schema
			.createTable('photo')
			.addColumn('id', 'text', (column) => column.primaryKey())
			.addColumn('run', 'text', (column) => column.notNull().references('run.id'))
			.addColumn('type', 'text', (column) => column.notNull())
			.addColumn('body', 'text', (column) => column.notNull())
			.addColumn('received', 'text', (column) => column.notNull())
			.addColumn('who', 'text', (column) => column.notNull())
			.execute();
		await db.schema.createIndex('photo_run').on('photo').column('run').execute();
	},
	'6-calendar-servers': calendarServers,
	'7-calendar-services': calendarServices
};

/** Any number, the same in every version: who holds it migrates. */
const lockKey = 7_431_905;

/**
 * Brings the tables up to date in one transaction, under a lock that keeps a second process out. Throws a
 * sentence when the store was written by a newer version of the app. `upTo` lists the steps to go, by default all.
 */
export async function migrate(
	db: Kysely<Tables>,
	engine: 'sqlite' | 'postgres',
	now: string,
	upTo: readonly string[] = Object.keys(steps)
): Promise<void> {
	await db.transaction().execute(async (trx) => {
		// on SQLite the transaction itself, begun immediate, is the lock
		if (engine === 'postgres') await sql`select pg_advisory_xact_lock(${sql.lit(lockKey)})`.execute(trx);
		await trx.schema
			.createTable('migration')
			.ifNotExists()
			.addColumn('name', 'text', (column) => column.primaryKey())
			.addColumn('applied', 'text', (column) => column.notNull())
			.execute();
		const done = (await trx.selectFrom('migration').select('name').execute()).map((row) => row.name);
		const unknown = done.find((name) => !Object.hasOwn(steps, name));
		if (unknown !== undefined) {
			throw new Error(
				`the store was written by a newer version of this app (${unknown}): start that one instead`
			);
		}
		for (const [name, step] of Object.entries(steps)) {
			if (done.includes(name) || !upTo.includes(name)) continue;
			await step(trx);
			await trx.insertInto('migration').values({ name, applied: now }).execute();
		}
	});
}
