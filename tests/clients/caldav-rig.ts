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
import type { Edit } from '../../src/lib/run/index.ts';
import { login, standBetween, startServer, type Between, type Make } from './calendar-server.ts';
import { phoneOn, type Phone } from './phone.ts';
import { folder } from './program.ts';

/** An invented run from that day on: three days to settle, ten of copper, two doses against flukes within it. */
const documentFrom = (day: string) => ({
	format: 'lazaret-plan/1',
	name: 'Harbour tangs',
	timeZone: zone,
	service: '08:00',
	tank: {
		name: 'Q7',
		net: '112 L',
		temperature: '26 C',
		salinity: '34 ppt',
		pH: 8.1,
		filterClears: '40 L/d',
		aeration: 'coarse',
		substrate: 'none'
	},
	source: { name: 'mixed', ammonia: '0 mg/L', nitrate: '5 mg/L', salinity: '34 ppt' },
	lots: [{ id: 'a', what: 'tangs', group: 'tang', count: 2, mass: '60 g', feed: '1 g/d', arrived: day }],
	medicines: [
		{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' },
		{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }
	],
	phases: [
		{ id: 'settle', kind: 'settle', starts: `on ${day}`, lasts: '3 d', test: 'NH3 daily' },
		{
			id: 'copper',
			kind: 'hold',
			medicine: 'cu',
			starts: 'after settle',
			lasts: '10 d',
			level: '0.15-0.20 mg/L',
			aim: '0.18 mg/L',
			repeat: 'ramp 2 d',
			test: 'Cu daily'
		},
		{
			id: 'flukes',
			kind: 'pulse',
			medicine: 'pz',
			starts: 'with copper + 2 d',
			lasts: '2 doses',
			level: '2.5 mg/L',
			repeat: 'every 7 d'
		}
	]
});

const zone = 'America/Chicago';

export interface Rig {
	store: Store;
	between: Between;
	phone: Phone;
	account: string;
	/** the collection's address on the server itself, past what stands between */
	collection: string;
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

/** A keeper's app, a calendar server of that make and a phone, all with the run's doses and tests on them. */
export async function rigOn(make: Make, kinds = ['dose', 'test'] as const): Promise<Rig> {
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
	const made = await createRun(store, { id: run, document: documentFrom(day(0)), who: 'ada' });
	if (!made.ok) throw new Error(made.sentence);
	const collection = await makeCollection(between.url, login, 'Quarantine', 'quarantine');
	const account = await addAccount(store, {
		...login,
		server: between.url,
		collection: collection.url,
		name: collection.name,
		kind: 'VTODO',
		scope: { kinds: [...kinds], origin: 'http://127.0.0.1:4173' },
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
		phone: phoneOn(direct, place.path),
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
