import { expect, test } from './app.ts';
import { SheetPage } from './sheet-page.ts';

test('typing replaces, F2, Enter and a double click edit, Escape restores', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(1, 'lasts').click();
	await sheet.type('4 d');
	await sheet.press('Enter');
	await sheet.shows(1, 'lasts', '4 d');
	await sheet.isAt(2, 'lasts');
	await sheet.press('F2');
	await expect(sheet.cell(2, 'lasts').getByRole('combobox')).toHaveValue('28 d');
	await sheet.press('Home');
	await sheet.type('1');
	await sheet.press('Escape');
	await sheet.shows(2, 'lasts', '28 d');
	await sheet.isAt(2, 'lasts');
	await sheet.press('Enter', 'Backspace', 'Backspace', 'Backspace');
	await sheet.type('9 d');
	await sheet.press('Tab');
	await sheet.shows(2, 'lasts', '29 d');
	await sheet.isAt(2, 'level');
	await sheet.cell(4, 'lasts').dblclick();
	await expect(sheet.cell(4, 'lasts').getByRole('combobox')).toHaveValue('14 d');
	await sheet.press('End', 'Backspace');
	await sheet.type('days');
	await sheet.cell(1, 'kind').click();
	await sheet.shows(4, 'lasts', '14 d');
	// forgiving when it is typed, canonical when it is shown
	await sheet.put(4, 'lasts', '3 weeks');
	await sheet.shows(4, 'lasts', '21 d');
	await sheet.put(4, 'starts', 'After Row 3 +2 days');
	await sheet.shows(4, 'starts', 'after 3 + 2 d');
});

test('an arrow finishes what was typed over a cell, and walks in a text that was opened', async ({
	page
}) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(2, 'lasts').click();
	await sheet.type('5 d');
	await sheet.press('ArrowUp');
	await sheet.isAt(1, 'lasts');
	await sheet.type('35 d');
	await sheet.press('ArrowRight');
	await sheet.isAt(1, 'level');
	await sheet.shows(1, 'lasts', '35 d');
	await sheet.shows(2, 'lasts', '5 d');
	// F2 opens the text, at its cell and while it is typed
	await sheet.cell(1, 'lasts').click();
	await sheet.press('F2', 'ArrowLeft', 'ArrowLeft', 'ArrowLeft', 'Backspace');
	await sheet.type('4');
	await sheet.press('Enter');
	await sheet.shows(1, 'lasts', '45 d');
	await sheet.type('6 d');
	await sheet.press('F2', 'Home');
	await sheet.type('2');
	await sheet.press('Enter');
	await sheet.shows(2, 'lasts', '26 d');
	// the list that is open is walked, round and round
	await sheet.cell(4, 'change').click();
	await sheet.type('50%');
	const field = sheet.cell(4, 'change').getByRole('combobox');
	await sheet.press('ArrowUp');
	await expect(field).toHaveAttribute('aria-activedescendant', 'offer-2');
	await sheet.press('ArrowDown');
	await expect(field).not.toHaveAttribute('aria-activedescendant');
	await sheet.press('ArrowDown', 'Enter');
	await sheet.shows(4, 'change', '50% daily');
});

test('the menu of a cell is its field’s, and the keys stay in the sheet', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	await page.evaluate(() =>
		document.addEventListener('contextmenu', ({ target }) => {
			document.title = (target as Element).tagName;
		})
	);
	await sheet.cell(2, 'lasts').click({ button: 'right' });
	// only over a field does the browser's own menu offer to paste
	await expect(page).toHaveTitle('INPUT');
	await sheet.isAt(2, 'lasts');
	await sheet.press('Shift+ArrowDown');
	await sheet.cell(3, 'lasts').click({ button: 'right' });
	await sheet.selects(2);
	await sheet.isAt(2, 'lasts');
});

