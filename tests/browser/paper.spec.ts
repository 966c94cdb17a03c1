import { expect, test } from './app.ts';
import { openDemo } from './calendar.ts';

test.describe.configure({ timeout: 180_000 });

test('a printed run has all its weeks, its reasons and its cautions, and nothing to press', async ({
	page
}) => {
	const calendar = await openDemo(page);
	const folded = await calendar.locator('.week').count();
	await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
	await page.emulateMedia({ media: 'print' });
	expect(await calendar.locator('.week').count()).toBeGreaterThan(folded);
	await expect(page.getByRole('heading', { name: 'Cautions' })).toBeVisible();
	await expect(page.locator('.finding details p').first()).toBeVisible();
	for (const name of ['Today', 'Export .ics', 'Undo'])
		await expect(page.getByRole('button', { name, exact: true })).toBeHidden();
	await expect(page.getByRole('navigation', { name: 'Screens' })).toBeHidden();
	await page.evaluate(() => dispatchEvent(new Event('afterprint')));
	await page.emulateMedia({ media: null });
	await expect(calendar.locator('.week')).toHaveCount(folded);
	const pages = (await page.pdf({ format: 'A4' })).toString('latin1').match(/\/Type\s*\/Page\b/g) ?? [];
	expect(pages.length).toBeGreaterThan(0);
	expect(pages.length).toBeLessThanOrEqual(5);
});

test('without colour every line of a day has a shape and words, and no two curves look alike', async ({
	page
}) => {
	const calendar = await openDemo(page);
	const mute = await calendar
		.locator('[data-tasks]')
		.evaluateAll(
			(chips) =>
				chips.filter(
					(chip) => !chip.querySelector('svg.glyph') || !chip.querySelector('.words')?.textContent?.trim()
				).length
		);
	expect(mute).toBe(0);
	const bands = await calendar.locator('[data-band] .label').allInnerTexts();
	expect(bands.filter((label) => !/^(… )?\d+ \S/.test(label))).toEqual([]);
	const looks = await calendar
		.locator('.week')
		.first()
		.locator('.strip g')
		.evaluateAll((curves) =>
			curves.map((curve) => {
				const line = curve.querySelector('.level:not(.to-come)') ?? curve.querySelector('.level');
				const { strokeWidth, strokeDasharray } = getComputedStyle(line as Element);
				return `${strokeWidth} ${strokeDasharray}`;
			})
		);
	expect(looks.length).toBeGreaterThan(2);
	expect(new Set(looks).size).toBe(looks.length);
});

test('with forced colours bands keep an edge and today its frame', async ({ page }) => {
	await page.emulateMedia({ forcedColors: 'active' });
	const calendar = await openDemo(page);
	const edge = (selector: string, property: 'borderTopWidth' | 'outlineStyle') =>
		calendar
			.locator(selector)
			.first()
			.evaluate((element, wanted) => getComputedStyle(element)[wanted], property);
	expect(await edge('[data-band]', 'borderTopWidth')).toBe('1px');
	expect(await edge('.day.today', 'outlineStyle')).toBe('solid');
});

test('more contrast means black on white, and light on near black in a dark room', async ({ page }) => {
	await openDemo(page);
	const colours = () =>
		page.evaluate(() => {
			const { color, backgroundColor } = getComputedStyle(document.documentElement);
			return [color, backgroundColor];
		});
	await page.emulateMedia({ contrast: 'more', colorScheme: 'light' });
	expect(await colours()).toEqual(['rgb(0, 18, 28)', 'rgb(255, 255, 255)']);
	await page.emulateMedia({ contrast: 'more', colorScheme: 'dark' });
	expect(await colours()).toEqual(['rgb(255, 255, 255)', 'rgb(0, 8, 16)']);
});
