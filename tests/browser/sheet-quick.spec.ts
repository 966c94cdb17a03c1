import { expect, test } from './app.ts';
import { SheetPage } from './sheet-page.ts';

/** Keys one upon the other, none waiting for what the one before made of the page. */
test('a new row is typed along with Tab, and nothing comes to lie over the sheet', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(6, 'kind').click();
	await sheet.type('observe');
	await sheet.press('Tab', 'Tab');
	await sheet.type('after 5');
	await sheet.press('Tab');
	await sheet.type('4 d');
	await sheet.press('Enter');
	await sheet.shows(6, 'kind', 'Observe');
	await sheet.shows(6, 'starts', 'after 5');
	await sheet.shows(6, 'lasts', '4 d');
	await expect(page.locator('td input')).toHaveCount(1);
	await sheet.cell(2, 'lasts').click();
	await sheet.isAt(2, 'lasts');
});

test('what is typed in the moment after a row was taken out or moved is not lost', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(2, 'change').click();
	await sheet.press('Control+-');
	await sheet.type('9%');
	await sheet.press('Enter');
	await sheet.shows(2, 'change', '9%');
	await sheet.isAt(3, 'change');
	await sheet.press('Alt+ArrowUp');
	await sheet.type('8%');
	await sheet.press('Enter');
	await sheet.shows(2, 'change', '8%');
	await sheet.shows(3, 'change', '9%');
});
