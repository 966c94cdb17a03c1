import type { CDPSession, Locator, Page } from '@playwright/test';
import { expect, test } from './app.ts';
import { SheetPage } from './sheet-page.ts';

test.use({ viewport: { width: 1024, height: 768 }, hasTouch: true, isMobile: true });

/** One finger on the glass, as the browser gets it. */
class Finger {
	readonly #wire: CDPSession;

	constructor(wire: CDPSession) {
		this.#wire = wire;
	}

	static async on(page: Page): Promise<Finger> {
		return new Finger(await page.context().newCDPSession(page));
	}

	async drag(from: Locator, by: { x: number; y: number }) {
		const box = await from.boundingBox();
		if (!box) throw new Error('nothing to put a finger on');
		const x = box.x + box.width / 2;
		const y = box.y + box.height / 2;
		await this.#send('touchStart', [{ x, y }]);
		for (const part of [0.25, 0.5, 0.75, 1]) {
			await this.#send('touchMove', [{ x: x + by.x * part, y: y + by.y * part }]);
		}
		await this.#send('touchEnd', []);
	}

	async #send(type: 'touchStart' | 'touchMove' | 'touchEnd', touchPoints: { x: number; y: number }[]) {
		await this.#wire.send('Input.dispatchTouchEvent', { type, touchPoints });
	}
}

test('a tap goes to a cell, a double tap edits it, and a finger that scrolls does neither', async ({
	page
}) => {
	const sheet = await SheetPage.open(page);
	const finger = await Finger.on(page);
	await sheet.cell(2, 'lasts').tap();
	await sheet.isAt(2, 'lasts');
	await finger.drag(sheet.cell(4, 'starts'), { x: 0, y: -240 });
	await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(100);
	await sheet.isAt(2, 'lasts');
	await sheet.selects(1);
	await page.evaluate(() => scrollTo(0, 0));

	// what is being typed stays open while the page is scrolled
	await sheet.type('9');
	const field = sheet.cell(2, 'lasts').locator('input');
	await expect(field).toHaveValue('9');
	await finger.drag(sheet.cell(4, 'starts'), { x: 0, y: -240 });
	await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(100);
	await expect(field).toHaveValue('9');
	await sheet.press('Escape');
	await sheet.shows(2, 'lasts', '28 d');

	await page.evaluate(() => scrollTo(0, 0));
	await sheet.head(3).tap();
	await sheet.selects(12);
	await sheet.cell(2, 'test').dblclick();
	await expect(sheet.cell(2, 'test').locator('input')).toHaveValue('Cu daily, NH3 daily');
});

test('a finger pulls the corner', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(1, 'change').tap();
	const handle = sheet.grid.locator('.handle');
	const box = await handle.boundingBox();
	const goal = await sheet.cell(3, 'change').boundingBox();
	await (await Finger.on(page)).drag(handle, { x: -20, y: (goal?.y ?? 0) - (box?.y ?? 0) + 20 });
	await sheet.shows(2, 'change', 'auto');
	await sheet.shows(3, 'change', 'auto');
	await sheet.selects(3);
});
