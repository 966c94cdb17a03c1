import AxeBuilder from '@axe-core/playwright';
import { globSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { expect, test } from './app.ts';
import { openDemo, ready } from './calendar.ts';

test.describe.configure({ timeout: 900_000 });

/** Every page there is, with the id of a run where its address has one; a page added later is walked too. */
const pages = globSync('**/+page.svelte', { cwd: join(import.meta.dirname, '../../src/routes') })
	.map((file) => `/${file.replace(/\/?\+page\.svelte$/, '')}`)
	.toSorted();

async function broken(page: Page, where: string): Promise<string[]> {
	const { violations } = await new AxeBuilder({ page }).analyze();
	return violations.flatMap(({ id, nodes }) =>
		nodes.map(({ html }) => `${where}: ${id}: ${html.slice(0, 140)}`)
	);
}

for (const colorScheme of ['light', 'dark'] as const)
	test(`no page breaks a rule of accessibility, and each says its name, ${colorScheme}`, async ({ page }) => {
		await page.emulateMedia({ colorScheme });
		await page.goto('/');
		await ready(page);
		const found = await broken(page, 'the welcome');
		const calendar = await openDemo(page);
		const run = new URL(page.url()).pathname.split('/').at(-1) ?? '';
		await calendar.getByRole('button', { name: 'One week' }).click();
		await calendar.locator('[data-time]').first().waitFor();
		found.push(...(await broken(page, 'a week with its hours')));
		await calendar.getByRole('button', { name: 'List' }).click();
		await calendar.locator('.time').first().waitFor();
		found.push(...(await broken(page, 'the list of days')));
		await page.getByText('Levels of the whole run').click();
		await page.getByRole('button', { name: 'As a table' }).click();
		found.push(...(await broken(page, 'levels as a table')));
		await calendar.locator('[aria-current="date"]').click();
		await page.getByRole('dialog').waitFor();
		found.push(...(await broken(page, 'a day')));
		await page.keyboard.press('Escape');
		await calendar.getByRole('button', { name: 'Weeks', exact: true }).click();
		for (const path of pages) {
			await page.goto(path.replace('[id]', run));
			await ready(page);
			found.push(...(await broken(page, path)));
			expect(await page.title(), path).toMatch(/^\S.* · Lazaret$/);
		}
		expect(found).toEqual([]);
		expect(pages.length).toBeGreaterThan(8);
	});
