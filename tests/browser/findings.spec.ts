import { expect, test } from './app.ts';
import { fiveRows, SheetPage } from './sheet-page.ts';

test('a stop stands in its cell, on its day and in the list, is read aloud, and its repair is taken by keyboard', async ({
	page
}) => {
	const sheet = await SheetPage.open(page);
	const checks = page.getByRole('region', { name: 'Checks' });
	const aloud = checks.getByRole('status');
	await expect(aloud).toBeEmpty();
	await expect(sheet.cell(2, 'level')).not.toHaveClass(/(^| )stop( |$)/);

	await sheet.put(2, 'level', '0.9 mg/L');
	await expect(aloud).toHaveText(/^Stop\. .*0\.9 mg\/L/);
	const said = ((await aloud.textContent()) ?? '').replace(/ \d+ more in the list of checks\.$/, '');
	const message = said.replace('Stop. ', '');

	// the cell carries it, and its field is described by it
	await expect(sheet.cell(2, 'level')).toHaveClass(/(^| )stop( |$)/);
	await sheet.cell(2, 'level').click();
	await expect(sheet.cell(2, 'level').getByRole('combobox')).toHaveAccessibleDescription(said);

	// its row in the list, gravest first of its day
	const item = checks.getByRole('listitem').filter({ hasText: message });
	await expect(item).toContainText(/^Stop:\s*Row 2/);
	const dates = await page
		.locator('[data-date]')
		.evaluateAll((days) => days.map((day) => day.getAttribute('aria-label') ?? ''));
	expect(dates.filter((name) => name.includes('stop: '))).not.toEqual([]);

	// with keys alone: out of the sheet, on to the repair, and the stop is gone
	const repair = item.getByRole('button').first();
	// repairs are tried once the typing rests
	await expect(repair).not.toHaveText('Go to it');
	const title = (await repair.textContent()) ?? '';
	await repair.focus();
	await page.keyboard.press('Shift+Tab');
	await expect(repair).not.toBeFocused();
	await page.keyboard.press('Tab');
	await expect(repair).toBeFocused();
	await page.keyboard.press('Enter');
	await expect(item).toHaveCount(0);
	await expect(sheet.cell(2, 'level')).not.toHaveClass(/(^| )stop( |$)/);
	await expect(aloud).toContainText(`Done: ${title.trim()}.`);
	await expect(checks).toBeFocused();
});

test('a finding about a bottle leads to its field, which is closed until then', async ({ page }) => {
	await SheetPage.open(page, {
		...fiveRows,
		medicines: [{ id: 'cu', active: 'copper-ionic', measure: '0.1 mL' }]
	});
	const strength = page.getByLabel('Strength of this bottle');
	await expect(strength).toHaveCount(0);
	const checks = page.getByRole('region', { name: 'Checks' });
	const missing = checks.getByRole('listitem').filter({ hasText: 'strength' }).first();
	await missing.getByRole('button', { name: 'Go to it' }).click();
	await expect(strength).toBeFocused();
});
