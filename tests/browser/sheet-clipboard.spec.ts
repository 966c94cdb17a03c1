import type { Page } from '@playwright/test';
import { expect, test } from './app.ts';
import { SheetPage } from './sheet-page.ts';

test.beforeEach(({ context }) => context.grantPermissions(['clipboard-read', 'clipboard-write']));

const copiedText = (page: Page) => page.evaluate(() => navigator.clipboard.readText());
const copiedHtml = (page: Page) =>
	page.evaluate(async () => {
		const [item] = await navigator.clipboard.read();
		return item ? (await item.getType('text/html')).text() : '';
	});

/** Puts what another program copied onto the clipboard. */
const copyElsewhere = (page: Page, plain: string, html?: string) =>
	page.evaluate(
		async ([text, table]) => {
			const blob = (type: string, body: string) => new Blob([body], { type });
			const parts = {
				'text/plain': blob('text/plain', text ?? ''),
				...(table === undefined ? {} : { 'text/html': blob('text/html', table) })
			};
			await navigator.clipboard.write([new ClipboardItem(parts)]);
		},
		[plain, html]
	);

test('a range is copied as text and as a table, cut, and pasted elsewhere', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(2, 'lasts').click();
	await sheet.press('Shift+ArrowRight', 'Shift+ArrowDown', 'ControlOrMeta+c');
	expect(await copiedText(page)).toMatch(/^28 d\t0\.15-0\.20? mg\/L\nuntil clear\t0\.02 mg\/L$/);
	expect(await copiedHtml(page)).toMatch(
		/<table>.*<td>28 d<\/td><td>0\.15-0\.20? mg\/L<\/td>.*<td>until clear<\/td>/s
	);
	await sheet.cell(4, 'lasts').click();
	await sheet.press('ControlOrMeta+v');
	await sheet.shows(4, 'lasts', '28 d');
	await sheet.shows(5, 'level', '0.02 mg/L');
	await sheet.selects(4);
	await sheet.press('ControlOrMeta+x');
	await sheet.shows(4, 'lasts', '');
	await sheet.shows(5, 'level', '');
	await sheet.cell(1, 'lasts').click();
	await sheet.press('ControlOrMeta+v');
	await sheet.shows(1, 'lasts', '28 d');
	await sheet.press('ControlOrMeta+z', 'ControlOrMeta+z');
	await sheet.shows(4, 'lasts', '28 d');
	await sheet.shows(1, 'lasts', '3 d');
});

test('what other spreadsheets copy is read: tables, quoted cells, cells of many lines', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	// the table is preferred to the plain text beside it
	await copyElsewhere(
		page,
		'not this',
		'<meta charset="utf-8"><table><tr><td>5&nbsp;d</td></tr><tr><td style="color:red"><b>20</b> d</td></tr></table>'
	);
	await sheet.cell(1, 'lasts').click();
	await sheet.press('ControlOrMeta+v');
	await sheet.shows(1, 'lasts', '5 d');
	await sheet.shows(2, 'lasts', '20 d');
	await copyElsewhere(page, '"NH3 daily,\nNO3 weekly"\r\n"Cu daily"\r\n');
	await sheet.cell(1, 'test').click();
	await sheet.press('ControlOrMeta+v');
	await sheet.shows(1, 'test', 'NH3 daily, NO3 weekly');
	await sheet.shows(2, 'test', 'Cu daily');
	await copyElsewhere(page, '"a ""fortnight"""');
	await sheet.cell(4, 'lasts').click();
	await sheet.press('ControlOrMeta+v');
	await sheet.shows(4, 'lasts', 'a "fortnight"');
});

test('a small block fills a larger selection, and a longer one adds rows', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	await copyElsewhere(page, '25% weekly\tNH3 daily');
	await sheet.cell(1, 'change').click();
	await sheet.cell(4, 'test').click({ modifiers: ['Shift'] });
	await sheet.press('ControlOrMeta+v');
	for (const row of [1, 2, 3, 4]) {
		await sheet.shows(row, 'change', /^25 ?% weekly/);
		await sheet.shows(row, 'test', 'NH3 daily');
	}
	await copyElsewhere(page, 'observe\t\tafter 4\t10 d\r\nobserve\t\tafter 6\t5 d\r\nrelease\t\tafter 7\r\n');
	await sheet.cell(6, 'kind').click();
	await sheet.press('ControlOrMeta+v');
	await sheet.hasRows(8);
	await sheet.shows(7, 'starts', 'after 6');
	await sheet.shows(8, 'kind', 'Release');
	await sheet.press('ControlOrMeta+z');
	await sheet.hasRows(5);
});
