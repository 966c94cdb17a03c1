import { startApp } from '../built-app.ts';
import { enterAs, namePeople, passphrase } from '../people.ts';
import { expect, test } from './app.ts';
import { findChromium } from './chromium.ts';
import { copperRun, newEntries } from './day-run.ts';
import { ammoniaTest, change, copperTest, dose, job, openToday, read } from './round-page.ts';

test.use({ viewport: { width: 390, height: 844 } });
// the app is stopped and started again in between
test.describe.configure({ timeout: 240_000 });

test('without network ten entries are kept through a reload, and sent once each when it is back', async ({
	page,
	context,
	request,
	app
}) => {
	await copperRun(request, 'q2');
	await openToday(page);
	await page.locator('html[data-kept]').waitFor();
	await expect
		.poll(() => page.evaluate(async () => Boolean(await (await caches.open('lazaret-kept')).match('/today'))))
		.toBe(true);

	await context.setOffline(true);
	await read(page, 'q2', copperTest, '0.16');
	await read(page, 'q2', ammoniaTest, '0.2');
	await job(page, 'q2', change).getByRole('button', { name: /^Done/ }).click();
	await job(page, 'q2', dose).getByRole('button', { name: /^Done/ }).click();
	const sheet = page.getByRole('dialog');
	for (let n = 1; n <= 6; n++) {
		await page.getByRole('button', { name: /^Log a look/ }).click();
		await sheet.getByLabel('Note').fill(`look ${n}`);
		await sheet.getByRole('button', { name: 'No signs' }).click();
	}
	await expect(page.getByText('10 entries wait to be sent.')).toBeVisible();

	// the app itself goes away too: what the reload shows can come from nowhere but this device
	await app.stop();
	await page.reload();
	await page.locator('html[data-hydrated]').waitFor();
	await expect(page.getByText('10 entries wait to be sent.')).toBeVisible();
	for (const key of [copperTest, ammoniaTest, change, dose])
		await expect(job(page, 'q2', key)).toContainText('✓');
	await expect(page.locator('[data-run="q2"]')).toContainText('look 6');
	await expect(page.getByText('The app cannot be reached').first()).toBeVisible();

	const again = await startApp(app.folder, { PORT: new URL(app.url).port });
	try {
		await context.setOffline(false);
		await expect(page.getByText(/entries? waits? to be sent/)).toHaveCount(0);
		const entries = await newEntries(request, 'q2');
		expect(entries.map(({ kind, note }) => note ?? kind)).toEqual([
			'reading',
			'reading',
			'done',
			'done',
			...[1, 2, 3, 4, 5, 6].map((n) => `look ${n}`)
		]);
		expect(new Set(entries.map(({ id }) => id)).size).toBe(10);
		await page.reload();
		await expect(page.locator('[data-run="q2"]')).toContainText('look 1');
		expect((await newEntries(request, 'q2')).length).toBe(10);
	} finally {
		await again.stop();
	}
});

test('over plain http at another address it queues and sends, and says what https is for', async ({
	playwright,
	request,
	app
}) => {
	await copperRun(request, 'q2');
	namePeople(app.folder, { Kim: 'keeper' });
	await app.stop();
	// others can reach it by this name, so somebody has to enter
	const there = await startApp(app.folder, { LAZARET_HOSTS: 'tank-room.test' });
	const { cookie } = await enterAs(there.url, 'Kim');
	const asked = await playwright.request.newContext({ baseURL: there.url, extraHTTPHeaders: { cookie } });
	const { executablePath, args, env } = findChromium();
	const browser = await playwright.chromium.launch({
		executablePath,
		args: [...args, '--host-resolver-rules=MAP tank-room.test 127.0.0.1'],
		env
	});
	try {
		const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
		const page = await context.newPage();
		await page.goto(`http://tank-room.test:${new URL(there.url).port}/today`);
		await page.getByLabel('Name', { exact: true }).fill('Kim');
		await page.getByLabel('Passphrase').fill(passphrase);
		await page.getByRole('button', { name: 'Enter' }).click();
		await page.waitForURL(/today$/);
		await page.locator('html[data-hydrated]').waitFor();
		await expect(page.getByText(/has to be reached over https/)).toBeVisible();
		await context.setOffline(true);
		await job(page, 'q2', change).getByRole('button', { name: /^Done/ }).click();
		await expect(page.getByText('1 entry waits to be sent.')).toBeVisible();
		expect(await newEntries(asked, 'q2')).toEqual([]);
		await context.setOffline(false);
		await expect.poll(async () => (await newEntries(asked, 'q2')).length).toBe(1);
	} finally {
		await browser.close();
		await there.stop();
	}
});
