import { expect, test } from './app.ts';
import { fiveRows, SheetPage } from './sheet-page.ts';

test('a ready course is put in by key, and one step takes it out again', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(4, 'kind').click();
	await sheet.press('ControlOrMeta+k');
	const dialog = page.getByRole('dialog', { name: /before row 4/ });
	await expect(dialog.getByRole('listitem')).toHaveCount(7);
	const put = dialog.getByRole('button', { name: /^Put in Copper for 28 days/ });
	await put.focus();
	await sheet.press('Enter');
	await expect(dialog).toBeHidden();
	await sheet.hasRows(11);
	await sheet.shows(4, 'starts', 'after 3');
	await sheet.shows(5, 'starts', 'after 4');
	await sheet.shows(6, 'medicine', 'Praziquantel');
	await expect(page.getByText(/strength of the bottle/).first()).toBeVisible();
	await sheet.press('ControlOrMeta+z');
	await sheet.hasRows(5);
	await expect(page.getByText('Bottle PZQ')).toHaveCount(0);
});

test('the name of a course, typed into the first cell of an empty sheet, lays its rows', async ({ page }) => {
	const sheet = await SheetPage.open(page, { ...fiveRows, medicines: [], phases: [] });
	await sheet.cell(1, 'kind').click();
	await sheet.type('low');
	const offers = page.getByRole('listbox', { name: 'Suggestions for Phase' }).getByRole('option');
	await expect(offers).toHaveText([/Low salinity\s*$/, /Low salinity for 28 days/]);
	await sheet.press('ArrowDown', 'ArrowDown', 'Enter');
	await sheet.hasRows(4);
	await sheet.shows(1, 'starts', 'on 3 Mar 2031');
	await sheet.shows(2, 'lasts', '28 d');
	await sheet.shows(4, 'kind', 'Release');
	await sheet.press('ControlOrMeta+z');
	await sheet.hasRows(0);
});

test('rows kept as a course are there in another run, and can be dropped', async ({ page }) => {
	test.slow();
	const sheet = await SheetPage.open(page);
	await sheet.head(2).click();
	await sheet.head(3).click({ modifiers: ['Shift'] });
	await page.getByRole('button', { name: 'Course…' }).click();
	const dialog = page.getByRole('dialog', { name: /Put in a course/ });
	await dialog.getByLabel(/Keep rows 2 to 3/).fill('Copper and out');
	await dialog.getByRole('button', { name: 'Keep' }).click();
	await expect(dialog.getByText('Kept as “Copper and out”.')).toBeVisible();
	const other = await SheetPage.open(page, { ...fiveRows, medicines: [], phases: [] });
	await other.put(1, 'kind', 'copper and out');
	await other.hasRows(2);
	await other.shows(1, 'starts', 'on 3 Mar 2031');
	await other.shows(2, 'change', '50% daily + carbon');
	await other.shows(2, 'starts', 'after 1');
	await other.cell(1, 'kind').click();
	await other.press('ControlOrMeta+k');
	await page.getByRole('button', { name: 'Drop Copper and out' }).click();
	await expect(page.getByRole('button', { name: 'Put in Copper and out' })).toHaveCount(0);
});
