import ICAL from 'ical.js';
import { readFileSync } from 'node:fs';
import type { Locator, Page } from '@playwright/test';
import { expect, test, visit } from './app.ts';
import { SheetPage } from './sheet-page.ts';

const isFocused = (wanted: Locator) => wanted.evaluate((node) => node.contains(document.activeElement));

/** Presses Tab (or Shift+Tab) until the focus is there, as somebody without a mouse has to. */
async function tabTo(page: Page, wanted: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab') {
	for (let pressed = 0; pressed < 150; pressed++) {
		if (await isFocused(wanted)) return;
		await page.keyboard.press(key);
	}
	throw new Error('Tab never came there');
}

test('a whole run is planned from an empty store to a calendar file by the keyboard alone', async ({
	page
}) => {
	// hundreds of presses, each looked at
	test.setTimeout(400_000);
	// kept across pages: that no pointer was used is checked at the end
	await page.addInitScript(() => {
		for (const type of ['pointerdown', 'mousedown', 'touchstart'])
			addEventListener(type, () => sessionStorage.setItem('pressed', type), true);
	});
	await visit(page, '/new');
	const fill = async (role: 'spinbutton' | 'textbox' | 'combobox', name: string, text: string) => {
		await tabTo(page, page.getByRole(role, { name }).first());
		await page.keyboard.type(text);
	};
	await fill('spinbutton', 'Net volume', '112');
	await fill('spinbutton', 'Temperature', '26');
	await fill('spinbutton', 'Salinity', '34');
	await fill('spinbutton', 'pH', '8.1');
	await fill('textbox', 'Fish', 'banded cardinalfish');
	await fill('combobox', 'Group', 'Cardinal');
	await tabTo(page, page.getByRole('spinbutton', { name: 'How many' }));
	await page.keyboard.press('ControlOrMeta+a');
	await page.keyboard.type('5');
	await fill('spinbutton', 'Mass', '64');
	await fill('combobox', 'Course', 'Watch');
	await tabTo(page, page.getByRole('button', { name: 'Plan a new arrival' }));
	await page.keyboard.press('Enter');

	const sheet = new SheetPage(page);
	await sheet.grid.waitFor();
	await page.locator('html[data-hydrated]').waitFor();
	await tabTo(page, sheet.grid);
	await sheet.press('ControlOrMeta+a', 'ControlOrMeta+Minus');
	await sheet.hasRows(0);
	// the first row by its cells, the rest as a ready course below it
	await sheet.press('ControlOrMeta+Home');
	await sheet.type('settle');
	await sheet.press('Tab', 'Tab');
	await sheet.type('on 3 March 2031');
	await sheet.press('Tab');
	await sheet.type('3 days');
	await sheet.press('Enter');
	await sheet.shows(1, 'starts', 'on 3 Mar 2031');
	await sheet.press('ControlOrMeta+Home', 'ArrowDown');
	await sheet.isAt(2, 'kind');
	await sheet.type('Copper for 28');
	await sheet.press('ArrowDown', 'Enter');
	await sheet.hasRows(7);
	await sheet.shows(2, 'starts', 'after 1');

	await sheet.press('Escape');
	await tabTo(page, page.locator('summary', { hasText: 'Tank, fish, bottles and new water' }), 'Shift+Tab');
	await page.keyboard.press('Enter');
	const bottle = (name: string) => page.getByRole('group', { name: `Bottle, ${name}` });
	await bottle('Ionic copper').waitFor();
	for (const [name, strength, step] of [
		['Ionic copper', '2 mg/mL', '0.1 mL'],
		['Praziquantel', '1 g/g', '10 mg']
	] as const) {
		await tabTo(page, bottle(name).getByLabel('Strength of this bottle'));
		await sheet.type(strength);
		await tabTo(page, bottle(name).getByLabel('Measured in steps of'));
		await sheet.type(step);
		await sheet.press('Tab');
	}
	await expect(page.getByText(/strength of the bottle/)).toHaveCount(0);
	await sheet.saved();

	await tabTo(page, page.getByRole('button', { name: 'Export .ics' }), 'Shift+Tab');
	await page.keyboard.press('Enter');
	await tabTo(page, page.getByRole('button', { name: 'Save the file' }));
	const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
	expect(await page.evaluate(() => sessionStorage.getItem('pressed'))).toBeNull();
	const file = new ICAL.Component(ICAL.parse(readFileSync(await download.path(), 'utf8')) as unknown[]);
	const titles = file
		.getAllSubcomponents('vevent')
		.map((event) => String(event.getFirstPropertyValue('summary')));
	expect(titles.filter((title) => /copper [\d.]+ mL/i.test(title)).length).toBeGreaterThan(0);
	// 2.5 mg/L in 112 L is 280 mg, twice, each dose in full
	expect(titles.filter((title) => /praziquantel 280 mg/i.test(title))).toHaveLength(2);
});
