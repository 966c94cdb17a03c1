import { randomUUID } from 'node:crypto';
import { z } from 'zod';
import type { ObjectKind } from '../calendar/index.ts';
import { boundedFetch, serverAddress } from './caldav-fetch.ts';
import type { Collection } from './caldav-collection.ts';
import { seal, unseal } from './caldav-key.ts';
import { scopeSchema } from './feed-scope.ts';
import type { FeedScope } from './feeds.ts';
import type { Store } from './store.ts';
import type { CalendarAccountTable } from './caldav-rows.ts';

/** What of the plans goes to a server, and how. */
export type AccountScope = FeedScope;

/** A question the keeper has to answer before a look goes on. */
export interface Question {
	/** `delete`: many are gone here; `restore`: many were deleted there */
	about: 'delete' | 'restore';
	count: number;
	of: number;
}

/** An account as its owner sees it: everything but the password. */
export interface AccountSummary {
	id: string;
	server: string;
	user: string;
	collection: string;
	name: string;
	kind: ObjectKind;
	scope: AccountScope;
	every: number;
	looked: string | null;
	trouble: string | null;
	/** when it looks again by itself; null: not before the keeper does something */
	next: string | null;
	question: Question | null;
}

/** The same with what a look needs. */
export interface Account extends AccountSummary {
	token: string | null;
	failures: number;
}

const login = {
	server: z.string().trim().min(1).max(500),
	user: z.string().min(1).max(200),
	password: z.string().max(500)
};

/** Where to look for calendars; as it comes from a page of the app. */
export const loginSchema = z.strictObject(login);

/** What a new account is asked to be: an existing collection's address, or the name of one to make. */
export const newAccountSchema = z.strictObject({
	...login,
	collection: z.string().min(1).max(1000).optional(),
	create: z.string().trim().min(1).max(100).optional(),
	/** events are seen and moved, to-dos ticked too; absent: to-dos where the collection takes them */
	as: z.enum(['VTODO', 'VEVENT']).optional(),
	every: z.int().min(5).max(1440).optional(),
	scope: scopeSchema
});

export interface NewAccount {
	server: string;
	user: string;
	password: string;
	collection: string;
	name: string;
	kind: ObjectKind;
	scope: AccountScope;
	every: number;
}

/** Keeps an account; its password is locked first. Answers its id. */
export async function addAccount(store: Store, { password, scope, ...made }: NewAccount): Promise<string> {
	const id = randomUUID();
	const now = store.now();
	const row: CalendarAccountTable = {
		...made,
		id,
		server: serverAddress(made.server).href,
		sealed: seal(password, id, store.folder),
		scope: JSON.stringify(scope),
		token: null,
		created: now,
		looked: null,
		trouble: null,
		failures: 0,
		next: now,
		question: null,
		busy: null
	};
	await store.db.insertInto('calendar_account').values(row).execute();
	return id;
}

/** A new password for an account; false when there is no such account. */
export async function setPassword(store: Store, id: string, password: string): Promise<boolean> {
	const done = await store.db
		.updateTable('calendar_account')
		.set({ sealed: seal(password, id, store.folder), next: store.now(), failures: 0 })
		.where('id', '=', id)
		.executeTakeFirst();
	return Number(done.numUpdatedRows) === 1;
}

/** Forgets an account and what is known of its objects; the server keeps them. */
export async function forgetAccount(store: Store, id: string): Promise<boolean> {
	return store.db.transaction().execute(async (trx) => {
		for (const table of ['calendar_item', 'calendar_proposal', 'calendar_note'] as const)
			await trx.deleteFrom(table).where('account', '=', id).execute();
		const done = await trx.deleteFrom('calendar_account').where('id', '=', id).executeTakeFirst();
		return Number(done.numDeletedRows) === 1;
	});
}

/** Every account, the oldest first. */
export async function listAccounts(store: Store): Promise<AccountSummary[]> {
	const rows = await store.db
		.selectFrom('calendar_account')
		.selectAll()
		.orderBy('created')
		.orderBy('id')
		.execute();
	return rows.map((row) => {
		const { token: _token, failures: _failures, ...summary } = accountOf(row);
		return summary;
	});
}

/** One account; null when there is none. */
export async function readAccount(store: Store, id: string): Promise<Account | null> {
	const row = await store.db
		.selectFrom('calendar_account')
		.selectAll()
		.where('id', '=', id)
		.executeTakeFirst();
	return row ? accountOf(row) : null;
}

/** Its collection, ready to be spoken to. Throws `KeyTrouble` when the password cannot be unlocked. */
export async function collectionOf(
	store: Store,
	{ id, server, user, collection }: Account
): Promise<Collection> {
	const { sealed } = await store.db
		.selectFrom('calendar_account')
		.select('sealed')
		.where('id', '=', id)
		.executeTakeFirstOrThrow();
	const password = unseal(sealed, id, store.folder);
	return { url: collection, fetch: boundedFetch(serverAddress(server), { user, password }) };
}

/** Notes how a look went. */
export async function noteLook(
	store: Store,
	id: string,
	state: Partial<
		Pick<CalendarAccountTable, 'token' | 'looked' | 'trouble' | 'failures' | 'next' | 'question' | 'busy'>
	>
): Promise<void> {
	await store.db.updateTable('calendar_account').set(state).where('id', '=', id).execute();
}

/** Takes an account for one look, so that no second process looks at the same time; false when it is taken. */
export async function takeAccount(store: Store, id: string, minutes: number): Promise<boolean> {
	const now = store.now();
	const until = new Date(Date.parse(now) + minutes * 60_000).toISOString();
	const done = await store.db
		.updateTable('calendar_account')
		.set({ busy: until })
		.where('id', '=', id)
		.where((where) => where.or([where('busy', 'is', null), where('busy', '<', now)]))
		.executeTakeFirst();
	return Number(done.numUpdatedRows) === 1;
}

const accountOf = (row: CalendarAccountTable): Account => ({
	id: row.id,
	server: row.server,
	user: row.user,
	collection: row.collection,
	name: row.name,
	kind: row.kind as ObjectKind,
	scope: JSON.parse(row.scope) as AccountScope,
	every: row.every,
	looked: row.looked,
	trouble: row.trouble,
	next: row.next,
	question: row.question === null ? null : (JSON.parse(row.question) as Question),
	token: row.token,
	failures: row.failures
});
