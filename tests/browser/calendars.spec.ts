import { readFileSync } from 'node:fs';
import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test } from './app.ts';

async function opened(page: Page, path = '/calendars'): Promise<void> {
	await page.goto(path);
	await page.waitForSelector('html[data-hydrated]');
}

const textOf = async (download: { path: () => Promise<string> }) =>
	readFileSync(await download.path(), 'utf8').replace(/\r\n /g, '');

test('a run is exported with the kinds, alarms and shape that were chosen, each task with its link', async ({
	page,
	request,
	baseURL
}) => {
	const { run: demo } = (await (await request.post('/api/demo')).json()) as { run: { id: string } };
	await opened(page, `/runs/${demo.id}`);
	await page.getByRole('button', { name: 'Export .ics' }).click();
	const dialog = page.getByRole('dialog', { name: 'Export as a calendar file' });
	await expect(dialog.getByRole('checkbox', { name: 'Top-offs' })).not.toBeChecked();
	for (const kind of await dialog.getByRole('checkbox').all())
		await kind.setChecked((await kind.getAttribute('value')) === 'dose');
	await dialog.getByLabel('Alarm for Doses, minutes before').fill('45');
	const saving = page.waitForEvent('download');
	await dialog.getByRole('button', { name: 'Save the file' }).click();
	const saved = await saving;
	expect(saved.suggestedFilename()).toMatch(/\.ics$/);
	const text = await textOf(saved);
	const count = (pattern: RegExp) => text.match(pattern)?.length ?? 0;
	expect(count(/^BEGIN:VEVENT/gm)).toBeGreaterThan(3);
	expect(count(/^CATEGORIES:dose\r$/gm)).toBe(count(/^BEGIN:VEVENT/gm));
	expect(count(/^TRIGGER:-PT45M\r$/gm)).toBeGreaterThan(0);
	expect(text).toContain(`URL:${baseURL}/runs/${demo.id}?task=`);
});

test('a file asked for again is the same, and as whole days each entry outranks its old self', async ({
	request
}) => {
	const { run } = (await (await request.post('/api/demo')).json()) as { run: { id: string } };
	const file = async (query: string) =>
		(await request.get(`/api/runs/${run.id}/export?as=ics&kinds=dose${query}`)).text();
	const first = await file('&alarm.dose=45');
	expect(first).toContain('SEQUENCE:0');
	expect(await file('&alarm.dose=45')).toBe(first);
	const days = await file('&times=days');
	expect(days).toContain('DTSTART;VALUE=DATE:');
	expect(days).toContain('SEQUENCE:1');
	expect(days).not.toContain('SEQUENCE:0');
});

test('every run in one file, and what cannot be read is refused in a sentence', async ({ request }) => {
	await request.post('/api/demo');
	const all = await request.get('/api/calendars/file?kinds=release&per=service');
	expect(all.headers()['content-type']).toContain('text/calendar');
	expect((await all.text()).match(/^BEGIN:VEVENT/gm)?.length).toBe(2);
	for (const query of ['kinds=party', 'per=week', 'alarm.dose=soon']) {
		const answer = await request.get(`/api/calendars/file?${query}`);
		expect(answer.status()).toBe(422);
		const { error } = (await answer.json()) as { error: { message: string } };
		expect(error.message).toMatch(/: saw .*, expected /);
	}
	expect((await request.get('/api/runs/none/export?as=ics')).status()).toBe(404);
});

// what runs from sources may still fail where it was built: the library of rules is no module to Node
test('the built server expands a rule of RFC 5545', async ({ request }) => {
	const phase = { id: 'look', kind: 'observe', starts: 'on 2027-02-01', lasts: '14 d' };
	const document = {
		format: 'lazaret-plan/1',
		name: 'Quay',
		timeZone: 'UTC',
		service: '08:00',
		tank: { name: 'Q7', net: '112 L' },
		phases: [{ ...phase, test: 'NH3 RRULE:FREQ=WEEKLY;BYDAY=MO,TH' }]
	};
	expect((await request.post('/api/runs', { data: { id: 'quay', document } })).status()).toBe(201);
	const text = await (await request.get('/api/runs/quay/export?as=ics&kinds=test')).text();
	// Mondays and Thursdays of the two weeks from Monday 1 February 2027
	expect(text.match(/(?<=^DTSTART:)\d{8}/gm)).toEqual(['20270201', '20270204', '20270208', '20270211']);
});

test('a server that cannot be reached, or is none, is one sentence on the page, and nothing is kept', async ({
	page
}) => {
	await opened(page);
	await page.getByText('Follow the plans on a server').click();
	const server = page.getByLabel('Address of the server');
	await page.getByLabel('User').fill('keeper');
	await page.getByLabel(/^Password/).fill('salt');
	for (const [address, sentence] of [
		['http://127.0.0.1:9/', 'cannot be reached'],
		['ftp://127.0.0.1/', 'expected an address that begins with https:// or http://'],
		[`${new URL(page.url()).origin}/`, 'shows no calendars at this address']
	] as const) {
		await server.fill(address);
		await page.getByRole('button', { name: 'Find calendars' }).click();
		await expect(page.getByRole('alert')).toContainText(sentence);
	}
	await server.fill('http://dav.example/');
	await expect(page.getByText('the password goes over the network')).toBeVisible();
	await page.reload();
	await expect(page.getByRole('region', { name: 'Calendar servers' }).getByText('None yet.')).toBeVisible();
});

test('a subscription says what it shows, by kind and shape', async ({ page }) => {
	await opened(page);
	await page.getByText('Make a subscription').click();
	await page.getByLabel('Name', { exact: true }).fill('Harbour');
	await page.getByRole('checkbox', { name: 'Looking at the fish' }).uncheck();
	await page.getByRole('radio', { name: 'each service, with all its tasks' }).check();
	await page.getByRole('button', { name: 'Make the address' }).click();
	await expect(page.getByRole('heading', { name: 'The address of Harbour' })).toBeVisible();
	await expect(
		page.getByText('every run · without looking at the fish, top-offs · per service')
	).toBeVisible();
});

const rules = ['wcag2a', 'wcag2aa', 'wcag21aa'];

for (const scheme of ['light', 'dark'] as const)
	for (const part of ['page', 'dialog'] as const)
		test(`the ${part} stands up to axe, ${scheme}`, async ({ page }) => {
			await page.emulateMedia({ colorScheme: scheme, reducedMotion: 'reduce' });
			await opened(page);
			if (part === 'dialog') await page.getByRole('button', { name: 'Export .ics' }).click();
			else await unfold(page);
			expect((await new AxeBuilder({ page }).withTags(rules).analyze()).violations).toEqual([]);
		});

test('the page fits a narrow screen, with targets for a thumb', async ({ page }) => {
	await page.setViewportSize({ width: 390, height: 800 });
	await opened(page);
	await unfold(page);
	const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
	expect(over).toBeLessThanOrEqual(0);
	const heights = await page
		.locator('main button:visible, main select:visible')
		.evaluateAll((controls) => controls.map((one) => one.getBoundingClientRect().height));
	expect(Math.min(...heights)).toBeGreaterThanOrEqual(44);
});

const unfold = (page: Page): Promise<void> =>
	page.locator('details').evaluateAll((all) => all.forEach((one) => one.setAttribute('open', '')));
