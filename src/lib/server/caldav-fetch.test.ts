import { createServer, type RequestListener } from 'node:http';
import type { AddressInfo } from 'node:net';
import { describe, expect, onTestFinished, test } from 'vitest';
import { boundedFetch, DavTrouble, serverAddress } from './caldav-fetch.ts';

const login = { user: 'keeper', password: 'a:b' };

async function serving(listener: RequestListener): Promise<URL> {
	const server = createServer(listener);
	await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
	onTestFinished(() => {
		server.closeAllConnections();
		server.close();
	});
	return new URL(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
}

describe('the address of a server', () => {
	test.each(['https://dav.example/', ' http://127.0.0.1:5232/keeper/ ', 'https://dav.example/a?b#c'])(
		'%j is one',
		(typed) => expect(serverAddress(typed).href).toMatch(/^https?:\/\/[\w.:]+\/[\w/]*$/)
	);

	test.each([
		'',
		'dav.example',
		'ftp://dav.example',
		'file:///etc/passwd',
		'javascript:alert(1)',
		'https://'
	])('%j is none', (typed) =>
		expect(() => serverAddress(typed)).toThrow(/expected an address that begins with https/)
	);

	test('no password inside it', () => {
		expect(() => serverAddress('https://a:b@dav.example')).toThrow(/in their own fields/);
	});
});

describe('a request to a server', () => {
	test('carries the login and follows redirects within the server', async () => {
		const seen: (string | undefined)[] = [];
		const server = await serving((request, response) => {
			seen.push(request.headers.authorization);
			if (request.url === '/') response.writeHead(301, { location: '/dav/' }).end();
			else response.end('here');
		});
		expect(await (await boundedFetch(server, login)(server)).text()).toBe('here');
		expect(seen).toEqual([`Basic ${btoa('keeper:a:b')}`, `Basic ${btoa('keeper:a:b')}`]);
	});

	test('never leaves it: another host gets no request and no password', async () => {
		let asked = 0;
		const other = await serving((_request, response) => (asked++, response.end()));
		const server = await serving((_request, response) =>
			response.writeHead(302, { location: other.href }).end()
		);
		await expect(boundedFetch(server, login)(server)).rejects.toThrow(/points to another address/);
		await expect(boundedFetch(server, login)(other)).rejects.toThrow(/points to another address/);
		expect(asked).toBe(0);
	});

	test('in circles, unanswered, too long or in trouble is one sentence', async () => {
		const circling = await serving((_request, response) => response.writeHead(302, { location: '/' }).end());
		await expect(boundedFetch(circling, login)(circling)).rejects.toThrow(/in circles/);
		const silent = await serving(() => undefined);
		await expect(boundedFetch(silent, login, { ms: 50 })(silent)).rejects.toThrow(/did not answer in time/);
		const endless = await serving((_request, response) => response.end('x'.repeat(2_000_000)));
		await expect(boundedFetch(endless, login, { octets: 1_000_000 })(endless)).rejects.toThrow(
			/answered with more than 1 MB/
		);
		const dripping = await serving((_request, response) => response.write('x'));
		await expect(boundedFetch(dripping, login, { ms: 80 })(dripping)).rejects.toThrow(DavTrouble);
		for (const status of [500, 503, 429]) {
			const ill = await serving((_request, response) => response.writeHead(status).end());
			await expect(boundedFetch(ill, login)(ill)).rejects.toMatchObject({ kind: 'away' });
		}
		const shut = await serving((_request, response) => response.writeHead(401).end());
		await expect(boundedFetch(shut, login)(shut)).rejects.toMatchObject({ kind: 'password' });
		await expect(boundedFetch(new URL('http://127.0.0.1:1/'), login)('http://127.0.0.1:1/')).rejects.toThrow(
			/cannot be reached/
		);
	});
});
