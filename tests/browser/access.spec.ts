import { readdirSync, readFileSync } from 'node:fs';
import { request as plainRequest } from 'node:http';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { accessTable, mayDo, type Role } from '../../src/lib/server/index.ts';
import { startApp, type App } from '../built-app.ts';
import { enterAs, namePeople, passphrase } from '../people.ts';
import { expect, test, visit } from './app.ts';

const trial = { format: 'lazaret-plan/1', name: 'Trial', phases: [{ id: 'a', lasts: '3 d' }] };
const everybody = { Kim: 'keeper', Hal: 'helper', Vic: 'viewer' } as const;

/** One request as a program makes it; the status says who may. */
async function ask(app: App, method: string, path: string, cookie: string, accept = 'application/json') {
	const body = method === 'GET' ? undefined : '{}';
	const headers = { origin: app.url, accept, cookie, 'content-type': 'application/json' };
	return fetch(app.url + path, { method, headers, body, redirect: 'manual' });
}

const asksToEnter = async (answer: Response) =>
	answer.status === 401 && (await answer.text()).includes('enter-first');
const refusesRole = async (answer: Response) =>
	answer.status === 403 && (await answer.text()).includes('not-allowed');

test('every route and method answers each role, and nobody, as the table says', async ({ app }) => {
	await fetch(`${app.url}/api/runs`, {
		method: 'POST',
		headers: { 'content-type': 'application/json' },
		body: JSON.stringify({ id: 'r1', document: trial })
	});
	namePeople(app.folder, everybody);
	const cookies: [Role | null, string][] = [[null, '']];
	for (const [name, role] of Object.entries(everybody))
		cookies.push([role, (await enterAs(app.url, name)).cookie]);
	let cells = 0;
	for (const [id, row] of Object.entries(accessTable)) {
		const path = id
			.replace('[id]', 'r1')
			.replace('[version]', '1')
			.replace(/\[[^\]]+\]/g, 'x');
		for (const [method, [least]] of Object.entries(row)) {
			for (const [role, cookie] of cookies) {
				const answer = await ask(app, method, path, cookie);
				const cell = `${method} ${path} as ${role ?? 'nobody'}: ${answer.status}`;
				const copy = answer.clone();
				if (mayDo(role, least)) {
					expect(await asksToEnter(answer), cell).toBe(false);
					expect(await refusesRole(copy), cell).toBe(false);
					expect(copy.status, cell).toBeLessThan(500);
				} else if (role === null) expect(await asksToEnter(answer), cell).toBe(true);
				else expect(await refusesRole(answer), cell).toBe(true);
				cells++;
			}
		}
	}
	expect(cells).toBeGreaterThan(100);
	// a token that is none, or was one, is nobody's
	for (const cookie of ['lazaret=', `lazaret=${'x'.repeat(43)}`, 'lazaret=%00', "lazaret=' or 1=1"])
		expect((await ask(app, 'GET', '/api/runs', cookie)).status).toBe(401);
	expect((await ask(app, 'GET', '/no-such-page', '')).status).toBe(401);
});

test('a page asks to enter first and leads back, never elsewhere', async ({ app }) => {
	namePeople(app.folder, everybody);
	const answer = await ask(app, 'GET', '/runs?x=1', '', 'text/html');
	expect([answer.status, answer.headers.get('location')]).toEqual([303, '/enter?to=%2Fruns%3Fx%3D1']);
	for (const to of ['//evil.example', '/\\evil.example', 'https://evil.example', 'javascript:alert(1)']) {
		const came = await fetch(`${app.url}/enter?/enter&to=${encodeURIComponent(to)}`, {
			method: 'POST',
			headers: { origin: app.url, accept: 'text/html' },
			body: new URLSearchParams({ name: 'Kim', passphrase }),
			redirect: 'manual'
		});
		expect([came.status, came.headers.get('location')]).toEqual([303, '/']);
	}
});

test('the cookie is for this site alone and out of reach of scripts', async ({ app }) => {
	namePeople(app.folder, everybody);
	const { answer } = await enterAs(app.url, 'kim');
	const cookie = answer.headers.get('set-cookie') ?? '';
	expect(cookie).toMatch(/^lazaret=[\w-]{43}; /);
	expect(cookie).toMatch(/; HttpOnly/i);
	expect(cookie).toMatch(/; SameSite=Lax/i);
	expect(cookie).not.toMatch(/; (Secure|Domain)/i);
});

test('a forged origin writes nothing, though it brings the cookie', async ({ app }) => {
	namePeople(app.folder, everybody);
	const { cookie } = await enterAs(app.url, 'Kim');
	for (const [path, type] of [
		['/api/runs', 'application/json'],
		['/people?/remove', 'application/x-www-form-urlencoded'],
		['/enter?/leave-everywhere', 'text/plain']
	] as const) {
		const headers = { origin: 'http://evil.example', cookie, 'content-type': type };
		const answer = await fetch(app.url + path, { method: 'POST', headers, body: '{}', redirect: 'manual' });
		expect([path, answer.status]).toEqual([path, 403]);
	}
	expect((await ask(app, 'GET', '/api/runs', cookie)).status).toBe(200);
});

