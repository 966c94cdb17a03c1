import AxeBuilder from '@axe-core/playwright';
import type { Locator, Page } from '@playwright/test';
import { expect, test, visit } from './app.ts';
import { logOf, openRun } from './fact-pages.ts';

const formOf = (page: Page) => page.getByRole('region', { name: 'Log a fact' });
const write = (page: Page) => page.getByRole('button', { name: 'Write it into the log' }).click();

/** What is chosen or typed for each kind of fact, and the words it stands in the log with. */
const facts: { kind: string; fill: (form: Locator) => Promise<unknown>; words: RegExp }[] = [
	{
		kind: 'Reading',
		fill: async (form) => {
			await form.getByLabel('What', { exact: true }).selectOption({ label: 'Copper' });
			await form.getByLabel('Value with its unit').fill('0.17');
			await form.getByLabel('The kit counts').selectOption({ label: 'ionic scale' });
		},
		words: /^Copper read at 0\.17 mg\/L, ionic scale$/
	},
	{
		kind: 'Look at the fish',
		fill: async (form) => {
			await form.getByLabel('Whitish haze or film').check();
			await form.getByLabel('Food was').selectOption({ label: 'refused' });
			await form.getByLabel('Breaths a minute').fill('112');
		},
		words: /whitish haze or film, food refused, 112 breaths a minute$/
	},
	{
		kind: 'Loss',
		fill: async (form) => {
			await form.getByLabel('Which fish').selectOption({ index: 1 });
			await form.getByLabel('How many').fill('1');
		},
		words: /: 1 fish died$/
	},
	{
		kind: 'Unplanned change',
		fill: async (form) => {
			await form.getByLabel('How much').fill('25 %');
			await form.getByLabel('With', { exact: true }).selectOption({ label: 'new salt water' });
		},
		words: /^Unplanned change of 25 % with /
	},
	{
		kind: 'Unplanned dose',
		fill: async (form) => {
			await form.getByLabel('Medicine').selectOption({ label: 'Ionic copper' });
			await form.getByLabel('Measured out').fill('0.4 mL');
		},
		words: /^Unplanned dose: Ionic copper 0\.4 mL$/
	},
	{
		kind: 'Top-off',
		fill: (form) => form.getByLabel('Fresh water').fill('1.5 L'),
		words: /^Topped off with 1\.5 L of fresh water$/
	},
	{
		kind: 'Equipment',
		fill: async (form) => {
			await form.getByLabel('What', { exact: true }).selectOption('heater');
			await form.getByLabel(/from now on/).uncheck();
		},
		words: /^Heater off or failed$/
	},
	{
		kind: 'Fish added',
		fill: async (form) => {
			await form.getByLabel('Fish', { exact: true }).fill('yellow wrasse');
			await form.getByLabel('Group').selectOption('wrasse');
			await form.getByLabel('How many').fill('1');
			await expect(form.getByLabel('Credits of the run restart')).toBeChecked();
			await expect(form.getByText(/the days counted so far count no longer/)).toBeVisible();
		},
		words: /^1 fish joined: yellow wrasse; credits restart$/
	},
	{
		kind: 'Fish leaving',
		fill: async (form) => {
			await form.getByLabel('Which fish').selectOption({ index: 1 });
			await form.getByLabel('How many').fill('1');
		},
		words: /: 1 fish left$/
	},
	{
		kind: 'Job done',
		fill: (form) => form.getByLabel('Job', { exact: true }).selectOption({ index: 1 }),
		words: /^Done: /
	},
	{
		kind: 'Job not done',
		fill: async (form) => {
			await form.getByLabel('Job', { exact: true }).selectOption({ index: 1 });
			await form.getByLabel('Why').fill('nobody was there');
		},
		words: /^Not done: .*, because nobody was there$/
	}
];

