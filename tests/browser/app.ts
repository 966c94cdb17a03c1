import { rmSync } from 'node:fs';
import { test as base, type Page } from '@playwright/test';
import { startApp, type App } from '../built-app.ts';

/** `test` with an app of its own, empty, as its base address. */
export const test = base.extend<{ app: App }>({
	// the runner reads which fixtures are asked for from this pattern: it has to be one
	// oxlint-disable-next-line no-empty-pattern
	app: async ({}, use) => {
		const app = await startApp();
		await use(app);
		await app.stop();
		rmSync(app.folder, { recursive: true, force: true });
	},
	baseURL: async ({ app }, use) => use(app.url)
});

/** Opens a page and waits until it answers to keys and touches. */
export async function visit(page: Page, path: string): Promise<void> {
	await page.goto(path);
	await page.locator('html[data-hydrated]').waitFor();
}

export { expect } from '@playwright/test';
