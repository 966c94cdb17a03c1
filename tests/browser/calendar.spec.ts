import { expect, test } from './app.ts';
import { column, dayFrom, nextJob, openDemo, ready, taskOf } from './calendar.ts';

// each test opens a run and works on it: long on a busy machine
test.describe.configure({ timeout: 180_000 });

test('the calendar opens at this week; earlier weeks unfold on asking', async ({ page }) => {
	const calendar = await openDemo(page);
	const first = calendar.locator('.week').first();
	await expect(first.locator('[aria-current="date"]')).toHaveCount(1);
	const weeks = await calendar.locator('.week').count();
	await calendar.getByRole('button', { name: /^Show \d+ weeks before$/ }).click();
	expect(await calendar.locator('.week').count()).toBeGreaterThan(weeks);
	await expect(first.locator('[aria-current="date"]')).toHaveCount(0);
	await calendar.getByRole('button', { name: 'Today' }).click();
	await expect(calendar.locator('[aria-current="date"]')).toBeFocused();
	await expect(calendar.locator('[aria-current="date"]')).toBeInViewport();
});

test('three ways to look, by button and by key, and the last is remembered', async ({ page }) => {
	const calendar = await openDemo(page);
	await calendar.getByRole('button', { name: 'Today' }).click();
	await page.keyboard.press('+');
	await expect(calendar.locator('[data-time="08:00"]')).toHaveCount(7);
	const today = await dayFrom(calendar, 0);
	await page.keyboard.press('+');
	await expect(calendar.getByRole('button', { name: 'List' })).toBeFocused();
	await expect(column(calendar, today)).toContainText(/08:00.*Test Cu, NH3/s);
	await page.keyboard.press('-');
	await expect(calendar.locator('[data-time="08:00"]')).toHaveCount(7);
	await page.reload();
	await ready(page);
	await expect(calendar.locator('[data-time="08:00"]')).toHaveCount(7);
	const there = await calendar.locator('[data-date]').first().getAttribute('data-date');
	await calendar.getByRole('button', { name: 'The week after' }).click();
	await expect(calendar.locator('[data-date]').first()).not.toHaveAttribute('data-date', there ?? '');
	await calendar.getByRole('button', { name: 'Weeks', exact: true }).click();
	await expect(calendar.locator('.week').nth(2)).toBeVisible();
});

test('arrows go over the days, Enter opens one, and Tab reaches its jobs with their reasons', async ({
	page
}) => {
	const calendar = await openDemo(page);
	await calendar.getByRole('button', { name: 'Today' }).click();
	const tomorrow = await dayFrom(calendar, 1);
	await page.keyboard.press('ArrowRight');
	await expect(calendar.locator(`[data-date="${tomorrow}"]`)).toBeFocused();
	await page.keyboard.press('ArrowDown');
	await expect(calendar.locator(`[data-date="${await dayFrom(calendar, 8)}"]`)).toBeFocused();
	await page.keyboard.press('ArrowUp');
	await page.keyboard.press('Tab');
	const chip = column(calendar, tomorrow).locator('[data-tasks]').first();
	await expect(chip).toBeFocused();
	const card = page.getByRole('tooltip');
	await expect(card).toContainText(/Evaporation left|read on this day/);
	await expect(chip).toHaveAccessibleDescription(/Evaporation left|read on this day/);
	await page.keyboard.press('Enter');
	await expect(page.getByRole('dialog')).toBeVisible();
	await page.keyboard.press('Escape');
	await expect(page.getByRole('dialog')).toHaveCount(0);
});

test('Home, End and the Page keys go further over the days, and zero comes back to today', async ({
	page
}) => {
	const calendar = await openDemo(page);
	await calendar.getByRole('button', { name: 'Today' }).click();
	const today = await dayFrom(calendar, 0);
	const at = (day: string) => expect(calendar.locator(`[data-date="${day}"]`)).toBeFocused();
	await at(today);
	await page.keyboard.press('PageDown');
	await at(await dayFrom(calendar, 28));
	await page.keyboard.press('PageUp');
	await at(today);
	await page.keyboard.press('End');
	await expect(calendar.locator('[data-date]').last()).toBeFocused();
	await page.keyboard.press('Home');
	await expect(calendar.locator('[data-date]').first()).toBeFocused();
	await page.keyboard.press('0');
	await at(today);
	await page.keyboard.press('ArrowLeft');
	await at(await dayFrom(calendar, -1));
});

test('a pointer over a dose shows its reason, its numbers and its cautions', async ({ page }) => {
	const calendar = await openDemo(page);
	const { id } = await nextJob(calendar, 'dose');
	await taskOf(calendar, id).hover();
	const card = page.getByRole('tooltip');
	await expect(card).toContainText(/Ionic copper \d/);
	await expect(card).toContainText(/0\.\d+ → 0\.\d+ mg\/L/);
	await page.mouse.move(0, 0);
	await expect(card).toHaveCount(0);
});

test('a band selects its row, and a selected row lights its days', async ({ page }) => {
	const calendar = await openDemo(page);
	const tomorrow = column(calendar, await dayFrom(calendar, 1));
	await expect(tomorrow).not.toHaveClass(/\blit\b/);
	await calendar.locator('[data-band="copper"]').first().click();
	await expect(tomorrow).toHaveClass(/\blit\b/);
	await expect(page.locator('[data-row="1"][aria-selected="true"]').first()).toBeVisible();
	await page
		.getByRole('rowheader', { name: /^Row 6|^6$/ })
		.first()
		.click();
	await expect(tomorrow).not.toHaveClass(/\blit\b/);
});

