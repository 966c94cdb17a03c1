import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Temporal } from 'temporal-polyfill';
import { onTestFinished } from 'vitest';
import {
	addAccount,
	appendLog,
	createRun,
	getRun,
	listAccounts,
	makeCollection,
	openStore,
	readLog,
	readNotes,
	saveEdits,
	syncAccount,
	type Entry,
	type Store
} from '../../src/lib/server/index.ts';
import type { ObjectKind } from '../../src/lib/calendar/index.ts';
import type { Edit } from '../../src/lib/run/index.ts';
import { login, standBetween, startServer, type Between, type Make } from './calendar-server.ts';
import { harbourFrom, zone } from './harbour-run.ts';
import { phoneOn, type Phone } from './phone.ts';
import { folder } from './program.ts';

export interface Rig {
	store: Store;
	between: Between;
	phone: Phone;
	account: string;
	/** the collection's address on the server itself, past what stands between */
	collection: string;
	/** where the phone keeps its things */
	folder: string;
	/** the run's id */
	run: string;
	/** the n-th day of the run, 0 today; `2027-02-01` */
	day: (n: number) => string;
	/** milliseconds the app's clock is ahead of the world's */
	clock: { aheadMs: number };
	sync: (agreed?: 'delete' | 'restore') => Promise<NonNullable<Awaited<ReturnType<typeof syncAccount>>>>;
	log: () => Promise<Entry[]>;
	edit: (...edits: Edit[]) => Promise<void>;
	done: (entry: Entry) => Promise<void>;
	/** the sentences of the latest look first */
	notes: () => Promise<string[]>;
	trouble: () => Promise<string | null>;
}

/** How the plan is to stand on the server; by default its doses and tests, a to-do each, at their times. */
export interface Shape {
	as?: ObjectKind;
	per?: 'service';
	allDay?: boolean;
	alarms?: { test: number };
}

/** A keeper's app, a calendar server of that make and a phone, all with the run's doses and tests on them. */
export async function rigOn(make: Make, { as = 'VTODO', ...shape }: Shape = {}): Promise<Rig> {
	const place = folder();
	onTestFinished(() => place.remove());
	const server = await startServer(make, place.path);
	onTestFinished(() => server.stop());
	const between = await standBetween(server.url);
	onTestFinished(() => between.stop());
	const clock = { aheadMs: 0 };
	const today = Temporal.Now.zonedDateTimeISO(zone).toPlainDate();
	const day = (n: number) => today.add({ days: n }).toString();
	const data = mkdtempSync(join(tmpdir(), 'lazaret-caldav-'));
	const store = await openStore({
		folder: data,
		now: () => new Date(Date.now() + clock.aheadMs).toISOString()
	});
	onTestFinished(async () => {
		await store.close();
		rmSync(data, { recursive: true });
	});
	const run = 'harbour';
	const made = await createRun(store, { id: run, document: harbourFrom(day(0)), who: 'ada' });
	if (!made.ok) throw new Error(made.sentence);
	const collection = await makeCollection(between.url, login, 'Quarantine', 'quarantine', [as]);
	const account = await addAccount(store, {
		...login,
		server: between.url,
		collection: collection.url,
		name: collection.name,
		kind: as,
		scope: { kinds: ['dose', 'test'], origin: 'http://127.0.0.1:4173', ...shape },
		every: 15
	});
	between.passed.length = 0;
	const direct = new URL(new URL(collection.url).pathname, server.url).href;
	return {
		store,
		between,
		account,
		collection: direct,
		run,
		day,
		clock,
		phone: phoneOn(direct, place.path, as),
		folder: place.path,
		sync: async (agreed) => {
			const report = await syncAccount(store, account, agreed ?? null);
			if (!report) throw new Error('the account is gone');
			return report;
		},
		log: () => readLog(store, run),
		edit: async (...edits) => {
			const { version = 0 } = (await getRun(store, run)) ?? {};
			const id = `edit-${version}`;
			const saved = await saveEdits(store, run, { id, base: version, edits, who: 'ada' });
			if (saved.kind !== 'saved') throw new Error(JSON.stringify(saved));
		},
		done: async (entry) => {
			const logged = await appendLog(store, run, [entry], 'ada');
			if (!logged?.ok) throw new Error(logged?.sentence);
		},
		notes: async () => (await readNotes(store, account)).map(({ way, sentence }) => `${way}: ${sentence}`),
		trouble: async () => (await listAccounts(store))[0]?.trouble ?? null
	};
}
