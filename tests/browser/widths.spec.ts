import type { Page } from '@playwright/test';
import { expect, test } from './app.ts';
import { openDemo, ready } from './calendar.ts';
import { fiveRows, SheetPage } from './sheet-page.ts';

const widths = [
	320, 360, 390, 480, 640, 719, 720, 768, 785, 900, 1024, 1100, 1119, 1279, 1280, 1440, 1920, 2560
];

/** By how much the page is wider than the window, at each of the widths where it is. */
async function tooWide(page: Page, widths: readonly number[]): Promise<Record<number, number>> {
	const over: Record<number, number> = {};
	for (const width of widths) {
		await page.setViewportSize({ width, height: 900 });
		// a phone's cards are drawn in the sheet's place, and the other way round
		if (/\/runs\/[^/]+$/.test(page.url())) {
			await expect(page.getByRole('grid', { name: 'Phases' })).toHaveCount(width < 720 ? 0 : 1);
		}
		const by = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
		if (by > 0) over[width] = by;
	}
	return over;
}

test('no page scrolls sideways, however wide or narrow', async ({ page }) => {
	const long = 'Everything that came in the autumn delivery from the reefs beyond the outer shoal';
	await openDemo(page);
	const run = new URL(page.url()).pathname;
	await SheetPage.open(page, { ...fiveRows, name: long, tank: { ...fiveRows.tank, name: long } });
	expect(await tooWide(page, widths), 'a long name').toEqual({});
	await page.goto(run);
	await ready(page);
	expect(await tooWide(page, widths), run).toEqual({});
	const parts = ['/history', '/ledger', '/log', '/slips', '/arrival'].map((part) => run + part);
	for (const path of [
		...parts,
		'/',
		'/today',
		'/runs',
		'/days',
		'/log',
		'/medicines',
		'/water',
		'/calendars'
	]) {
		await page.goto(path);
		await ready(page);
		expect(await tooWide(page, [320, 719, 785, 1100, 2560]), path).toEqual({});
	}
});

test('the sheet fits where it stands, every column in sight, and stays a grid', async ({ page }) => {
	// of another year, so that its dates take most room
	const sheet = await SheetPage.open(page);
	for (const width of widths.filter((one) => one >= 720)) {
		await page.setViewportSize({ width, height: 900 });
		const frame = sheet.grid.locator('xpath=..');
		await expect
			.poll(() => frame.evaluate((node) => node.scrollWidth - node.clientWidth), `${width}`)
			.toBeLessThanOrEqual(0);
		for (const column of ['kind', 'test', 'from', 'to', 'tasks', 'mark'] as const) {
			await expect(sheet.cell(2, column)).toBeInViewport({ ratio: 1 });
		}
		await expect(sheet.grid.getByRole('columnheader')).toHaveCount(13);
		await expect(sheet.grid.getByRole('rowheader')).toHaveCount(6);
		await expect(sheet.grid.getByRole('gridcell')).toHaveCount(6 * 12);
	}
});

test('the narrow sheet is walked and typed into as the wide one', async ({ page }) => {
	await page.setViewportSize({ width: 785, height: 900 });
	const sheet = await SheetPage.open(page);
	await sheet.put(1, 'lasts', '5 d');
	await sheet.shows(1, 'lasts', '5 d');
	await sheet.shows(1, 'to', /^7 Mar/);
	await sheet.cell(1, 'test').click();
	await sheet.press('ArrowRight', 'ArrowRight', 'ArrowRight', 'ArrowRight');
	await sheet.isAt(1, 'mark');
	await sheet.press('Home');
	await sheet.isAt(1, 'kind');
});