test('an address with a task opens its day with the task marked', async ({ page }) => {
	const calendar = await openDemo(page);
	const { id } = await nextJob(calendar, 'change');
	await page.goto(`${new URL(page.url()).pathname}?task=${encodeURIComponent(id)}`);
	await ready(page);
	const dialog = page.getByRole('dialog');
	await expect(dialog.locator('.marked')).toContainText('Change');
	await page.goto(`${new URL(page.url()).pathname}?task=copper/change/999`);
	await ready(page);
	await expect(page.locator('p.refusal[role="status"]')).toHaveText(
		/has no task “copper\/change\/999” any more/
	);
});

test('marking a day as away replans at once', async ({ page }) => {
	const calendar = await openDemo(page);
	const { day } = await nextJob(calendar, 'change');
	await calendar.locator(`[data-date="${day}"]`).click();
	await page.getByRole('dialog').getByLabel('Away this day').check();
	await page.keyboard.press('Escape');
	await expect(column(calendar, day)).toHaveClass(/\baway\b/);
});

test('the levels of the whole run are read by keyboard, nearer and wider, and as a table', async ({
	page
}) => {
	await openDemo(page);
	await page.getByText('Levels of the whole run').click();
	const range = page.getByRole('slider', { name: 'Moment of the run' });
	await range.focus();
	const before = await range.getAttribute('aria-valuetext');
	expect(before).toMatch(/Ionic copper 0\.\d+ mg\/L/);
	await page.keyboard.press('ArrowRight');
	await expect(range).not.toHaveAttribute('aria-valuetext', before ?? '');
	await page.keyboard.press('End');
	await expect(range).toHaveAttribute('aria-valuetext', /Nitrate/);
	const days = page.locator('.panel').first().locator('.midnight');
	const all = await days.count();
	await page.getByRole('button', { name: 'Closer' }).press('Enter');
	await expect.poll(() => days.count()).toBeLessThan(all);
	await page.getByRole('button', { name: 'Whole run' }).press('Enter');
	await expect(days).toHaveCount(all);
	// the pointer reads what it stands over, and the slider goes along
	const panel = page.locator('.panel').first();
	const [early, late] = [
		{ x: 5, y: 20 },
		{ x: 600, y: 20 }
	];
	await panel.hover({ position: early });
	await expect(range).toHaveValue(/^[0-3]$/);
	await panel.hover({ position: late });
	await expect(range).not.toHaveValue(/^[0-3]$/);
	await page.getByRole('button', { name: 'As a table' }).press('Enter');
	const table = page.getByRole('region', { name: 'Levels as a table' });
	await expect(table.getByRole('columnheader', { name: /Ionic copper, mg\/L/ })).toBeVisible();
	expect(await table.getByRole('row').count()).toBeGreaterThan(50);
});

test('nothing slides or springs where motion is not wanted', async ({ page }) => {
	await page.emulateMedia({ reducedMotion: 'reduce' });
	const calendar = await openDemo(page);
	const { id } = await nextJob(calendar, 'change');
	await page.evaluate(() => {
		const started: string[] = ((window as unknown as { started: string[] }).started = []);
		const animate = Element.prototype.animate;
		Element.prototype.animate = function (...how) {
			started.push(this.className);
			return animate.apply(this, how);
		};
	});
	await taskOf(calendar, id).focus();
	await page.keyboard.press('Shift+ArrowRight');
	await expect(taskOf(calendar, id)).toBeFocused();
	expect(await page.evaluate(() => (window as unknown as { started: string[] }).started)).toEqual([]);
	expect(
		await page.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue('--moves'))
	).toMatch(/^0m?s$/);
	await page.emulateMedia({ reducedMotion: 'no-preference' });
	await page.keyboard.press('Shift+ArrowLeft');
	await expect
		.poll(() => page.evaluate(() => (window as unknown as { started: string[] }).started.length))
		.toBeGreaterThan(0);
});

for (const [locale, weekday, date] of [
	['en-US', 'Sun', /Row 2, [A-Z][a-z]{2} \d/],
	['de-DE', 'Mo', /Row 2, \d{1,2}\. [A-Z]/]
] as const)
	test.describe(`read in ${locale}`, () => {
		test.use({ locale });
		test('weeks and dates follow the language', async ({ page }) => {
			const calendar = await openDemo(page);
			await expect(calendar.locator('.weekdays span').first()).toHaveText(weekday);
			await expect(page.locator('.finding b').first()).toHaveText(date);
		});
	});

test.describe('on a phone', () => {
	test.use({ viewport: { width: 390, height: 844 } });
	test('the calendar is a list of days under the tide strip, from this week on', async ({ page }) => {
		const calendar = await openDemo(page);
		await expect(calendar.getByRole('group', { name: 'How much at once' })).toBeHidden();
		const week = calendar.locator('.week').first();
		const [strip, day, next] = await Promise.all(
			[week.locator('.tide'), week.locator('.day.today'), week.locator('.day.today + .day')].map((one) =>
				one.boundingBox()
			)
		);
		if (!strip || !day) throw new Error('no week');
		expect(strip.y).toBeLessThan(day.y);
		if (next) expect(next.y).toBeGreaterThanOrEqual(day.y + day.height - 1);
		const chip = await week.locator('.day.today [data-tasks]').first().boundingBox();
		expect(chip?.height).toBeGreaterThanOrEqual(44);
		expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
	});
});
