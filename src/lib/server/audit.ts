import { randomUUID } from 'node:crypto';
import { patiently } from './fault.ts';
import type { Store } from './store.ts';

/** One deed: who did what to what, from where. Instants are ISO 8601, UTC. */
export interface Deed {
	at: string;
	who: string;
	what: string;
	about: string;
	address: string;
}

/** How many deeds are kept; past that the oldest go, some at a time. */
export const mostDeeds = 20_000;
const swept = 500;
let sinceSweep = swept;

/** Writes a deed down. */
export async function writeDeed(store: Store, deed: Omit<Deed, 'at'>, most = mostDeeds): Promise<void> {
	const cut = (text: string, length: number) => text.slice(0, length);
	const row = {
		id: randomUUID(),
		at: store.now(),
		who: cut(deed.who, 100),
		what: cut(deed.what, 200),
		about: cut(deed.about, 200),
		address: cut(deed.address, 60)
	};
	await patiently(() => store.db.insertInto('audit').values(row).execute());
	if (++sinceSweep < swept && most === mostDeeds) return;
	sinceSweep = 0;
	await sweep(store, most);
}

async function sweep(store: Store, most: number): Promise<void> {
	const oldest = await patiently(() =>
		store.db
			.selectFrom('audit')
			.select('at')
			.orderBy('at', 'desc')
			.orderBy('id')
			.offset(most - 1)
			.limit(1)
			.executeTakeFirst()
	);
	if (oldest) await patiently(() => store.db.deleteFrom('audit').where('at', '<', oldest.at).execute());
}

/** The deeds, the latest first. */
export function readDeeds(store: Store, limit = 200): Promise<Deed[]> {
	return patiently(() =>
		store.db
			.selectFrom('audit')
			.select(['at', 'who', 'what', 'about', 'address'])
			.orderBy('at', 'desc')
			.orderBy('id')
			.limit(limit)
			.execute()
	);
}
