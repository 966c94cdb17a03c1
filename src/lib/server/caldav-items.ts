import { createHash } from 'node:crypto';
import type { IdentityRow } from '../calendar/index.ts';
import type { Store } from './store.ts';
import type { CalendarItemTable } from './caldav-rows.ts';

/** A task that an object stands for, with what the log is told when it is ticked. */
export interface Job {
	task: string;
	/** the amount it named, as the log writes amounts */
	amount: string | null;
	/** the medicine it dosed, by its id in the plan */
	medicine: string | null;
}

/** What is known of an object on a server: its identity here, and how the server last held it. */
export interface Item extends IdentityRow {
	run: string;
	/** a task's id, or a service's */
	task: string;
	/** one task, or those of a service */
	jobs: readonly Job[];
	href: string;
	/** null: not written yet, or gone there */
	etag: string | null;
	body: string | null;
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
		rows.map(({ account: _account, modified, gone, stale, amount, medicine, jobs, ...row }) => [
			row.uid,
			{
				...row,
				lastModified: modified,
				goneAt: gone,
				stale: stale === 1,
				jobs: jobsIn({ task: row.task, amount, medicine, jobs })
			}
		])
	);
}

const jobsIn = ({
	jobs,
	...alone
}: Pick<CalendarItemTable, 'task' | 'amount' | 'medicine' | 'jobs'>): Job[] =>
	jobs === null ? [alone] : (JSON.parse(jobs) as Job[]);

/** The tasks that the object of a task or service stands for; of one that is not known, that task. */
export async function tasksBehind(
	store: Store,
	{ account, run, task }: { account: string; run: string; task: string }
): Promise<string[]> {
	const row = await store.db
		.selectFrom('calendar_item')
		.select(['task', 'amount', 'medicine', 'jobs'])
		.where('account', '=', account)
		.where('run', '=', run)
		.where('task', '=', task)
		.executeTakeFirst();
	return row ? jobsIn(row).map((job) => job.task) : [task];
}

/** Keeps one, at once: a look that breaks off goes on from here. */
export async function keepItem(store: Store, account: string, item: Item): Promise<void> {
	const { lastModified, goneAt, stale, jobs, ...rest } = item;
	const [alone] = jobs.length === 1 && jobs[0]?.task === item.task ? jobs : [];
	const row: CalendarItemTable = {
		...rest,
		amount: alone?.amount ?? null,
		medicine: alone?.medicine ?? null,
		jobs: alone ? null : JSON.stringify(jobs),
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