test('guesses are slowed: told how long to wait, and the right passphrase waits too', async ({ app }) => {
	namePeople(app.folder, everybody);
	const statuses = [];
	for (let n = 0; n < 6; n++) statuses.push((await enterAs(app.url, 'Kim', `wrong words ${n}`)).answer);
	expect(statuses.map(({ status }) => status)).toEqual([403, 403, 403, 403, 403, 429]);
	expect(Number(statuses[5]?.headers.get('retry-after'))).toBeGreaterThan(0);
	const crowd = await Promise.all(
		Array.from({ length: 30 }, () => enterAs(app.url, 'Kim', 'wrong words here'))
	);
	expect(crowd.filter(({ answer }) => answer.status !== 429).length).toBeLessThanOrEqual(1);
});

test('passphrases, tokens and the secrets of calendars are in no log, address or file', async ({ app }) => {
	namePeople(app.folder, everybody);
	const { cookie, answer } = await enterAs(app.url, 'Kim');
	const wrong = 'wrong words in the field';
	const mistyped = 'kelp in the wrong field';
	const secrets = [passphrase, wrong, mistyped, cookie.slice('lazaret='.length)];
	const addresses = [answer.headers.get('location') ?? ''];
	for (const [name, given] of [
		['Kim', wrong],
		[mistyped, passphrase]
	] as const) {
		const tried = await enterAs(app.url, name, given);
		addresses.push(tried.answer.headers.get('location') ?? '', tried.answer.url);
		expect(await tried.answer.text()).not.toContain(given);
	}
	const made = await fetch(`${app.url}/api/feeds`, {
		method: 'POST',
		headers: { cookie, 'content-type': 'application/json' },
		body: JSON.stringify({ name: 'Q', scope: {} })
	});
	const { secret } = (await made.json()) as { secret: string };
	secrets.push(secret);
	expect((await fetch(`${app.url}/feed/${secret}.ics`)).status).toBe(200);
	await fetch(`${app.url}/feed/${secret}x.ics`);
	await fetch(`${app.url}/feed/${secret}/more`);
	// a form that is none, for what is written down about trouble
	await fetch(`${app.url}/enter?/enter`, {
		method: 'POST',
		headers: { origin: app.url },
		body: new FormData()
	});
	await app.stop();
	const files = readdirSync(app.folder, { recursive: true, withFileTypes: true }).filter((file) =>
		file.isFile()
	);
	expect(files.length).toBeGreaterThan(0);
	const kept = files.map((file) => readFileSync(join(file.parentPath, file.name), 'latin1')).join('\n');
	for (const one of secrets) {
		expect(app.said()).not.toContain(one);
		expect(addresses.join('\n')).not.toContain(one);
		expect(kept).not.toContain(one);
	}
	expect(kept).toContain('somebody unknown');
});

test('a request that a proxy handed on gets nothing while nobody has a passphrase', async ({ app }) => {
	const headers = { 'x-forwarded-for': '203.0.113.9' };
	expect((await fetch(`${app.url}/api/runs`, { headers })).status).toBe(403);
	expect((await fetch(`${app.url}/api/runs`)).status).toBe(200);
});

test('behind a proxy that speaks https the cookie is for https, and others may not say they are one', async () => {
	const first = await startApp();
	await first.stop();
	namePeople(first.folder, everybody);
	const env = { TRUST_PROXY: '1', LAZARET_HOSTS: 'shop.example' };
	const app = await startApp(first.folder, env);
	const status = (host: string, extra: Record<string, string>) =>
		new Promise<{ status: number; cookie: string }>((resolve, reject) => {
			const headers = {
				host,
				accept: 'text/html',
				'content-type': 'application/x-www-form-urlencoded',
				...extra
			};
			const asked = plainRequest(`${app.url}/enter?/enter`, { method: 'POST', headers }, (answer) => {
				answer.resume();
				resolve({ status: answer.statusCode ?? 0, cookie: String(answer.headers['set-cookie'] ?? '') });
			});
			asked.on('error', reject);
			asked.end(new URLSearchParams({ name: 'Kim', passphrase }).toString());
		});
	const https = { 'x-forwarded-proto': 'https', 'x-forwarded-for': '203.0.113.9' };
	const came = await status('shop.example', { ...https, origin: 'https://shop.example' });
	expect(came.status).toBe(303);
	expect(came.cookie).toMatch(/^__Host-lazaret=.*; Secure/);
	expect((await status('shop.example', { ...https, origin: 'http://shop.example' })).status).toBe(403);
	expect((await status('evil.example', { ...https, origin: 'https://evil.example' })).status).toBe(421);
	await app.stop();
});

