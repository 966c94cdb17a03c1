import { randomUUID } from 'node:crypto';
import type { Transaction } from 'kysely';
import { patiently } from './fault.ts';
import { hashPassphrase, passphraseTrouble } from './passphrase.ts';
import type { Store } from './store.ts';
import type { Tables } from './tables.ts';

/** What somebody may do, the least first: look; look and log; everything. */
export const roles = ['viewer', 'helper', 'keeper'] as const;
export type Role = (typeof roles)[number];

/** A word from outside as a role; null when it is none. */
export const roleOf = (word: string): Role | null => roles.find((role) => role === word) ?? null;

/** True when the role reaches to what asks at least `least`. */
export const reaches = (role: Role, least: Role): boolean => roles.indexOf(role) >= roles.indexOf(least);

/** Somebody who may enter, without the hash. */
export interface Person {
	id: string;
	name: string;
	role: Role;
	created: string;
}

/** Expected trouble is a sentence. */
export type Done = { ok: true; person: Person } | { ok: false; sentence: string };

/** Names are one whatever their case and however their accents are composed. */
export const folded = (name: string): string => name.normalize('NFKC').trim().toLowerCase();

const mostPeople = 200;

/** One sentence about why a name will not do, null when it will. */
function nameTrouble(name: string): string | null {
	if (name === '') return 'Saw no name, expected one.';
	if ([...name].length > 60) return 'Saw a name of more than 60 characters, expected a shorter one.';
	return /[\p{C}\p{Zl}\p{Zp}]/u.test(name) ? 'Saw a name with invisible characters, expected none.' : null;
}

const shown = ['id', 'name', 'role', 'created'] as const;

/** A role that a hand has spoiled in the database is the least one. */
const personOf = (row: { id: string; name: string; role: string; created: string }): Person => ({
	...row,
	role: roleOf(row.role) ?? 'viewer'
});

/** Everybody who may enter, the first first. */
export async function listPeople(store: Store): Promise<Person[]> {
	const rows = await patiently(() =>
		store.db.selectFrom('person').select(shown).orderBy('created').orderBy('id').execute()
	);
	return rows.map(personOf);
}

/** True once somebody was named: from then on nobody enters without a passphrase. */
export async function anyPeople(store: Store): Promise<boolean> {
	const row = await patiently(() => store.db.selectFrom('person').select('id').limit(1).executeTakeFirst());
	return row !== undefined;
}

/** Names somebody. The first has to be a keeper, or nobody could name the second. */
export async function addPerson(
	store: Store,
	{ name: given, role, passphrase }: { name: string; role: Role; passphrase: string }
): Promise<Done> {
	const name = given.normalize('NFC').trim();
	const trouble = nameTrouble(name) ?? passphraseTrouble(passphrase, name);
	if (trouble !== null) return { ok: false, sentence: trouble };
	const pass = await hashPassphrase(passphrase);
	return patiently(() =>
		store.db.transaction().execute(async (trx): Promise<Done> => {
			const people = await lockedPeople(store, trx);
			if (people.length === 0 && role !== 'keeper')
				return { ok: false, sentence: 'Saw nobody yet, expected the first person to be a keeper.' };
			if (people.length >= mostPeople)
				return { ok: false, sentence: `Saw ${people.length} people, expected no more.` };
			if (people.some((person) => folded(person.name) === folded(name)))
				return { ok: false, sentence: `Saw ${name} twice, expected a name nobody has yet.` };
			const person = { id: randomUUID(), name, role, created: store.now() };
			await trx
				.insertInto('person')
				.values({ ...person, folded: folded(name), pass })
				.execute();
			return { ok: true, person };
		})
	);
}

/** Everybody, held against other writers until the transaction ends. */
async function lockedPeople(store: Store, trx: Transaction<Tables>): Promise<Person[]> {
	const query = trx.selectFrom('person').select(shown);
	return (await (store.engine === 'postgres' ? query.forUpdate() : query).execute()).map(personOf);
}

const noPerson: Done = { ok: false, sentence: 'There is no such person.' };
const lastKeeper: Done = {
	ok: false,
	sentence: 'This is the last keeper: name another before, or nobody could change anything any more.'
};

/** Changes what somebody may do. The last keeper stays one. */
export function setRole(store: Store, id: string, role: Role): Promise<Done> {
	return changePerson(store, id, role !== 'keeper', async (trx, person) => {
		await trx.updateTable('person').set({ role }).where('id', '=', id).execute();
		return { ...person, role };
	});
}

/** Somebody may enter no more, and is out at once. What they did stays under their name. */
export function removePerson(store: Store, id: string): Promise<Done> {
	return changePerson(store, id, true, async (trx, person) => {
		await trx.deleteFrom('session').where('person', '=', id).execute();
		await trx.deleteFrom('person').where('id', '=', id).execute();
		return person;
	});
}

/** A new passphrase; whoever had entered with the old one is out, but for the session `keeping`. */
export async function setPassphrase(
	store: Store,
	id: string,
	passphrase: string,
	keeping: string | null = null
): Promise<Done> {
	const known = (await listPeople(store)).find((person) => person.id === id);
	if (!known) return noPerson;
	const trouble = passphraseTrouble(passphrase, known.name);
	if (trouble !== null) return { ok: false, sentence: trouble };
	const pass = await hashPassphrase(passphrase);
	return changePerson(store, id, false, async (trx, person) => {
		await trx.updateTable('person').set({ pass }).where('id', '=', id).execute();
		const sessions = trx.deleteFrom('session').where('person', '=', id);
		await (keeping === null ? sessions : sessions.where('id', '!=', keeping)).execute();
		return person;
	});
}

function changePerson(
	store: Store,
	id: string,
	losesKeeper: boolean,
	act: (trx: Transaction<Tables>, person: Person) => Promise<Person>
): Promise<Done> {
	return patiently(() =>
		store.db.transaction().execute(async (trx): Promise<Done> => {
			const people = await lockedPeople(store, trx);
			const person = people.find((one) => one.id === id);
			if (!person) return noPerson;
			const keepers = people.filter((one) => one.role === 'keeper');
			if (losesKeeper && person.role === 'keeper' && keepers.length === 1) return lastKeeper;
			return { ok: true, person: await act(trx, person) };
		})
	);
}
