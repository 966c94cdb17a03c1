import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import type { Planned } from '../calendar/index.ts';
import { samplePlan, sampleRun, sampleTasks } from '../calendar/sample-plan.ts';
import { openFeeds, type FeedAnswer, type PlansOf } from './feed-answer.ts';
import { createFeed, hashOf, listFeeds, renewFeed, revokeFeed, type FeedScope } from './feeds.ts';
import { engines, freshStore } from './fresh-store.ts';
import { createRun } from './runs.ts';
import type { Store } from './store.ts';

const planned = (tasks = sampleTasks(), id = 'harbour'): Planned[] => [
	{ run: sampleRun(id), plan: samplePlan(tasks) }
];

/** A store whose clock stands still, with a feed on it, and a count of how often it was rendered. */
async function standing(engine: Store['engine'], scope: FeedScope = {}) {
	const store = await freshStore(engine);
	const desk = { now: '2027-01-31T12:00:00Z', plans: planned(), renders: 0, reports: [] as unknown[] };
	store.now = () => desk.now;
	const plansOf: PlansOf = () => {
		desk.renders += 1;
		return Promise.resolve(desk.plans);
	};
	const open = () =>
		openFeeds({ store, plansOf: (now) => plansOf(now), report: (error) => desk.reports.push(error) });
	const { id, secret } = await createFeed(store, { name: 'Harbour', scope });
	return { store, desk, id, secret, open, answer: open() };
}

const textOf = (answer: FeedAnswer) => Buffer.from(answer.body ?? []).toString();
const uidsOf = (answer: FeedAnswer) =>
	[...textOf(answer).matchAll(/^UID:(.*)\r$/gm)].map((match) => match[1]);
const edit = (store: Store) =>
	createRun(store, { id: 'mark', document: { format: 'lazaret-plan/1', name: 'x' }, who: 'ada' });

