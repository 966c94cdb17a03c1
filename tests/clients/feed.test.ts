import { createServer, type Server as HttpServer } from 'node:http';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Planned } from '../../src/lib/calendar/index.ts';
import { samplePlan, sampleRun, sampleTasks } from '../../src/lib/calendar/sample-plan.ts';
import { createFeed, createRun, openFeeds, openStore, type Store } from '../../src/lib/server/index.ts';
import { khalIn } from './khal.ts';
import { folder, run, serve, type Server } from './program.ts';

/** The app's own feed over a plain HTTP server, polled by vdirsyncer and carried on to a CalDAV server. */
let place: ReturnType<typeof folder>;
let store: Store;
let web: HttpServer;
let radicale: Server;
let secret: string;
let planned: Planned[] = [];
let config: string;

const plans = (tasks = sampleTasks()): Planned[] => [{ run: sampleRun(), plan: samplePlan(tasks) }];

beforeAll(async () => {
	place = folder();
	store = await openStore({
		folder: mkdtempSync(join(tmpdir(), 'lazaret-feed-')),
		now: () => '2027-01-31T12:00:00.000Z'
	});
	({ secret } = await createFeed(store, { name: 'Harbour', scope: {} }));
	const answer = openFeeds({
		store,
		plansOf: () => Promise.resolve(planned),
		report: (error) => console.error(error)
	});
	web = createServer((request, response) => {
		const asked = {
			ifNoneMatch: request.headers['if-none-match'],
			acceptEncoding: request.headers['accept-encoding'] as string | undefined
		};
		void answer(request.url?.replace(/^\/feed\/(.*)\.ics$/, '$1') ?? '', asked).then(
			({ status, headers, body }) => {
				response.writeHead(status, headers).end(body);
			}
		);
	});
	await new Promise<void>((resolve) => web.listen(0, '127.0.0.1', resolve));
	const data = join(place.path, 'radicale');
	radicale = await serve('radicale', (port) => [
		'--hosts',
		`127.0.0.1:${port}`,
		'--storage-filesystem-folder',
		data,
		'--auth-type',
		'none'
	]);
	config = writeConfig((web.address() as AddressInfo).port);
});

afterAll(async () => {
	await radicale.stop();
	web.close();
	await store.close();
	rmSync(store.folder, { recursive: true });
	place.remove();
});

function writeConfig(port: number): string {
	const path = join(place.path, 'vdirsyncer.conf');
	mkdirSync(join(place.path, 'calendar'));
	writeFileSync(
		path,
		`[general]
status_path = "${join(place.path, 'status')}"
[pair subscribed]
a = "feed"
b = "folder"
collections = null
[storage feed]
type = "http"
url = "http://127.0.0.1:${port}/feed/${secret}.ics"
[storage folder]
type = "filesystem"
path = "${join(place.path, 'calendar')}"
fileext = ".ics"
[pair carried]
a = "folder"
b = "server"
collections = null
[storage server]
type = "caldav"
url = "${radicale.url}/keeper/run/"
username = "keeper"
password = "none"
`
	);
	return path;
}

async function sync(): Promise<string[]> {
	const request = { method: 'MKCALENDAR', headers: { authorization: `Basic ${btoa('keeper:none')}` } };
	await fetch(`${radicale.url}/keeper/run/`, request);
	for (const pair of ['subscribed', 'carried']) {
		await run('vdirsyncer', ['-c', config, 'discover', pair]);
		await run('vdirsyncer', ['-c', config, 'sync', pair]);
	}
	return (await khalIn(place.path).shown()).map((line) => line.replace(/^[^|]*\|/, '')).toSorted();
}

/** What the CalDAV server holds now, file by file. */
const held = (): string[] => {
	const data = join(place.path, 'radicale/collection-root/keeper/run');
	return readdirSync(data)
		.filter((name) => name.endsWith('.ics'))
		.map((name) => /^SUMMARY:(.*)$/m.exec(readFileSync(join(data, name), 'utf8'))?.[1]?.trim() ?? '');
};

test('a subscriber sees a task move, be renamed, be done and go, each once, and so does a CalDAV server behind it', async () => {
	planned = plans();
	const first = await sync();
	expect(first).toHaveLength(8);
	expect(first).toContain('2027-02-02 14:00|Q7: Ionic copper 4.3 mL|');
	planned = plans(
		sampleTasks()
			.filter(({ id }) => id !== 'copper/change/3')
			.map((task) => (task.id === 'copper/dose/2' ? { ...task, at: '2027-02-05T14:00:00Z' } : task))
			.map((task) => (task.id === 'copper/test/1' ? { ...task, state: 'done' as const } : task))
			.map((task) => (task.id === 'copper/test/2' ? { ...task, text: 'Test Cu and pH' } : task))
	);
	await createRun(store, { id: 'mark', document: { format: 'lazaret-plan/1', name: 'x' }, who: 'keeper' });
	expect(await sync()).toEqual(
		[
			'2027-02-01 14:00|Q7: Change 24 L|',
			'2027-02-01 14:00|Q7: Ionic copper 4.3 mL|',
			'2027-02-01 14:00|✓ Q7: Test Cu|CONFIRMED',
			'2027-02-02 14:00|Q7: Change 24 L|',
			'2027-02-02 14:00|Q7: Test Cu and pH|',
			'2027-02-03 14:00|Q7: Test Cu|',
			'2027-02-05 14:00|Q7: Ionic copper 4.3 mL|'
		].toSorted()
	);
	expect(held().toSorted()).toEqual([
		'Q7: Change 24 L',
		'Q7: Change 24 L',
		'Q7: Ionic copper 4.3 mL',
		'Q7: Ionic copper 4.3 mL',
		'Q7: Test Cu',
		'Q7: Test Cu and pH',
		'✓ Q7: Test Cu'
	]);
});