test('every kind of fact is written, in words, newest first', async ({ page }) => {
	test.slow();
	const run = await openRun(page, 'log');
	const before = (await logOf(page, run)).length;
	for (const [n, { kind, fill, words }] of facts.entries()) {
		await formOf(page).getByLabel('What happened').selectOption({ label: kind });
		await fill(formOf(page));
		await write(page);
		await expect(page.getByText('Written: ')).toBeVisible();
		await expect(page.locator('[data-entry] .words').filter({ hasText: words }).first()).toBeVisible();
		await expect.poll(async () => (await logOf(page, run)).length).toBe(before + n + 1);
	}
	await page.reload();
	await page.locator('html[data-hydrated]').waitFor();
	for (const { words } of facts)
		await expect(page.locator('[data-entry] .words').filter({ hasText: words }).first()).toBeVisible();
	await page.getByLabel('Show').selectOption('loss');
	await expect(page.locator('[data-entry]')).toHaveCount(1);
	await page.goto('/log');
	await expect(page.getByText('1 fish joined: yellow wrasse')).toBeVisible();
});

test('a picture goes with a look, and comes back', async ({ page }) => {
	const run = await openRun(page, 'log');
	await formOf(page).getByLabel('What happened').selectOption({ label: 'Look at the fish' });
	const dot =
		'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';
	await formOf(page)
		.getByLabel('Photo, optional')
		.setInputFiles({ name: 'fish.png', mimeType: 'image/png', buffer: Buffer.from(dot, 'base64') });
	await expect(page.getByAltText('Taken with this look', { exact: true })).toBeVisible();
	await formOf(page).getByLabel('No sign seen on any of them').check();
	await write(page);
	await expect.poll(async () => (await logOf(page, run)).at(-1)?.photo).toMatch(/^[0-9a-f]{32}$/);
	const { photo } = (await logOf(page, run)).at(-1) as { photo: string };
	const picture = await page.request.get(`/api/photos/${photo}`);
	expect(picture.headers()['content-type']).toBe('image/jpeg');
	const broken = await page.request.put(`/api/photos/x?run=${run}`, {
		data: Buffer.from('<svg/>'),
		headers: { 'content-type': 'image/png', origin: new URL(page.url()).origin }
	});
	expect(broken.status()).toBe(422);
});

test('a field that cannot be read says so at its place, and nothing typed is lost', async ({ page }) => {
	const run = await openRun(page, 'log');
	const before = (await logOf(page, run)).length;
	await formOf(page).getByLabel('What', { exact: true }).selectOption({ label: 'Copper' });
	await formOf(page).getByLabel('Value with its unit').fill('a little');
	await formOf(page).getByLabel('Note, optional').fill('kit of last year');
	await write(page);
	const field = formOf(page).getByLabel('Value with its unit');
	await expect(field).toHaveAttribute('aria-invalid', 'true');
	await expect(field).toHaveAccessibleDescription(/“a little” was not understood: expected .*mg\/L/);
	await expect(field).toHaveValue('a little');
	await page.reload();
	await page.locator('html[data-hydrated]').waitFor();
	await expect(field).toHaveValue('a little');
	await expect(formOf(page).getByLabel('Note, optional')).toHaveValue('kit of last year');
	expect(await logOf(page, run)).toHaveLength(before);
});

test('a correction is an entry, and the old one stays', async ({ page }) => {
	const run = await openRun(page, 'log');
	const entry = page.locator('[data-entry]').filter({ hasText: 'Copper read at' }).first();
	const old = (await entry.locator('.words').innerText()).trim();
	await entry.getByRole('button', { name: /^Correct/ }).click();
	await entry.getByLabel('Value with its unit').fill('0.16 mg/L');
	await entry.getByRole('button', { name: 'Write the correction' }).click();
	await expect(page.getByText('The correction is in the log')).toBeVisible();
	await expect.poll(async () => (await logOf(page, run)).at(-1)?.kind).toBe('correct');
	const correction = page.locator('[data-entry]').first();
	await expect(correction).toContainText('Correction: Copper read at 0.16 mg/L');
	await expect(correction).toContainText(`It said: ${old}`);
	const struck = page.locator('[data-entry].struck');
	await expect(struck).toContainText('Now: Copper read at 0.16 mg/L');
	await correction.getByRole('button', { name: /^Take back/ }).click();
	await expect(page.locator('[data-entry].struck', { hasText: 'Correction' })).toHaveCount(1);
	expect((await logOf(page, run)).filter(({ kind }) => kind === 'correct')).toHaveLength(2);
});

