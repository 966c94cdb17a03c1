import { createHash, randomBytes, randomUUID } from 'node:crypto';
import type { IdentityRow, LeftOut } from '../calendar/index.ts';
import type { TaskKind } from '../planner/index.ts';
import type { FeedTable } from './tables.ts';
import type { Store } from './store.ts';

/** What a feed shows, and how. An absent key is: every run, every tank, every kind, timed, one per task, silent. */
export interface FeedScope {
	/** a stored run's id */
	run?: string;
	/** a tank's name */
	tank?: string;
	kinds?: TaskKind[];
	per?: 'task' | 'service';
	allDay?: boolean;
	/** minutes before, by kind */
	alarms?: Partial<Record<TaskKind, number>>;
	/** where the app is reached from the calendar, `http://host:port`; absent: entries carry no link */
	origin?: string;
}

/** A feed as its owner sees it: everything but the secret, which is kept only as a hash. */
export interface FeedSummary {
	id: string;
	name: string;
	scope: FeedScope;
	created: string;
	/** when its content last changed; null before the first look */
	changed: string | null;
	leftOut: LeftOut | null;
}

/** A feed with what its last rendering left behind. */
export interface StoredFeed extends FeedSummary {
	identity: IdentityRow[];
	body: string | null;
	etag: string | null;
}

/** 160 random bits; a feed's address needs no other key. */
const newSecret = (): string => randomBytes(20).toString('base64url');

/** What is kept of a secret. It is random and long, so a plain hash cannot be guessed back. */
export const hashOf = (secret: string): string => createHash('sha256').update(secret).digest('hex');

/** Makes a feed. The secret is in the answer and nowhere else: it cannot be shown again. */
export async function createFeed(
	store: Store,
	{ name, scope }: { name: string; scope: FeedScope }
): Promise<{ id: string; secret: string }> {
	const secret = newSecret();
	const row: FeedTable = {
		id: randomUUID(),
		name,
		scope: JSON.stringify(scope),
		secret: hashOf(secret),
		created: store.now(),
		identity: '[]',
		body: null,
		etag: null,
		changed: null,
		left_out: null
	};
	await store.db.insertInto('feed').values(row).execute();
	return { id: row.id, secret };
}

/** A new secret for a feed, from then on the only one; null when there is no such feed. */
export async function renewFeed(store: Store, id: string): Promise<string | null> {
	const secret = newSecret();
	const done = await store.db
		.updateTable('feed')
		.set({ secret: hashOf(secret) })
		.where('id', '=', id)
		.executeTakeFirst();
	return Number(done.numUpdatedRows) === 1 ? secret : null;
}

/** Ends a feed for good; false when there is no such feed. */
export async function revokeFeed(store: Store, id: string): Promise<boolean> {
	const done = await store.db.deleteFrom('feed').where('id', '=', id).executeTakeFirst();
	return Number(done.numDeletedRows) === 1;
}

const shown = ['id', 'name', 'scope', 'created', 'changed', 'left_out'] as const;

/** Every feed, the oldest first. */
export async function listFeeds(store: Store): Promise<FeedSummary[]> {
	const rows = await store.db.selectFrom('feed').select(shown).orderBy('created').orderBy('id').execute();
	return rows.map(summaryOf);
}

/** The id of the feed with this secret; null when there is none. */
export async function feedIdOf(store: Store, secretHash: string): Promise<string | null> {
	const row = await store.db
		.selectFrom('feed')
		.select('id')
		.where('secret', '=', secretHash)
		.executeTakeFirst();
	return row?.id ?? null;
}

/** Throws when the feed is gone. */
export async function readFeed(store: Store, id: string): Promise<StoredFeed> {
	const row = await store.db.selectFrom('feed').selectAll().where('id', '=', id).executeTakeFirstOrThrow();
	const identity = JSON.parse(row.identity) as IdentityRow[];
	return { ...summaryOf(row), identity, body: row.body, etag: row.etag };
}

/** Keeps what a rendering made, so that the next one, perhaps of another process, builds on it. */
export async function keepFeed(
	store: Store,
	id: string,
	made: { identity: IdentityRow[]; body: string; etag: string; changed: string; leftOut: LeftOut }
): Promise<void> {
	const { identity, leftOut, ...rest } = made;
	const row = { ...rest, identity: JSON.stringify(identity), left_out: JSON.stringify(leftOut) };
	await store.db.updateTable('feed').set(row).where('id', '=', id).execute();
}

const summaryOf = (row: Pick<FeedTable, (typeof shown)[number]>): FeedSummary => ({
	id: row.id,
	name: row.name,
	scope: JSON.parse(row.scope) as FeedScope,
	created: row.created,
	changed: row.changed,
	leftOut: row.left_out === null ? null : (JSON.parse(row.left_out) as LeftOut)
});
