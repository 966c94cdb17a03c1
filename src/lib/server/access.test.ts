import { randomBytes, randomUUID, scryptSync } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { askerOf, changeOwn, enter, isWide, wideTrouble } from './access.ts';
import { countGuess, household, patience, waitSeconds } from './attempts.ts';
import { readDeeds, writeDeed } from './audit.ts';
import { engines, freshStore } from './fresh-store.ts';
import { addPerson, folded, listPeople, removePerson, setPassphrase, setRole, type Role } from './people.ts';
import { enteredBy, endSessionsOf, listSessions, openSession, sessionDays } from './sessions.ts';
import type { Store } from './store.ts';

const passphrase = 'tide tables and kelp';
const open = { HOST: '127.0.0.1' };

/** A hash of the least cost there is: what is tried here is not how hard it is to guess. */
function cheapHash(): string {
	const salt = randomBytes(16);
	const key = scryptSync(passphrase, salt, 32, { N: 2, r: 8, p: 1 });
	return ['scrypt', 2, 8, 1, salt.toString('base64url'), key.toString('base64url')].join('$');
}

async function named(store: Store, name: string, role: Role = 'keeper') {
	const person = { id: randomUUID(), name, role, created: store.now() };
	await store.db
		.insertInto('person')
		.values({ ...person, folded: folded(name), pass: cheapHash() })
		.execute();
	return person;
}
const knock = (name: string, given = passphrase, address = '192.0.2.7') => ({
	name,
	passphrase: given,
	address,
	device: 'a phone'
});

