import { enterAs, namePeople, passphrase } from '../people.ts';
import { expect, test } from './app.ts';

test.use({ viewport: { width: 390, height: 844 }, hasTouch: true });

/** Title and address of each event of a calendar file. */
const eventsIn = (text: string): { title: string; url: string }[] =>
	text
		.replace(/\r\n /g, '')
		.split('BEGIN:VEVENT')
		.slice(1)
		.map((event) => ({
			title: /^SUMMARY:(.*)\r$/m.exec(event)?.[1] ?? '',
			url: /^URL:(.*)\r$/m.exec(event)?.[1] ?? ''
		}));

for (const per of ['task', 'service'] as const)
	test(`from an entry for each ${per} to the job on the phone, through the door where there is one`, async ({
		page,
		request,
		app
	}) => {
		const { run } = (await (await request.post('/api/demo')).json()) as { run: { id: string } };
		const file = await request.get(`/api/runs/${run.id}/export?as=ics&kinds=change&per=${per}`);
		const events = eventsIn(await file.text()).filter(({ title }) => !/^[✓✗]/.test(title));
		const { title = '', url = '' } = events.at(-1) ?? {};
		const job = decodeURIComponent(/\?task=(.*)$/.exec(url)?.[1] ?? '');
		expect(job).toMatch(/\/change\/\d+$/);

		await page.goto(url);
		const marked = page.getByRole('dialog').locator('.marked');
		await expect(marked).toHaveAttribute('data-task', job);
		// behind the tank's name stands what the day shows
		expect(title).toContain(((await marked.getByRole('heading').textContent()) ?? '').trim());

		namePeople(app.folder, { Hal: 'helper' });
		await page.goto(url);
		await expect(page).toHaveURL(/\/enter\?to=/);
		await page.getByLabel('Name', { exact: true }).fill('Hal');
		await page.getByLabel(/^Passphrase/).fill(passphrase);
		await page.getByRole('button', { name: 'Enter' }).click();
		await expect(page).toHaveURL(url);
		await expect(marked).toHaveAttribute('data-task', job);
		await expect(marked).toBeInViewport();
		expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(
			0
		);
	});

test('a link whose run is gone or whose job left the plan says so, and its address leaks nothing to a stranger', async ({
	page,
	request,
	app
}) => {
	const { run } = (await (await request.post('/api/demo')).json()) as { run: { id: string } };
	await page.goto(`/runs/${run.id}?task=none/change/1`);
	await expect(page.getByText(/has no task “none\/change\/1” any more/)).toBeVisible();
	namePeople(app.folder, { Hal: 'helper' });
	const stranger = await fetch(`${app.url}/runs/gone?task=none/change/1`, {
		headers: { accept: 'text/html' },
		redirect: 'manual'
	});
	expect(stranger.headers.get('location')).toBe('/enter?to=%2Fruns%2Fgone%3Ftask%3Dnone%2Fchange%2F1');
	const { cookie } = await enterAs(app.url, 'Hal');
	expect((await fetch(`${app.url}/runs/gone?task=x`, { headers: { cookie } })).status).toBe(404);
});
