import type { Page } from '@playwright/test';
import { expect, test, visit } from './app.ts';

/** Opens the demo and says which scripts a reload of its page fetches. */
async function scriptsOf(page: Page): Promise<string[]> {
	await visit(page, '/');
	await page.getByRole('button', { name: 'Open the demo run' }).click();
	await page.getByRole('grid', { name: 'Phases' }).waitFor();
	const scripts: string[] = [];
	page.on('response', (response) => {
		if (response.request().resourceType() === 'script') scripts.push(response.url());
	});
	const repairs = page.waitForResponse(/\/repairs$/);
	await page.reload();
	await page.locator('html[data-hydrated]').waitFor();
	expect((await repairs).status()).toBe(200);
	return scripts;
}

/** Shortens the second phase; answers with the day it then ends on. */
async function shorten(page: Page): Promise<string> {
	const to = page.locator('[data-row="1"].to');
	const before = await to.innerText();
	await page.locator('[data-row="1"].lasts').click();
	await page.keyboard.type('20 d');
	await page.keyboard.press('Enter');
	await expect(page.locator('[data-row="1"].lasts .text')).toHaveText('20 d');
	await expect(to).not.toHaveText(before);
	return to.innerText();
}

test('a run that is only looked at does without the planner, and repairs come from the server', async ({
	page
}) => {
	const scripts = await scriptsOf(page);
	const before = scripts.length;
	await expect(page.locator('.finding button').first()).toBeVisible();
	expect(scripts.length).toBe(before);
	await shorten(page);
	expect(scripts.length).toBeGreaterThan(before);
});

test('a browser without Temporal is lent one, and plans the same', async ({ page }) => {
	await scriptsOf(page);
	const own = await shorten(page);
	await page.keyboard.press('ControlOrMeta+z');
	await expect(page.locator('[data-row="1"].lasts .text')).toHaveText('28 d');
	await expect(page.getByText('Saved', { exact: true })).toBeVisible();
	await page.addInitScript(() => delete (globalThis as { Temporal?: unknown }).Temporal);
	await page.reload();
	await page.locator('html[data-hydrated]').waitFor();
	expect(await page.evaluate(() => 'Temporal' in globalThis)).toBe(true);
	expect(await shorten(page)).toBe(own);
});
