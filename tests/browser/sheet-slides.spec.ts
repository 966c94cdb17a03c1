import type { Page } from '@playwright/test';
import { expect, test } from './app.ts';
import { SheetPage } from './sheet-page.ts';

/** The motions of rows under way, by what they move; asked in the same breath as the act that sets them off. */
const slides = (page: Page, button: string) =>
	page.evaluate(async (name) => {
		const act = [...document.querySelectorAll('button')].find(
			({ textContent }) => textContent?.trim() === name
		);
		const table = document.querySelector('[role="grid"]');
		act?.click();
		await new Promise((done) => requestAnimationFrame(() => done(null)));
		return (table?.getAnimations({ subtree: true }) ?? [])
			.filter(({ id }) => id === 'slide')
			.flatMap(({ effect }) => (effect as KeyframeEffect).getKeyframes().slice(0, 1))
			.map((frame) => Object.keys(frame).find((key) => key === 'transform' || key === 'opacity'));
	}, button);

test('rows slide to their new places when one is put in, moved or taken out, and not while one types', async ({
	page
}) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(2, 'kind').click();
	// one comes up, four give way
	expect((await slides(page, 'Insert row')).sort()).toEqual(['opacity', ...Array(4).fill('transform')]);
	await sheet.hasRows(6);
	expect((await slides(page, 'Delete')).every((what) => what === 'transform')).toBe(true);
	await sheet.hasRows(5);
	await sheet.cell(2, 'lasts').click();
	expect(await slides(page, 'Row down')).toEqual(['transform', 'transform']);
	await sheet.cell(1, 'lasts').click();
	await sheet.type('4 d');
	await sheet.press('Enter');
	expect(await slides(page, 'nothing of that name')).toEqual([]);
});

test('rows do not slide for who asked for calm', async ({ page }) => {
	await page.emulateMedia({ reducedMotion: 'reduce' });
	const sheet = await SheetPage.open(page);
	await sheet.cell(2, 'kind').click();
	expect(await slides(page, 'Insert row')).toEqual([]);
	await sheet.hasRows(6);
});
