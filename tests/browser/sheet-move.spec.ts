import { expect, test } from './app.ts';
import { fiveRows, SheetPage } from './sheet-page.ts';

const thirtyRows = {
	...fiveRows,
	phases: Array.from({ length: 30 }, (_, n) => ({
		id: `watch-${n}`,
		kind: 'observe',
		starts: n === 0 ? 'on 2031-03-03' : `after watch-${n - 1}`,
		lasts: '2 d'
	}))
};

test('keys move the active cell, and the focus goes along', async ({ page }) => {
	const sheet = await SheetPage.open(page, thirtyRows);
	await sheet.cell(1, 'kind').click();
	await sheet.isAt(1, 'kind');
	await sheet.press('ArrowRight', 'ArrowRight', 'ArrowDown', 'ArrowDown', 'ArrowLeft', 'ArrowUp');
	await sheet.isAt(2, 'medicine');
	await sheet.press('Tab');
	await sheet.isAt(2, 'starts');
	await sheet.press('Shift+Tab', 'Shift+Tab');
	await sheet.isAt(2, 'kind');
	await sheet.press('End');
	await sheet.isAt(2, 'mark');
	await sheet.press('Home');
	await sheet.isAt(2, 'kind');
	await sheet.press('Shift+Enter');
	await sheet.isAt(1, 'kind');
	await sheet.press('PageDown');
	await sheet.isAt(11, 'kind');
	await sheet.press('PageDown', 'PageUp', 'PageUp');
	await sheet.isAt(1, 'kind');
	// to the last filled cell of a stretch, then over the gap to the next filled one
	await sheet.press('ControlOrMeta+ArrowDown');
	await sheet.isAt(30, 'kind');
	await sheet.press('ControlOrMeta+ArrowUp', 'ControlOrMeta+ArrowRight');
	await sheet.isAt(1, 'starts');
	await sheet.press('ControlOrMeta+ArrowLeft');
	await sheet.isAt(1, 'kind');
	await sheet.press('ControlOrMeta+End');
	await sheet.isAt(31, 'mark');
	await sheet.press('ControlOrMeta+Home');
	await sheet.isAt(1, 'kind');
	// what is walked to is in sight, though the sheet scrolls
	await sheet.press('ControlOrMeta+ArrowDown');
	await expect(sheet.cell(30, 'kind')).toBeInViewport();
});

test('Shift extends, the pointer drags, and heads select whole rows and columns', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(2, 'starts').click();
	await sheet.selects(1);
	await sheet.press('Shift+ArrowRight', 'Shift+ArrowDown', 'Shift+ArrowDown');
	await sheet.selects(6);
	await sheet.isAt(2, 'starts');
	await sheet.press('Shift+Home');
	await sheet.selects(9);
	await sheet.press('Shift+ControlOrMeta+End');
	await sheet.selects(5 * 10);
	await sheet.press('ArrowDown');
	await sheet.selects(1);
	await sheet.press('Shift+PageUp');
	await sheet.selects(3);

	await sheet.cell(1, 'kind').click();
	await sheet.cell(3, 'medicine').click({ modifiers: ['Shift'] });
	await sheet.selects(6);
	// Tab and Enter go round inside what is selected
	await sheet.press('Tab', 'Tab');
	await sheet.isAt(2, 'kind');
	await sheet.selects(6);
	await sheet.press('Shift+Enter', 'Shift+Tab');
	await sheet.isAt(3, 'medicine');
	await sheet.selects(6);

	await sheet.cell(2, 'lasts').hover();
	await page.mouse.down();
	await sheet.cell(4, 'repeat').hover();
	await page.mouse.up();
	await sheet.selects(9);
	await sheet.isAt(2, 'lasts');

	await sheet.head(2).click();
	await sheet.selects(12);
	await sheet.head(4).click({ modifiers: ['Shift'] });
	await sheet.selects(36);
	await sheet.columnHead('level').click();
	await sheet.selects(6);
	await sheet.columnHead('change').click({ modifiers: ['Shift'] });
	await sheet.selects(18);
	await sheet.press('ArrowUp');
	await sheet.cell(3, 'level').click();
	await sheet.press('Shift+Space');
	await sheet.selects(12);
	await sheet.press('ControlOrMeta+Space');
	await sheet.selects(6 * 12);
	await sheet.cell(3, 'level').click();
	await sheet.press('ControlOrMeta+Space');
	await sheet.selects(6);
	await sheet.press('ControlOrMeta+a');
	await sheet.selects(6 * 12);
});

test('Escape and then Tab leaves the sheet, and so does Tab from its last cell', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(2, 'starts').click();
	await sheet.press('Escape', 'Tab');
	await expect(page.getByRole('toolbar', { name: 'Sheet' }).getByRole('button').first()).toBeVisible();
	await expect.poll(() => sheet.grid.evaluate((node) => node.contains(document.activeElement))).toBe(false);
	await sheet.cell(2, 'starts').click();
	await sheet.press('ControlOrMeta+End', 'Tab');
	await expect.poll(() => sheet.grid.evaluate((node) => node.contains(document.activeElement))).toBe(false);
});

test('Shift goes along with every key that moves', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	const from = async (row: number, column: 'kind' | 'starts' | 'level' | 'change') => {
		await sheet.cell(row, column).click();
		await sheet.selects(1);
	};
	await from(3, 'level');
	await sheet.press('Shift+End');
	await sheet.selects(8);
	await sheet.press('Shift+ArrowLeft', 'Shift+ArrowUp');
	await sheet.selects(2 * 7);
	await sheet.isAt(3, 'level');
	// along what is filled, to its end
	await from(2, 'kind');
	await sheet.press('Shift+ControlOrMeta+ArrowDown');
	await sheet.selects(4);
	await sheet.press('Shift+ControlOrMeta+ArrowUp');
	await sheet.selects(2);
	// and over what is empty, to the next that is not
	await from(4, 'kind');
	await sheet.press('Shift+ControlOrMeta+ArrowRight');
	await sheet.selects(3);
	await from(4, 'change');
	await sheet.press('Shift+ControlOrMeta+ArrowLeft');
	await sheet.selects(4);
	await from(3, 'starts');
	await sheet.press('Shift+ControlOrMeta+Home');
	await sheet.selects(3 * 3);
	await from(2, 'kind');
	await sheet.press('Shift+PageDown');
	await sheet.selects(5);
	await sheet.isAt(2, 'kind');
	await sheet.press('Shift+PageUp');
	await sheet.selects(2);
});