test('a computed cell takes no typing and no paste, and is copied as it reads', async ({ page, context }) => {
	await context.grantPermissions(['clipboard-read', 'clipboard-write']);
	const sheet = await SheetPage.open(page);
	const from = await sheet.cell(2, 'from').innerText();
	await sheet.cell(2, 'from').click();
	await sheet.isAt(2, 'from');
	await expect(sheet.cell(2, 'from')).toHaveAttribute('aria-readonly', 'true');
	await sheet.type('on 1 Jan');
	await sheet.press('Delete');
	await sheet.shows(2, 'from', from);
	await sheet.cell(2, 'from').click();
	await sheet.press('ControlOrMeta+c');
	expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(from);
	await sheet.press('ControlOrMeta+v');
	await sheet.shows(2, 'from', from);
	await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('what is copied right after an edit is what the edit makes of the computed cells', async ({
	page,
	context
}) => {
	await context.grantPermissions(['clipboard-read', 'clipboard-write']);
	const sheet = await SheetPage.open(page);
	await sheet.put(1, 'lasts', '4 d');
	await sheet.shows(2, 'from', '7 Mar 2031');
	await sheet.cell(2, 'from').click();
	// both in one task of the page, so that no frame comes between
	const copied = await page.evaluate(() => {
		const press = (type: string, init: object) =>
			document.activeElement?.dispatchEvent(
				new KeyboardEvent(type, { bubbles: true, cancelable: true, ...init })
			);
		press('keydown', { key: 'z', ctrlKey: true });
		const data = new DataTransfer();
		document.activeElement?.dispatchEvent(new ClipboardEvent('copy', { bubbles: true, clipboardData: data }));
		return data.getData('text/plain');
	});
	expect(copied).toBe('6 Mar 2031');
	await sheet.shows(2, 'from', '6 Mar 2031');
});

test('an input method starts in an empty field and its text replaces the cell', async ({ page, context }) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(1, 'kind').click();
	await sheet.isAt(1, 'kind');
	const ime = await context.newCDPSession(page);
	const field = sheet.cell(1, 'kind').getByRole('combobox');
	for (const text of ['か', 'かん', 'かんさ'])
		await ime.send('Input.imeSetComposition', {
			text,
			selectionStart: text.length,
			selectionEnd: text.length
		});
	await expect(field).toHaveValue('かんさ');
	// keys that belong to the input method are not the sheet's
	await sheet.isAt(1, 'kind');
	await ime.send('Input.insertText', { text: '観察' });
	await expect(field).toHaveValue('観察');
	await sheet.press('Enter');
	await sheet.shows(1, 'kind', '観察');
	await expect(page.getByText(/“観察” was not understood/).first()).toBeVisible();
	await sheet.press('ControlOrMeta+z');
	await sheet.shows(1, 'kind', 'Settle');
});

test('suggestions follow what is typed and are taken by key or pointer', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	const offers = page.getByRole('listbox').and(page.locator('#offers')).getByRole('option');
	await sheet.cell(4, 'medicine').click();
	await sheet.type('pra');
	await expect(offers).toHaveText([/Praziquantel/]);
	const field = sheet.cell(4, 'medicine').getByRole('combobox');
	await expect(field).toHaveAttribute('aria-expanded', 'true');
	await sheet.press('ArrowDown');
	await expect(field).toHaveAttribute('aria-activedescendant', 'offer-0');
	await sheet.press('Enter');
	await sheet.shows(4, 'medicine', 'Praziquantel');

	await sheet.cell(4, 'starts').click();
	await sheet.press('F2', 'ControlOrMeta+a');
	await sheet.type('with');
	await expect(offers).toHaveCount(4);
	await offers.filter({ hasText: 'with 2' }).click();
	await sheet.shows(4, 'starts', 'with 2');

	await sheet.cell(2, 'level').click();
	await sheet.press('F2', 'ControlOrMeta+a');
	await sheet.type('0.1');
	await expect(offers.filter({ hasText: 'the shelf’s window' })).toHaveCount(1);
	// the first Escape lets go of the choice, the second of the text
	await sheet.press('ArrowDown', 'Escape', 'Escape');
	await expect(offers).toHaveCount(0);
	await sheet.shows(2, 'level', /^0.15/);
});
