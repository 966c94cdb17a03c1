import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import { expect, test } from './app.ts';

const ready = (page: Page) => page.locator('html[data-hydrated]').waitFor();

/** Litres and °C that are shown, not those in cells: a cell keeps the unit it was typed in. */
const metricLeft = async (page: Page) => {
	const text = await page.locator('main').innerText();
	return text.match(/\d (L|°C)(?![\p{L}/])/gu) ?? [];
};

test('one switch turns every screen to US units at once, and back', async ({ page }) => {
	await page.goto('/');
	await ready(page);
	await page.getByRole('button', { name: 'Open the demo run' }).click();
	await page.waitForURL(/\/runs\/./);
	await ready(page);
	const calendar = page.getByRole('region', { name: 'Calendar' });
	await expect(calendar.getByText(/^\d+(\.\d)? L$/).first()).toBeVisible();
	const typed = page.locator('[data-row="1"][data-column="4"]');
	const before = await typed.innerText();

	await page.getByLabel('Units').selectOption('US units');
	await expect(calendar.getByText(/^\d+\.\d gal$/).first()).toBeVisible();
	await expect(calendar.getByText(/^\d+(\.\d)? L$/)).toHaveCount(0);
	await expect(page.getByText(/37\.0 gal net/)).toBeVisible();
	await expect(page.getByText(/78\.8 °F/).first()).toBeVisible();
	expect(await metricLeft(page)).toEqual([]);
	expect(await typed.innerText()).toBe(before);

	// a day's dialog tells the change in gallons, and the dose as the syringe is marked
	await calendar
		.getByText(/^\d+\.\d gal$/)
		.first()
		.click();
	const day = page.getByRole('dialog');
	await expect(day.getByRole('heading', { name: /(Change|Wash out|Top off|Mix) \d+\.\d gal/ })).toBeVisible();
	await page.keyboard.press('Escape');

	const run = new URL(page.url()).pathname;
	const ofRun = ['slips', 'ledger', 'log', 'arrival'].map((tab) => `${run}/${tab}`);
	for (const path of ['/today', '/days', ...ofRun, '/runs', '/medicines', '/new']) {
		await page.goto(path);
		await ready(page);
		await expect(page.getByLabel('Units')).toHaveValue('us');
		await expect.poll(() => metricLeft(page), { message: path }).toEqual([]);
	}
	await expect(page.getByLabel('Unit of volume')).toHaveValue('gal');
	await page.goto('/medicines#formalin');
	await expect(page.getByText('not above 78.8 °F').first()).toBeVisible();

	await page.getByLabel('Units').selectOption('Metric');
	await expect(page.getByText('not above 26.0 °C').first()).toBeVisible();
});

test('the ledger reads, takes, plots and exports degrees in the chosen system', async ({ page }) => {
	const answer = await page.request.post('/api/demo');
	const { run } = (await answer.json()) as { run: { id: string } };
	await page.goto(`/runs/${run.id}/ledger`);
	await ready(page);
	await page.getByLabel('Show all that can be read').check();
	const heading = page.getByRole('columnheader', { name: /^Temperature/ });
	await expect(heading).toHaveText('Temperature°C');
	await page.getByLabel('Units').selectOption('US units');
	await expect(heading).toHaveText('Temperature°F');

	// 25.5 °C is 77.9 °F by 1.8 C + 32
	const cell = page.getByRole('textbox', { name: /^Temperature in °F read on/ }).last();
	await cell.fill('77.9');
	await cell.press('Enter');
	const row = page.getByRole('row').filter({ has: page.locator('.reading', { hasText: /^77\.9$/ }) });
	await expect(row).toHaveCount(1);
	const log = await (await page.request.get(`/api/runs/${run.id}/log`)).json();
	const written = (log as { log: { what?: string; value?: unknown }[] }).log.filter(
		({ what }) => what === 'T'
	);
	expect(written.at(-1)).toMatchObject({ value: '77.9 F' });

	// a step of 1 °C is 1.8 °F and has no 32 in it
	const plot = page.getByRole('figure').filter({ hasText: 'Temperature' });
	await plot.getByText('As a table').click();
	const figures = (await plot.getByRole('row').last().innerText()).match(/[+-]?[\d.]+ °F/g) ?? [];
	const [forecast = NaN, reading = NaN, difference = NaN] = figures.map((text) => Number.parseFloat(text));
	expect(reading).toBe(77.9);
	expect(difference).toBeCloseTo(forecast - reading, 1);

	const download = page.waitForEvent('download');
	await page.getByRole('button', { name: 'Ledger as CSV' }).click();
	const text = await readFile(await (await download).path(), 'utf8');
	expect(text).toContain('"Temperature reading, F"');
	expect(text).toMatch(/(^|,)77\.9(,|$)/m);
	await page.getByLabel('Units').selectOption('Metric');
	await expect(page.locator('.reading', { hasText: /^25\.5$/ }).first()).toBeVisible();
});