test('what is logged without a network stands in the log and is sent when it is back', async ({ page }) => {
	const run = await openRun(page, 'log');
	const before = (await logOf(page, run)).length;
	await page.context().setOffline(true);
	await formOf(page).getByLabel('What happened').selectOption({ label: 'Top-off' });
	await formOf(page).getByLabel('Fresh water').fill('2 L');
	await write(page);
	await expect(page.locator('[data-entry]').filter({ hasText: 'Topped off with 2 L' })).toContainText(
		'waiting to be sent'
	);
	await page.context().setOffline(false);
	await expect.poll(async () => (await logOf(page, run)).length).toBe(before + 1);
	await expect(page.getByText('waiting to be sent')).toHaveCount(0);
});

for (const colorScheme of ['light', 'dark'] as const)
	test(`the pages of facts break no accessibility rule, ${colorScheme}`, async ({ page }) => {
		test.slow();
		await page.emulateMedia({ colorScheme });
		const run = await openRun(page, 'log');
		const found = [];
		for (const path of [`/runs/${run}/log`, `/runs/${run}/ledger`, `/runs/${run}/arrival`, '/log', '/days']) {
			await visit(page, path);
			found.push(...(await new AxeBuilder({ page }).analyze()).violations);
		}
		expect(found.map(({ id, nodes }) => [id, nodes[0]?.html.slice(0, 120)])).toEqual([]);
	});

test.describe('on a phone', () => {
	test.use({ viewport: { width: 390, height: 844 } });
	test('nothing scrolls sideways', async ({ page }) => {
		const run = await openRun(page, 'log');
		for (const path of [`/runs/${run}/log`, `/runs/${run}/ledger`, `/runs/${run}/arrival`, '/log', '/days']) {
			await page.goto(path);
			expect([path, await page.evaluate(() => document.documentElement.scrollWidth)]).toEqual([path, 390]);
		}
	});
});

test('the record of an arrival tells the toxic ammonia of the bag, and stands in the log', async ({
	page
}) => {
	const run = await openRun(page, 'arrival');
	// a long-shipped bag: TAN 8 mg/L at 24 °C and 27 ppt is 0.022 mg/L NH3-N at pH 6.8 (Bell et al. 2007, by hand)
	await page.getByLabel('Temperature in the bag').fill('24');
	await page.getByLabel('Salinity in the bag').fill('27');
	await page.getByLabel('pH in the bag').fill('6.8');
	await page.getByLabel('Ammonia in the bag').fill('8 mg/L');
	await page.getByLabel('Fish counted').fill('4');
	await page.getByLabel('Gold or rust dust on the skin').check();
	const advice = page.getByRole('region', { name: 'What the bag says' });
	await expect(advice).toContainText('0.0216 mg/L in the bag');
	await expect(advice).toContainText('at most 2 ppt a day');
	await expect(advice).toContainText('Suspect: Amyloodinium');
	await expect(page.getByText('Never drip water into a long-shipped bag.')).toBeVisible();
	await page.getByRole('button', { name: 'Write the record of the arrival' }).click();
	await expect(page).toHaveURL(/\/log$/);
	await expect(
		page.getByText(/arrived in a bag of 24 °C, 27 ppt, pH 6.8, ammonia 8 mg\/L as TAN, 4 fish/).first()
	).toBeVisible();
	await expect
		.poll(async () => (await logOf(page, run)).at(-1)?.bag)
		.toEqual({ temperature: '24 C', salinity: '27 ppt', pH: 6.8, ammonia: '8 mg/L', as: 'tan', count: 4 });
});