// a passphrase at full cost takes a good part of a second, and many seconds of a busy machine
describe.each(engines)('access on %s', { timeout: 60_000 }, (engine) => {
	test('without people everybody at this machine is the keeper, and nobody anywhere else', async () => {
		const store = await freshStore(engine);
		expect(await askerOf(store, open, undefined, false)).toMatchObject({
			kind: 'actor',
			actor: { role: 'keeper' }
		});
		expect(await askerOf(store, { HOST: '0.0.0.0' }, undefined, false)).toEqual({ kind: 'unlocked' });
		expect(await askerOf(store, open, undefined, true)).toEqual({ kind: 'unlocked' });
	});
	test('with people nobody is let in without a token, here either', async () => {
		const store = await freshStore(engine);
		const ada = await named(store, 'Ada');
		expect(await askerOf(store, open, undefined, false)).toEqual({ kind: 'nobody' });
		expect(await askerOf(store, open, 'x'.repeat(43), false)).toEqual({ kind: 'nobody' });
		const came = await enter(store, knock(' ADA '));
		if (came.kind !== 'in') throw new Error(came.kind);
		expect(await askerOf(store, open, came.token, false)).toMatchObject({
			kind: 'actor',
			actor: { name: 'Ada', role: 'keeper', person: ada.id }
		});
		expect(await listSessions(store)).toMatchObject([{ person: ada.id, device: 'a phone' }]);
		const kept = JSON.stringify(await store.db.selectFrom('session').selectAll().execute());
		expect(kept).not.toContain(came.token);
	});
	test('a role that changes holds at the next request, and who is removed is out', async () => {
		const store = await freshStore(engine);
		await named(store, 'Ada');
		const bo = await named(store, 'Bo', 'helper');
		const token = await openSession(store, bo.id, '');
		await setRole(store, bo.id, 'viewer');
		expect((await enteredBy(store, token))?.role).toBe('viewer');
		await removePerson(store, bo.id);
		expect(await enteredBy(store, token)).toBeNull();
	});
	test('a new passphrase ends every session but the one it was changed in', async () => {
		const store = await freshStore(engine);
		const ada = await named(store, 'Ada');
		const [here, there] = [
			await openSession(store, ada.id, 'here'),
			await openSession(store, ada.id, 'there')
		];
		const actor = {
			name: 'Ada',
			role: 'keeper',
			person: ada.id,
			session: (await enteredBy(store, here))?.session ?? ''
		} as const;
		const fresh = 'other words for the sea';
		expect(await changeOwn(store, actor, { old: 'wrong words here', fresh, address: 'x' })).toMatchObject({
			ok: false
		});
		expect(await changeOwn(store, actor, { old: passphrase, fresh: 'short', address: 'x' })).toMatchObject({
			ok: false
		});
		expect(await changeOwn(store, actor, { old: passphrase, fresh, address: 'x' })).toEqual({ ok: true });
		expect(await enteredBy(store, here)).not.toBeNull();
		expect(await enteredBy(store, there)).toBeNull();
		expect((await enter(store, knock('Ada'))).kind).toBe('wrong');
		expect((await enter(store, knock('Ada', fresh))).kind).toBe('in');
	});
	test('logging out everywhere ends them all', async () => {
		const store = await freshStore(engine);
		const ada = await named(store, 'Ada');
		const tokens = [await openSession(store, ada.id, ''), await openSession(store, ada.id, '')];
		expect(await endSessionsOf(store, ada.id)).toBe(2);
		for (const token of tokens) expect(await enteredBy(store, token)).toBeNull();
	});
	test('a session ends when it was not used for long, and in any case some day', async () => {
		const store = await freshStore(engine);
		const ada = await named(store, 'Ada');
		const later = (days: number): Store => ({
			...store,
			now: () => new Date(Date.parse('2026-11-27T01:00:00Z') + days * 86_400_000).toISOString()
		});
		const unused = await openSession(store, ada.id, '');
		expect(await enteredBy(later(sessionDays.unused + 1), unused)).toBeNull();
		const used = await openSession(store, ada.id, '');
		for (let day = 20; day < sessionDays.most; day += 20)
			expect(await enteredBy(later(day), used), `day ${day}`).not.toBeNull();
		expect(await enteredBy(later(sessionDays.most + 1), used)).toBeNull();
	});
	test('one person is in on twenty devices at most: the one not used the longest goes', async () => {
		const store = await freshStore(engine);
		const ada = await named(store, 'Ada');
		const first = await openSession(store, ada.id, 'first');
		for (let n = 0; n < 20; n++) await openSession(store, ada.id, `${n}`);
		expect(await listSessions(store)).toHaveLength(20);
		expect(await enteredBy(store, first)).toBeNull();
	});
	test('the last keeper stays one, and the first person has to be one', async () => {
		const store = await freshStore(engine);
		expect(await addPerson(store, { name: 'Bo', role: 'helper', passphrase })).toMatchObject({ ok: false });
		const ada = await named(store, 'Ada');
		expect(await setRole(store, ada.id, 'viewer')).toMatchObject({ ok: false });
		expect(await removePerson(store, ada.id)).toMatchObject({ ok: false });
		await named(store, 'Bo');
		expect(await removePerson(store, ada.id)).toMatchObject({ ok: true });
		expect((await listPeople(store)).map(({ name }) => name)).toEqual(['Bo']);
	});
	test('wrong passphrases are counted and slowed, the right one too while the wait lasts', async () => {
		const fresh = await freshStore(engine);
		await named(fresh, 'Ada');
		let ms = Date.parse('2026-11-27T12:00:00Z');
		const store: Store = { ...fresh, now: () => new Date(ms).toISOString() };
		const kinds: string[] = [];
		for (let n = 0; n < patience.name.free; n++)
			kinds.push((await enter(store, knock('Ada', 'wrong words here'))).kind);
		expect(kinds).toEqual(kinds.map(() => 'wrong'));
		expect(await enter(store, knock('Ada'))).toEqual({ kind: 'wait', seconds: 1 });
		// another app on the same store counts the same guesses; an address that has not guessed waits as well
		expect(await enter(store, knock('ada', passphrase, '192.0.2.99'))).toEqual({ kind: 'wait', seconds: 1 });
		ms += 1000;
		expect((await enter(store, knock('Ada', 'wrong words here'))).kind).toBe('wrong');
		expect(await enter(store, knock('Ada'))).toEqual({ kind: 'wait', seconds: 2 });
		ms += 2000;
		expect((await enter(store, knock('Ada'))).kind).toBe('in');
		expect((await enter(store, knock('Ada', 'wrong words here'))).kind).toBe('wrong');
	});
	test('a hundred guesses at once are let through no further than as many one by one', async () => {
		const fresh = await freshStore(engine);
		await named(fresh, 'Ada');
		const at = fresh.now();
		const store: Store = { ...fresh, now: () => at };
		const came = await Promise.all(
			Array.from({ length: 100 }, (_, n) => enter(store, knock('Ada', `wrong words ${n} here`)))
		);
		expect(came.filter(({ kind }) => kind === 'wrong')).toHaveLength(patience.name.free);
	});
	test('an address that tries one name after another is slowed, and its guesses fill no table', async () => {
		const fresh = await freshStore(engine);
		await named(fresh, 'Ada');
		const at = fresh.now();
		const store: Store = { ...fresh, now: () => at };
		const waits = [];
		for (let n = 0; n < patience.address.free + 5; n++)
			waits.push((await countGuess(store, `name ${n}`, '192.0.2.7')).waitSeconds > 0);
		expect(waits.indexOf(true)).toBe(patience.address.free);
		expect((await enter(store, knock('Ada'))).kind).toBe('wait');
		expect((await enter(store, knock('Ada', passphrase, '198.51.100.4'))).kind).toBe('in');
		const kept = await store.db.selectFrom('attempt').select('hole').execute();
		expect(kept.every(({ hole }) => /^(name|address) \d{1,5}$/.test(hole))).toBe(true);
	});
	test('a clock set back does not keep the keeper out', async () => {
		const fresh = await freshStore(engine);
		await named(fresh, 'Ada');
		let at = '2026-11-28T12:00:00.000Z';
		const store: Store = { ...fresh, now: () => at };
		for (let n = 0; n < 7; n++) await enter(store, knock('Ada', 'wrong words here'));
		at = '2026-11-27T12:00:00.000Z';
		expect((await enter(store, knock('Ada'))).kind).toBe('in');
	});
	test('the audit says who, what and from where, keeps no mistyped name, and no more than so many', async () => {
		const store = await freshStore(engine);
		await named(store, 'Ada');
		await enter(store, knock('tide tables and kelp', 'Ada'));
		await enter(store, knock('Ada', 'wrong words here'));
		await enter(store, knock('Ada'));
		const deeds = await readDeeds(store);
		expect(deeds).toMatchObject([
			{ who: 'Ada', what: 'entered', address: '192.0.2.7' },
			{ who: 'Ada', what: 'gave a wrong passphrase' },
			{ who: 'somebody unknown', what: 'gave a wrong passphrase' }
		]);
		expect(JSON.stringify(deeds)).not.toContain('kelp');
		for (let n = 0; n < 30; n++)
			await writeDeed(store, { who: 'Ada', what: `${n}`, about: '', address: '' }, 10);
		expect((await readDeeds(store)).map(({ what }) => what)).toEqual(
			Array.from({ length: 10 }, (_, n) => String(29 - n))
		);
	});
	test('a reached place needs a keeper before it starts', async () => {
		const store = await freshStore(engine);
		expect(await wideTrouble(store, open)).toBeNull();
		expect(await wideTrouble(store, { HOST: '0.0.0.0' })).toMatch(/^HOST: .* people add NAME keeper/);
		expect(await wideTrouble(store, { LAZARET_HOSTS: 'shop.example' })).toMatch(/^LAZARET_HOSTS: /);
		expect(await wideTrouble(store, { TRUST_PROXY: '1' })).toMatch(/^TRUST_PROXY: /);
		await named(store, 'Ada');
		expect(await wideTrouble(store, { HOST: '0.0.0.0' })).toBeNull();
	});
	test('a passphrase is kept only as a salted hash, and a hash a hand has spoiled fits none', async () => {
		const store = await freshStore(engine);
		for (const name of ['Ada', 'Bo']) await addPerson(store, { name, role: 'keeper', passphrase });
		const [ada, bo] = await listPeople(store);
		if (!ada || !bo) throw new Error('nobody was named');
		const hashes = (await store.db.selectFrom('person').select('pass').execute()).map(({ pass }) => pass);
		expect(hashes[0]).not.toBe(hashes[1]);
		expect(hashes.join()).not.toContain('kelp');
		for (const pass of ['', 'scrypt$1$1$1$$', hashes[0]?.replace('$32768$', '$9999999$') ?? '']) {
			await store.db.updateTable('person').set({ pass }).where('id', '=', ada.id).execute();
			expect((await enter(store, knock('Ada', passphrase, `192.0.2.${pass.length}`))).kind).toBe('wrong');
		}
		await setPassphrase(store, bo.id, 'other words for the sea');
		expect((await enter(store, knock('Bo', 'other words for the sea'))).kind).toBe('in');
	});
});