describe.each(engines)('a feed on %s', (engine) => {
	test('is a calendar file with the headers a subscriber needs', async () => {
		const { answer, secret } = await standing(engine);
		const { status, headers, body } = await answer(secret, {});
		expect(status).toBe(200);
		expect(headers).toMatchObject({
			'content-type': 'text/calendar; charset=utf-8',
			'cache-control': 'private, no-cache',
			'content-length': String(body?.byteLength),
			vary: 'accept-encoding',
			'last-modified': 'Sun, 31 Jan 2027 12:00:00 GMT'
		});
		expect(headers['set-cookie']).toBeUndefined();
	});

	test('keeps its secret only as a hash', async () => {
		const { store, secret } = await standing(engine);
		expect(Buffer.from(secret, 'base64url')).toHaveLength(20);
		const rows = await store.db.selectFrom('feed').selectAll().execute();
		expect(JSON.stringify(rows)).not.toContain(secret);
		expect(rows[0]?.secret).toBe(hashOf(secret));
	});

	test('an unchanged feed is a 304 without rendering, whichever way it is asked', async () => {
		const { answer, secret, desk } = await standing(engine);
		const { headers } = await answer(secret, {});
		const etag = headers.etag ?? '';
		for (const asked of [
			{ ifNoneMatch: etag },
			{ ifNoneMatch: `"other", ${etag}` },
			{ ifNoneMatch: etag.slice(2) },
			{ ifNoneMatch: '*' },
			{ ifModifiedSince: headers['last-modified'] },
			{ ifModifiedSince: 'Mon, 01 Feb 2027 00:00:00 GMT' }
		]) {
			expect(await answer(secret, asked)).toMatchObject({ status: 304, body: null, headers: { etag } });
		}
		expect(desk.renders).toBe(1);
	});

	// RFC 9110 13.1.3: If-Modified-Since is ignored beside If-None-Match, and when it is no date
	test.each([
		{ ifNoneMatch: '"other"', ifModifiedSince: 'Mon, 01 Feb 2027 00:00:00 GMT' },
		{ ifModifiedSince: 'yesterday' },
		{ ifModifiedSince: 'Sat, 30 Jan 2027 00:00:00 GMT' },
		{ ifNoneMatch: 'W/""' }
	])('%j is answered in full', async (asked) => {
		const { answer, secret } = await standing(engine);
		expect((await answer(secret, asked)).status).toBe(200);
	});

	test.each([
		['gzip, deflate, br', true],
		['br;q=1.0, gzip;q=0.8, *;q=0.1', true],
		['identity', false],
		['gzip;q=0', false],
		['', false]
	])('Accept-Encoding %j', async (acceptEncoding, zipped) => {
		const { answer, secret } = await standing(engine);
		const plain = await answer(secret, {});
		const asked = await answer(secret, { acceptEncoding });
		expect(asked.headers['content-encoding']).toBe(zipped ? 'gzip' : undefined);
		const bytes = zipped ? gunzipSync(asked.body ?? '') : Buffer.from(asked.body ?? []);
		expect(bytes.equals(Buffer.from(plain.body ?? []))).toBe(true);
	});

	test('a removed task is absent, and an unknown, renewed or revoked secret is a plain 404', async () => {
		const { answer, store, secret, id, desk } = await standing(engine);
		await answer(secret, {});
		desk.plans = planned(sampleTasks().slice(1));
		await edit(store);
		expect(uidsOf(await answer(secret, {}))).not.toContain('copper/test/1@harbour');
		const fresh = (await renewFeed(store, id)) ?? '';
		for (const old of [secret, 'nonsense', '', id]) {
			expect(await answer(old, {})).toMatchObject({
				status: 404,
				headers: { 'content-type': expect.stringMatching(/^text\/plain/) }
			});
		}
		expect((await answer(fresh, {})).status).toBe(200);
		expect(await revokeFeed(store, id)).toBe(true);
		expect((await answer(fresh, {})).status).toBe(404);
		expect(await revokeFeed(store, id)).toBe(false);
		expect(await renewFeed(store, id)).toBeNull();
	});

	test('keeps SEQUENCE across a restart', async () => {
		const { answer, open, store, secret, desk } = await standing(engine);
		await answer(secret, {});
		desk.plans = planned(sampleTasks().map((task) => ({ ...task, at: task.at.replace('T14', 'T15') })));
		await edit(store);
		const restarted = open();
		const text = textOf(await restarted(secret, {}));
		expect(text.match(/^SEQUENCE:1\r$/gm)).toHaveLength(sampleTasks().length);
		expect(textOf(await open()(secret, {}))).toBe(text);
	});

	test('is made anew when a service has passed, and at midnight, and not in between', async () => {
		const { answer, secret, desk } = await standing(engine);
		for (const now of [
			'2027-01-31T12:00:01Z',
			'2027-01-31T23:59:59Z',
			'2027-02-01T00:00:00Z',
			'2027-02-01T13:59:59Z',
			'2027-02-01T14:00:00Z'
		]) {
			desk.now = now;
			await answer(secret, {});
		}
		expect(desk.renders).toBe(3);
	});

	test('ten polls at once share one rendering', async () => {
		const { answer, secret, desk } = await standing(engine);
		const answers = await Promise.all(Array.from({ length: 10 }, () => answer(secret, {})));
		expect(new Set(answers.map(textOf)).size).toBe(1);
		expect(desk.renders).toBe(1);
	});

	test.each([
		[{ kinds: ['dose'] }, ['copper/dose/1@harbour', 'copper/dose/2@harbour']],
		[{ per: 'service' }, [1, 2, 3].map((n) => `copper/service/${n}@harbour`)],
		[{ run: 'elsewhere' }, []],
		[{ tank: 'Q8' }, []],
		[{ run: 'harbour', tank: 'Q7', kinds: ['dose'] }, ['copper/dose/1@harbour', 'copper/dose/2@harbour']]
	] as [FeedScope, string[]][])('shows of %j only that', async (scope, uids) => {
		const { answer, secret } = await standing(engine, scope);
		expect(uidsOf(await answer(secret, {}))).toEqual(uids);
	});

	test('says what it leaves out', async () => {
		const { answer, store, secret, desk } = await standing(engine);
		desk.now = '2027-06-01T00:00:00Z';
		await answer(secret, {});
		expect((await listFeeds(store))[0]?.leftOut).toMatchObject({ earlier: sampleTasks().length });
	});
});

describe('in trouble', () => {
	test('a plan that cannot be made is reported and the last good body served, also after a restart', async () => {
		const { answer, open, store, secret, desk } = await standing('sqlite');
		const good = textOf(await answer(secret, {}));
		Object.defineProperty(desk, 'plans', {
			get: () => {
				throw new Error('a bug');
			}
		});
		await edit(store);
		expect(textOf(await answer(secret, {}))).toBe(good);
		expect(textOf(await open()(secret, {}))).toBe(good);
		expect(desk.reports).toHaveLength(2);
	});

	test('a feed that was never made is an empty calendar', async () => {
		const { answer, secret, desk } = await standing('sqlite');
		Object.defineProperty(desk, 'plans', {
			get: () => {
				throw new Error('a bug');
			}
		});
		expect(textOf(await answer(secret, {}))).toMatch(/^BEGIN:VCALENDAR\r\n[^]*END:VCALENDAR\r\n$/);
	});

	test('with the store away who was here before gets the same, everyone else a 404', async () => {
		const { answer, store, secret, desk } = await standing('sqlite');
		const before = await answer(secret, {});
		await store.close();
		expect(await answer(secret, {})).toEqual(before);
		expect((await answer('other', {})).status).toBe(404);
		expect(desk.reports).toHaveLength(2);
	});
});
