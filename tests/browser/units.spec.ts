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

	for (const path of ['/runs', '/medicines', '/new']) {
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