test.each([
	['', passphrase, /no name/],
	['ADA', passphrase, /twice/],
	['A\u0301da', passphrase, /^$/],
	['x'.repeat(61), passphrase, /60/],
	['Bo\u200b', passphrase, /invisible/],
	['Bo', 'eleven char', /11 characters/],
	['Bo', 'aaaaaaaaaaaaaaaa', /over and over/],
	['Bonifatius', 'bonifatius1234', /name/],
	['Bo', 'x y'.repeat(70), /200/]
])('names %j with %j: %s', { timeout: 60_000 }, async (name, words, sentence) => {
	const store = await freshStore('sqlite');
	await named(store, 'Ada');
	const done = await addPerson(store, { name, role: 'viewer', passphrase: words });
	expect(done.ok ? '' : done.sentence).toMatch(sentence);
});

test.each([
	[{}, false],
	[{ HOST: 'localhost', LAZARET_HOSTS: 'localhost, 127.0.0.1' }, false],
	[{ HOST: '0.0.0.0' }, true],
	[{ HOST: '::' }, true],
	[{ LAZARET_HOSTS: 'localhost, shop.example' }, true],
	[{ TRUST_PROXY: '1' }, true]
])('%j is reached by others: %s', (env, wide) => expect(isWide(env)).toBe(wide));

test.each([
	['192.0.2.7', '192.0.2.7'],
	['::ffff:192.0.2.7', '192.0.2.7'],
	['2001:db8:1:2:aaaa::1', '2001:db8:1:2'],
	['2001:0DB8:1:2::', '2001:db8:1:2'],
	['fe80::1%eth0', 'fe80:0:0:0'],
	['::1', '0:0:0:0'],
	['unknown', 'unknown']
])('%s counts as %s', (address, counted) => expect(household(address)).toBe(counted));

test('the wait doubles from a second up to its bound', () => {
	const waits = [4, 5, 6, 7, 10, 11, 500].map((failed) => waitSeconds(failed, patience.name));
	expect(waits).toEqual([0, 1, 2, 4, 32, 60, 60]);
});
