import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { expect, test } from '../browser/app.ts';

test.describe.configure({ timeout: 300_000 });

const folder = join(import.meta.dirname, '../../static/screenshots');
mkdirSync(folder, { recursive: true });

const desktop = { width: 1440, height: 1000 };
const phone = { width: 390, height: 844 };

async function picture(page: Page, name: string): Promise<void> {
	await page.waitForLoadState('networkidle');
	await page.evaluate(() => document.fonts.ready);
	await page.screenshot({ path: join(folder, `${name}.png`), animations: 'disabled' });
}

async function openDemo(page: Page): Promise<void> {
	await page.goto('/');
	await page.waitForLoadState('networkidle');
	await page.getByRole('button', { name: 'Open the demo run' }).click();
	await page.waitForURL(/\/runs\//);
	await expect(page.getByRole('grid').first()).toBeVisible();
}

test('the welcome', async ({ page }) => {
	await page.setViewportSize(desktop);
	await page.goto('/');
	await picture(page, 'welcome');
});

for (const scheme of ['light', 'dark'] as const) {
	test(`the demo on a desktop, ${scheme}`, async ({ page }) => {
		await page.emulateMedia({ colorScheme: scheme });
		await page.setViewportSize(desktop);
		await openDemo(page);
		await picture(page, `run-desktop-${scheme}`);
		const run = new URL(page.url()).pathname;
		for (const screen of ['today', 'runs']) {
			if ((await page.goto(`/${screen}`))?.ok()) await picture(page, `${screen}-desktop-${scheme}`);
		}
		await page.goto(run);
		await page.getByRole('button', { name: 'One week' }).click();
		await page.locator('[data-time]').first().waitFor();
		await page.getByRole('region', { name: 'Calendar' }).evaluate((calendar) => calendar.scrollIntoView());
		await picture(page, `week-desktop-${scheme}`);
	});
}

test('the demo on a phone', async ({ page }) => {
	await page.setViewportSize(desktop);
	await openDemo(page);
	await page.setViewportSize(phone);
	await page.reload();
	await picture(page, 'run-phone');
	await page.getByRole('region', { name: 'Calendar' }).evaluate((calendar) => calendar.scrollIntoView());
	await picture(page, 'calendar-phone');
	for (const screen of ['today', 'runs']) {
		if ((await page.goto(`/${screen}`))?.ok()) await picture(page, `${screen}-phone`);
	}
});
