import { describe, expect, test } from 'vitest';
import {
	addAccount,
	findServer,
	listAccounts,
	makeCollection,
	setPassword,
	syncAccount
} from '../../src/lib/server/index.ts';
import { login, makes } from './calendar-server.ts';
import { rigOn } from './caldav-rig.ts';

const authorization = `Basic ${btoa(`${login.user}:${login.password}`)}`;

describe.each(makes)('on %s', (make) => {
	test('the server goes away in the middle: the rest is written at the next look, nothing twice', async () => {
		const rig = await rigOn(make);
		let puts = 0;
		rig.between.meddle = ({ method }) => (method === 'PUT' && ++puts > 5 ? 0 : undefined);
		const broken = await rig.sync();
		expect(broken.trouble).toMatch(/^127\.0\.0\.1:\d+ cannot be reached/);
		expect(await rig.trouble()).toBe(broken.trouble);
		rig.between.meddle = () => undefined;
		const first = rig.between.writes().slice(0, 5);
		expect((await rig.sync()).trouble).toBeNull();
		const rest = rig.between.writes();
		expect(rest.filter((write) => first.includes(write))).toEqual([]);
		expect(await rig.trouble()).toBeNull();
		await rig.phone.sync();
		expect(rig.phone.files()).toHaveLength(first.length + rest.length);
	});

	test('written, but the answer was lost: taken over, not written a second time', async () => {
		const rig = await rigOn(make);
		let lost = '';
		rig.between.meddle = async ({ method, path, headers, body }) => {
			if (method !== 'PUT' || lost) return undefined;
			lost = path;
			await fetch(new URL(path, rig.collection), {
				method,
				body,
				headers: { authorization, 'if-none-match': '*', 'content-type': String(headers['content-type']) }
			});
			return 0;
		};
		expect((await rig.sync()).trouble).not.toBeNull();
		expect((await rig.sync()).trouble).toBeNull();
		rig.between.writes();
		await rig.sync();
		expect(rig.between.writes()).toEqual([]);
		await rig.phone.sync();
		expect(new Set(rig.phone.files()).size).toBe(rig.phone.files().length);
	});

	test('an expired token: the whole list is compared, and a tick made meanwhile is heard', async () => {
		const rig = await rigOn(make);
		await rig.sync();
		await rig.phone.sync();
		await rig.phone.tick('Q7: Test NH3');
		await rig.phone.sync();
		const { token } = await rig.store.db
			.selectFrom('calendar_account')
			.select('token')
			.executeTakeFirstOrThrow();
		expect(token).toBeTruthy();
		await rig.store.db
			.updateTable('calendar_account')
			.set({ token: `${token?.slice(0, -8)}deadbeef` })
			.execute();
		rig.between.passed.length = 0;
		expect((await rig.sync()).trouble).toBeNull();
		expect(await rig.log()).toHaveLength(1);
		rig.between.writes();
		expect((await rig.sync()).sentences).toEqual([]);
		expect(rig.between.writes()).toEqual([]);
	});

	test.each([
		['no XML', { status: 207, body: 'hello' }],
		['broken XML', { status: 207, body: '<multistatus xmlns="DAV:"><response>' }],
		['a page', { status: 200, body: '<html><body>Log in</body></html>' }]
	])('an answer of %s is one sentence, and nothing is changed', async (_what, answer) => {
		const rig = await rigOn(make);
		await rig.sync();
		rig.between.writes();
		rig.between.meddle = ({ method }) => (method === 'REPORT' || method === 'PROPFIND' ? answer : undefined);
		const { trouble } = await rig.sync();
		expect(trouble).toMatch(/answered something that is no calendar data/);
		expect(rig.between.writes()).toEqual([]);
	});

	test('a collection that takes no to-dos gets events, and a server that refuses them says so', async () => {
		const rig = await rigOn(make);
		const url = new URL('../events/', rig.collection).href;
		const body = `<c:mkcalendar xmlns:d="DAV:" xmlns:c="urn:ietf:params:xml:ns:caldav"><d:set><d:prop><d:displayname>Events</d:displayname><c:supported-calendar-component-set><c:comp name="VEVENT"/></c:supported-calendar-component-set></d:prop></d:set></c:mkcalendar>`;
		const made = await fetch(url, {
			method: 'MKCALENDAR',
			body,
			headers: { authorization, 'content-type': 'text/xml' }
		});
		expect(made.status).toBe(201);
		const offered = (await findServer(rig.between.url, login)).collections;
		const events = offered.find(({ url }) => url.endsWith('/events/'));
		const kind = 'VEVENT';
		expect(events?.takes).toContain(kind);
		const id = await addAccount(rig.store, {
			...login,
			server: rig.between.url,
			collection: events?.url ?? '',
			name: 'Events',
			kind,
			scope: { kinds: ['dose'] },
			every: 15
		});
		rig.between.passed.length = 0;
		expect(await syncAccount(rig.store, id)).toMatchObject({ trouble: null });
		const puts = rig.between.passed.filter(({ method }) => method === 'PUT');
		expect(puts.length).toBeGreaterThan(2);
		for (const put of puts) expect(put.body).toMatch(/BEGIN:VEVENT[^]*DTSTART:/);
		expect(await syncAccount(rig.store, id)).toMatchObject({ sentences: [] });

		rig.between.meddle = ({ method }) => (method === 'PUT' ? 403 : undefined);
		const { trouble } = await rig.sync();
		expect(trouble).toMatch(/did not take .* \(it answered 403\): this calendar may take no to-dos/);
	});
});

test('a wrong password is said, and not tried again by itself', async () => {
	const rig = await rigOn('radicale');
	await rig.sync();
	await setPassword(rig.store, rig.account, 'wrong');
	expect((await rig.sync()).trouble).toMatch(/refuses this user or password/);
	expect((await listAccounts(rig.store))[0]?.next).toBeNull();
	await expect(findServer(rig.between.url, { ...login, password: 'wrong' })).rejects.toThrow(
		/refuses this user or password/
	);
	await setPassword(rig.store, rig.account, login.password);
	expect((await rig.sync()).trouble).toBeNull();
});

test('a server that makes no calendars says so', async () => {
	const rig = await rigOn('radicale');
	rig.between.meddle = ({ method }) => (method === 'MKCALENDAR' ? 403 : undefined);
	await expect(makeCollection(rig.between.url, login, 'X', 'x')).rejects.toThrow(/makes no new calendars/);
});
