import type { Transaction } from 'kysely';
import type { Tables } from './tables.ts';

/** Parents before children. */
export const calendarTables = [
	'calendar_account',
	'calendar_item',
	'calendar_proposal',
	'calendar_note',
	'calendar_file'
] as const;

/** The step that makes room for calendar servers and for what was exported; released, so never changed. */
export async function calendarServers(db: Transaction<Tables>): Promise<void> {
	await db.schema
		.createTable('calendar_account')
		.addColumn('id', 'text', (column) => column.primaryKey())
		.addColumn('server', 'text', (column) => column.notNull())
		.addColumn('user', 'text', (column) => column.notNull())
		.addColumn('sealed', 'text', (column) => column.notNull())
		.addColumn('collection', 'text', (column) => column.notNull().unique())
		.addColumn('name', 'text', (column) => column.notNull())
		.addColumn('kind', 'text', (column) => column.notNull())
		.addColumn('scope', 'text', (column) => column.notNull())
		.addColumn('every', 'integer', (column) => column.notNull())
		.addColumn('token', 'text')
		.addColumn('created', 'text', (column) => column.notNull())
		.addColumn('looked', 'text')
		.addColumn('trouble', 'text')
		.addColumn('failures', 'integer', (column) => column.notNull())
		.addColumn('next', 'text')
		.addColumn('question', 'text')
		.addColumn('busy', 'text')
		.execute();
	await db.schema
		.createTable('calendar_item')
		.addColumn('account', 'text', (column) => column.notNull().references('calendar_account.id'))
		.addColumn('uid', 'text', (column) => column.notNull())
		.addColumn('run', 'text', (column) => column.notNull())
		.addColumn('task', 'text', (column) => column.notNull())
		.addColumn('href', 'text', (column) => column.notNull())
		.addColumn('etag', 'text')
		.addColumn('body', 'text')
		.addColumn('sequence', 'integer', (column) => column.notNull())
		.addColumn('modified', 'text', (column) => column.notNull())
		.addColumn('timing', 'text', (column) => column.notNull())
		.addColumn('content', 'text', (column) => column.notNull())
		.addColumn('gone', 'text')
		.addColumn('amount', 'text')
		.addColumn('medicine', 'text')
		.addColumn('stale', 'integer', (column) => column.notNull())
		.addPrimaryKeyConstraint('calendar_item_uid', ['account', 'uid'])
		.execute();
	await db.schema
		.createTable('calendar_proposal')
		.addColumn('id', 'text', (column) => column.primaryKey())
		.addColumn('account', 'text', (column) => column.notNull().references('calendar_account.id'))
		.addColumn('run', 'text', (column) => column.notNull())
		.addColumn('task', 'text', (column) => column.notNull())
		.addColumn('title', 'text', (column) => column.notNull())
		.addColumn('was', 'text', (column) => column.notNull())
		.addColumn('day', 'text', (column) => column.notNull())
		.addColumn('made', 'text', (column) => column.notNull())
		.addColumn('state', 'text', (column) => column.notNull())
		.addColumn('decided', 'text')
		.execute();
	await db.schema
		.createTable('calendar_note')
		.addColumn('id', 'text', (column) => column.primaryKey())
		.addColumn('account', 'text', (column) => column.notNull().references('calendar_account.id'))
		.addColumn('at', 'text', (column) => column.notNull())
		.addColumn('way', 'text', (column) => column.notNull())
		.addColumn('sentence', 'text', (column) => column.notNull())
		.execute();
	await db.schema
		.createTable('calendar_file')
		.addColumn('run', 'text', (column) => column.primaryKey())
		.addColumn('body', 'text', (column) => column.notNull())
		.execute();
}

/** The step that lets an object stand for a whole service; released, so never changed. */
export async function calendarServices(db: Transaction<Tables>): Promise<void> {
	await db.schema.alterTable('calendar_item').addColumn('jobs', 'text').execute();
}
