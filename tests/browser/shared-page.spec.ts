import { enterAs, namePeople } from '../people.ts';
import { expect, test, visit } from './app.ts';
import { copperRun } from './day-run.ts';

/*
 * The page of the day is made once for many. Two things must hold all the same: each sees only their own name, role
 * and language, and nobody sees a state older than a write that was answered.
 */
const people = { Kim: 'keeper', Hal: 'helper', Vic: 'viewer' } as const;
type Name = keyof typeof people;
const names = Object.keys(people) as Name[];
const languages = ['en-GB', 'de-DE'] as const;

test('many who ask at once each get their own page', async ({ request, app }) => {
	await copperRun(request, 'q1');
	namePeople(app.folder, people);
	const cookies = new Map<Name, string>();
	for (const name of names) cookies.set(name, (await enterAs(app.url, name)).cookie);
	const asked = Array.from({ length: 8 }, () =>
		names.flatMap((name) => languages.map((language) => ({ name, language })))
	).flat();
	const pages = await Promise.all(
		asked.map(async ({ name, language }) => {
			const headers = { cookie: cookies.get(name) ?? '', 'accept-language': language, accept: 'text/html' };
			const answer = await fetch(`${app.url}/today`, { headers });
			return { name, language, answer, html: await answer.text() };
		})
	);
	for (const { name, language, answer, html } of pages) {
		expect(answer.status).toBe(200);
		expect(answer.headers.get('cache-control')).toBe('no-store');
		expect(answer.headers.get('content-security-policy')).toMatch(/script-src 'self' 'sha256-[^']+';/);
		expect(html).not.toContain('nonce=');
		const own = names.filter((one) => html.includes(`>${one}</a>`) || html.includes(`"${one}"`));
		expect(own).toEqual([name]);
		expect(html.includes('People and passphrases')).toBe(people[name] === 'keeper');
		expect(html).toContain(`locale:"${language}"`);
	}
	const nobody = await fetch(`${app.url}/today`, { headers: { accept: 'text/html' }, redirect: 'manual' });
	expect(nobody.status).toBe(303);
	expect((await fetch(`${app.url}/api/today`)).status).toBe(401);
});

test('who has left is out from the next look on', async ({ request, app }) => {
	await copperRun(request, 'q1');
	namePeople(app.folder, people);
	const { cookie } = await enterAs(app.url, 'Hal');
	const look = () =>
		fetch(`${app.url}/today`, { headers: { cookie, accept: 'text/html' }, redirect: 'manual' });
	expect(await (await look()).text()).toContain('data-may="log"');
	await fetch(`${app.url}/enter?/leave`, {
		method: 'POST',
		headers: { cookie, origin: app.url, 'content-type': 'application/x-www-form-urlencoded' },
		body: '',
		redirect: 'manual'
	});
	expect((await look()).status).toBe(303);
});

test('while eight look and one edits, no answered edit is missing from any later look', async ({
	request,
	app
}) => {
	await copperRun(request, 'q1');
	let acknowledged = 0;
	let ended = false;
	const looks: { known: number; shown: number }[] = [];
	const look = async (path: string) => {
		while (!ended) {
			const known = acknowledged;
			const body = await (await fetch(app.url + path, { headers: { accept: 'text/html' } })).text();
			const shown = Math.max(0, ...[...body.matchAll(/basin (\d+)/g)].map(([, n]) => Number(n)));
			looks.push({ known, shown });
		}
	};
	const edit = async () => {
		for (let n = 1; n <= 30; n++) {
			const edits = [{ path: ['tank', 'name'], to: `basin ${n}` }];
			const answer = await fetch(`${app.url}/api/runs/q1/edits`, {
				method: 'POST',
				headers: { 'content-type': 'application/json' },
				body: JSON.stringify({ id: `e${n}`, base: n, edits })
			});
			expect(answer.status).toBe(200);
			acknowledged = n;
		}
		ended = true;
	};
	await Promise.all([edit(), ...Array.from({ length: 8 }, (_, n) => look(n % 2 ? '/today' : '/api/today'))]);
	for (const { known, shown } of looks) expect(shown).toBeGreaterThanOrEqual(known);
	expect(new Set(looks.map(({ shown }) => shown)).size).toBeGreaterThan(1);
});

test('a page that has not changed is not sent again', async ({ page, request, app }) => {
	await copperRun(request, 'q1');
	const answer = await request.get('/today');
	const tag = answer.headers()['etag'] ?? '';
	// a minute may turn between two looks, and with it the page; then the next two are within one
	await expect(async () => {
		const first = await fetch(`${app.url}/today`);
		const again = await fetch(`${app.url}/today`, {
			headers: { 'if-none-match': first.headers.get('etag') ?? '' }
		});
		expect(again.status).toBe(304);
	}).toPass();
	expect(tag).not.toBe('');
	const refused: string[] = [];
	page.on('console', (message) => message.type() === 'error' && refused.push(message.text()));
	await visit(page, '/today');
	await page.reload();
	await page.locator('html[data-hydrated]').waitFor();
	expect(refused).toEqual([]);
});
