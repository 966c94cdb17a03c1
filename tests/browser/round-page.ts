import type { Page } from '@playwright/test';
import { visit } from './app.ts';

/** The jobs of the worked copper run on its day. */
export const copperTest = 'copper/test/4#Cu';
export const ammoniaTest = 'copper/test/4#NH3';
export const dose = 'copper/dose/4';
export const change = 'copper/change/4';

export const openToday = (page: Page, path = '/today') => visit(page, path);

export const job = (page: Page, tank: string, key: string) =>
	page.locator(`[data-run="${tank}"] [data-task="${key}"]`);

/** Types a reading and logs it. */
export async function read(page: Page, tank: string, key: string, text: string): Promise<void> {
	await job(page, tank, key).getByRole('textbox').fill(text);
	await job(page, tank, key).getByRole('button', { name: 'Log', exact: true }).click();
}
