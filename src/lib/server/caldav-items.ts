import { createHash } from 'node:crypto';
import type { IdentityRow } from '../calendar/index.ts';
import type { Store } from './store.ts';
import type { CalendarItemTable } from './caldav-rows.ts';

/** What is known of one task's object on a server: its identity here, and how the server last held it. */
export interface Item extends IdentityRow {
	run: string;
	task: string;
	href: string;
	/** null: not written yet, or gone there */
	etag: string | null;
	body: string | null;
	/** the amount it named, as the log writes amounts */
	amount: string | null;
	/** the medicine it dosed, by its id in the plan */
	medicine: string | null;
	/** the server holds something else than the plan wants */
	stale: boolean;
}

/** Where a new object is put: no date, no title, nothing that a path would have to escape. */
export const hrefFor = (collection: string, uid: string): string =>
	`${new URL(collection).pathname}${createHash('sha256').update(uid).digest('hex').slice(0, 32)}.ics`;

/** Everything known of an account's objects, by UID. */
export async function readItems(store: Store, account: string): Promise<Map<string, Item>> {
	const rows = await store.db
		.selectFrom('calendar_item')
		.selectAll()
		.where('account', '=', account)
		.orderBy('uid')
		.execute();
	return new Map(
		rows.map(({ account: _account, modified, gone, stale, ...row }) => [
			row.uid,
			{ ...row, lastModified: modified, goneAt: gone, stale: stale === 1 }
		])
	);
}

/** Keeps one, at once: a look that breaks off goes on from here. */
export async function keepItem(store: Store, account: string, item: Item): Promise<void> {
	const { lastModified, goneAt, stale, ...rest } = item;
	const row: CalendarItemTable = {
		...rest,
		account,
		modified: lastModified,
		gone: goneAt,
		stale: stale ? 1 : 0
	};
	await store.db
		.insertInto('calendar_item')
		.values(row)
		.onConflict((conflict) => conflict.columns(['account', 'uid']).doUpdateSet(row))
		.execute();
}
