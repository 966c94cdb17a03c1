import { createHash } from 'node:crypto';
import { isIPv6 } from 'node:net';
import type { Transaction } from 'kysely';
import { patiently } from './fault.ts';
import { folded } from './people.ts';
import type { Store } from './store.ts';
import type { Tables } from './tables.ts';

/*
 * Guesses are counted in the store, so that several app servers share the count, and before the passphrase is looked
 * at, so that a crowd of guesses at once counts like one after the other. A name's wait stays short, or anybody could
 * keep the keeper out; an address's grows long. Names and addresses fall into a fixed number of pigeonholes: nobody
 * can fill the store, and no mistyped passphrase in the field of the name is kept.
 */
interface Patience {
	holes: number;
	/** guesses before there is a wait */
	free: number;
	mostSeconds: number;
}
export const patience: Record<'name' | 'address', Patience> = {
	name: { holes: 4096, free: 5, mostSeconds: 60 },
	address: { holes: 16_384, free: 10, mostSeconds: 900 }
};
/** After so long without a guess the count begins anew. */
const forgetMs = 6 * 3_600_000;

function holeOf(kind: 'name' | 'address', text: string): string {
	const number = createHash('sha256').update(text).digest().readUInt32BE() % patience[kind].holes;
	return `${kind} ${number}`;
}

/** An address that one household or device holds: the /64 of an IPv6 address. */
export function household(address: string): string {
	const bare = address.replace(/^::ffff:(?=\d+\.\d+\.\d+\.\d+$)/i, '').replace(/%.*$/, '');
	if (!isIPv6(bare)) return bare;
	const [head = '', tail] = bare.split('::');
	const left = head === '' ? [] : head.split(':');
	const right = tail === undefined || tail === '' ? [] : tail.split(':');
	const zeros = tail === undefined ? 0 : Math.max(0, 8 - left.length - right.length);
	const groups = [...left, ...Array.from({ length: zeros }, () => '0'), ...right];
	return groups
		.slice(0, 4)
		.map((group) => group.toLowerCase().replace(/^0+(?=.)/, ''))
		.join(':');
}

/** The wait after so many guesses, seconds: none, then 1, 2, 4 and so on. */
export const waitSeconds = (failed: number, { free, mostSeconds }: Patience): number =>
	failed < free ? 0 : Math.min(mostSeconds, 2 ** Math.min(30, failed - free));

/**
 * Counts a guess as failed, ahead of its being looked at. Answers how many seconds to wait instead when there were
 * too many; then the guess must not be looked at.
 */
export function countGuess(store: Store, name: string, address: string): Promise<{ waitSeconds: number }> {
	const asked = [
		['address', holeOf('address', household(address))],
		['name', holeOf('name', folded(name))]
	] as const;
	return patiently(() =>
		store.db.transaction().execute(async (trx) => {
			const now = Date.parse(store.now());
			const rows = [];
			// always in this order, so that two guesses never hold each other up
			for (const [kind, hole] of asked) rows.push({ kind, ...(await lockedHole(store, trx, hole)) });
			const wait = Math.max(...rows.map(({ kind, until }) => waitLeft(now, until, patience[kind])));
			if (wait > 0) return { waitSeconds: wait };
			for (const { kind, hole, failed, last } of rows) {
				const count = now - Date.parse(last) > forgetMs ? 1 : failed + 1;
				const until = new Date(now + waitSeconds(count, patience[kind]) * 1000).toISOString();
				await trx
					.updateTable('attempt')
					.set({ failed: count, last: new Date(now).toISOString(), until })
					.where('hole', '=', hole)
					.execute();
			}
			return { waitSeconds: 0 };
		})
	);
}

/** Seconds that are left; an end beyond any wait was written before the clock was set back. */
function waitLeft(now: number, until: string, { mostSeconds }: Patience): number {
	const seconds = Math.ceil((Date.parse(until) - now) / 1000);
	return seconds <= mostSeconds ? Math.max(0, seconds) : 0;
}

const never = '1970-01-01T00:00:00.000Z';

async function lockedHole(store: Store, trx: Transaction<Tables>, hole: string) {
	await trx
		.insertInto('attempt')
		.values({ hole, failed: 0, last: never, until: never })
		.onConflict((conflict) => conflict.column('hole').doNothing())
		.execute();
	const query = trx.selectFrom('attempt').selectAll().where('hole', '=', hole);
	return (store.engine === 'postgres' ? query.forUpdate() : query).executeTakeFirstOrThrow();
}

/** The guess was right: the name's count begins anew, and the address has one guess less against it. */
export async function forgiveGuess(store: Store, name: string, address: string): Promise<void> {
	const [nameHole, addressHole] = [holeOf('name', folded(name)), holeOf('address', household(address))];
	await patiently(() =>
		store.db.transaction().execute(async (trx) => {
			const until = never;
			await trx
				.updateTable('attempt')
				.set((row) => ({ failed: row('failed', '-', 1), until }))
				.where('hole', '=', addressHole)
				.where('failed', '>', 0)
				.execute();
			await trx.updateTable('attempt').set({ failed: 0, until }).where('hole', '=', nameHole).execute();
		})
	);
}
