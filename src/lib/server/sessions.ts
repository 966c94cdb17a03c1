import { createHash, randomBytes, randomUUID } from 'node:crypto';
import type { Selectable } from 'kysely';
import { patiently } from './fault.ts';
import { roleOf, type Role } from './people.ts';
import type { Store } from './store.ts';
import type { SessionTable } from './tables.ts';

const day = 86_400_000;
/** A session ends when it was not used for so long, and at the latest so long after it began. */
export const sessionDays = { unused: 30, most: 180 };
/** Devices on which one person may be in at once; the one that was not used the longest goes. */
const mostPerPerson = 20;
/** A use is written down no more often than this. */
const seenEveryMs = 3_600_000;

/** A device on which somebody is in. */
export interface Session {
	id: string;
	person: string;
	created: string;
	seen: string;
	device: string;
}

/** Who stands behind a token. */
export interface Entered {
	session: string;
	person: string;
	name: string;
	role: Role;
}

/** What is kept of a token: it is random and long, so a plain hash cannot be guessed back. */
const hashOf = (token: string): string => createHash('sha256').update(token).digest('hex');

const before = (now: string, days: number): string => new Date(Date.parse(now) - days * day).toISOString();

/** Lets somebody in on one device. The token is in this answer and nowhere else. */
export async function openSession(store: Store, person: string, device: string): Promise<string> {
	const token = randomBytes(32).toString('base64url');
	const at = store.now();
	await store.db.transaction().execute(async (trx) => {
		await trx
			.deleteFrom('session')
			.where((row) =>
				row.or([
					row('seen', '<', before(at, sessionDays.unused)),
					row('created', '<', before(at, sessionDays.most))
				])
			)
			.execute();
		const own = await trx
			.selectFrom('session')
			.select('id')
			.where('person', '=', person)
			.orderBy('seen', 'desc')
			.orderBy('id')
			.execute();
		const over = own.slice(mostPerPerson - 1).map(({ id }) => id);
		if (over.length > 0) await trx.deleteFrom('session').where('id', 'in', over).execute();
		const row = { id: randomUUID(), token: hashOf(token), person, created: at, seen: at };
		await trx
			.insertInto('session')
			.values({ ...row, device: device.slice(0, 200) })
			.execute();
	});
	return token;
}

/** Who the token stands for; null when it stands for nobody, or for somebody no more. */
export async function enteredBy(store: Store, token: string): Promise<Entered | null> {
	const row = await patiently(() =>
		store.db
			.selectFrom('session')
			.innerJoin('person', 'person.id', 'session.person')
			.select([
				'session.id',
				'session.seen',
				'session.created',
				'session.person',
				'person.name',
				'person.role'
			])
			.where('session.token', '=', hashOf(token))
			.executeTakeFirst()
	);
	const now = store.now();
	if (!row || row.seen < before(now, sessionDays.unused) || row.created < before(now, sessionDays.most))
		return null;
	if (Date.parse(now) - Date.parse(row.seen) > seenEveryMs)
		await patiently(() =>
			store.db.updateTable('session').set({ seen: now }).where('id', '=', row.id).execute()
		);
	const { id: session, person, name, role } = row;
	return { session, person, name, role: roleOf(role) ?? 'viewer' };
}

/** Everybody's devices, the latest used first. */
export function listSessions(store: Store, person?: string): Promise<Session[]> {
	const columns = [
		'id',
		'person',
		'created',
		'seen',
		'device'
	] as const satisfies (keyof Selectable<SessionTable>)[];
	return patiently(() => {
		const query = store.db.selectFrom('session').select(columns).orderBy('seen', 'desc').orderBy('id');
		return (person === undefined ? query : query.where('person', '=', person)).execute();
	});
}

/** Ends one session, of that person alone when one is named; false when there was none. */
export async function endSession(store: Store, id: string, person?: string): Promise<boolean> {
	const done = await patiently(() => {
		const query = store.db.deleteFrom('session').where('id', '=', id);
		return (person === undefined ? query : query.where('person', '=', person)).executeTakeFirst();
	});
	return Number(done.numDeletedRows) > 0;
}

/** Logs somebody out everywhere. Answers on how many devices. */
export async function endSessionsOf(store: Store, person: string): Promise<number> {
	const done = await patiently(() =>
		store.db.deleteFrom('session').where('person', '=', person).executeTakeFirst()
	);
	return Number(done.numDeletedRows);
}