test('listens to others only once somebody has a passphrase', async () => {
	await expect(startApp(undefined, { HOST: '0.0.0.0' })).rejects.toThrow(
		/lazaret: HOST: others could reach this app and nobody has a passphrase; "[^\n]*people add NAME keeper"[^\n]*\n$/
	);
	const first = await startApp();
	await first.stop();
	namePeople(first.folder, everybody);
	const app = await startApp(first.folder, { HOST: '0.0.0.0' });
	expect((await fetch(`${app.url}/api/runs`)).status).toBe(401);
	expect(app.said()).toMatch(/ready on http:\/\/127\.0\.0\.1:\d+/);
	await app.stop();
});

const enterOn = async (page: Page, name: string, given = passphrase) => {
	await page.getByLabel('Name', { exact: true }).fill(name);
	await page.getByLabel('Passphrase').fill(given);
	await page.getByRole('button', { name: 'Enter' }).click();
};

test('the first keeper is named on a page, names others, and each does what the role allows', async ({
	page,
	browser,
	app
}) => {
	// two passphrases at full cost, and a dozen pages
	test.slow();
	await page.goto('/people');
	await page.getByLabel('Name', { exact: true }).fill('Kim');
	await page.getByLabel(/^Passphrase/).fill(passphrase);
	await page.getByRole('button', { name: 'Name the keeper' }).click();
	await expect(page.getByRole('heading', { name: 'Kim' })).toBeVisible();
	await page.getByLabel('Name', { exact: true }).fill('Hal');
	await page.getByLabel(/^Passphrase/).fill(passphrase);
	await page.getByRole('button', { name: 'Name them' }).click();
	await expect(page.getByRole('status').filter({ hasText: 'Hal: may enter as helper' })).toBeVisible();
	const made = await page.request.post('/api/runs', { data: { id: 'r1', document: trial } });
	expect(made.status()).toBe(201);

	const other = await (await browser.newContext({ baseURL: app.url })).newPage();
	await other.goto('/calendars');
	await expect(other).toHaveURL(/\/enter\?to=/);
	await enterOn(other, 'Hal', 'wrong words here');
	await expect(other.getByRole('alert')).toHaveText('The name or the passphrase is wrong.');
	await enterOn(other, 'Hal');
	await other.waitForURL('/calendars');
	await other.goto('/people');
	await expect(other.getByText(/A helper may not do this/)).toBeVisible();

	// the keeper logs the helper out, and sees what was done
	await page.goto('/people');
	await page.getByText('More about Hal').click();
	await page.getByRole('button', { name: 'Log Hal out everywhere' }).click();
	await expect(page.getByText('Hal: was logged out everywhere.')).toBeVisible();
	await page.goto('/people');
	await expect(page.getByRole('cell', { name: 'was logged out everywhere: Hal' })).toBeVisible();
	await expect(page.getByRole('cell', { name: 'made a run' })).toBeVisible();
	await other.goto('/runs');
	await expect(other).toHaveURL(/\/enter/);
	await other.context().close();
});

test('somebody changes their passphrase and leaves, by the keyboard', async ({ page, app }) => {
	namePeople(app.folder, everybody);
	await page.goto('/people/me');
	await page.getByLabel('Name', { exact: true }).focus();
	await page.keyboard.type('Vic');
	await page.keyboard.press('Tab');
	await page.keyboard.type(passphrase);
	await page.keyboard.press('Enter');
	await page.waitForURL((url) => url.pathname === '/people/me');
	await expect(page.getByRole('heading', { name: 'Vic', exact: true })).toBeVisible();
	await page.getByLabel('The old one').fill(passphrase);
	await page.getByLabel(/A new one/).fill('other words for the sea');
	await page.keyboard.press('Enter');
	await expect(page.getByText('The new passphrase holds')).toBeVisible();
	await page.getByRole('button', { name: 'Log out', exact: true }).focus();
	await page.keyboard.press('Enter');
	await expect(page.getByRole('heading', { name: 'Enter' })).toBeVisible();
	await enterOn(page, 'Vic', 'other words for the sea');
	await expect(page).not.toHaveURL(/\/enter/);
});

for (const colorScheme of ['light', 'dark'] as const)
	test(`the pages of people break no accessibility rule and fit a phone, ${colorScheme}`, async ({
		page,
		app
	}) => {
		namePeople(app.folder, everybody);
		await page.emulateMedia({ colorScheme });
		await page.setViewportSize({ width: 390, height: 844 });
		const found: unknown[] = [];
		const look = async (path: string) => {
			await visit(page, path);
			expect([path, await page.evaluate(() => document.documentElement.scrollWidth)]).toEqual([path, 390]);
			for (const { id, nodes } of (await new AxeBuilder({ page }).analyze()).violations)
				found.push([path, id, nodes[0]?.html.slice(0, 120)]);
		};
		await look('/enter');
		await enterOn(page, 'Kim');
		await page.waitForURL((url) => url.pathname !== '/enter');
		for (const path of ['/people', '/people/me', '/enter']) await look(path);
		expect(found).toEqual([]);
	});
