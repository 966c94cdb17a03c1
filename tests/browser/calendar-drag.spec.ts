import type { Page } from '@playwright/test';
import { expect, test } from './app.ts';
import { column, dayFrom, drag, nextJob, openDemo, ready, taskOf } from './calendar.ts';

// each test opens a run and works on it: long on a busy machine
test.describe.configure({ timeout: 180_000 });

const refusal = (page: Page) => page.locator('p.refusal[role="status"]');
const next = (day: string, days: number) =>
	new Date(Date.parse(`${day}T12:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
const lasts = (page: Page) => page.locator('[data-row="1"][data-column="3"]');
/** What a cell shows, whether it is the one with the field or not. */
const shown = async (page: Page, row: number, column: number) => {
	const cell = page.locator(`[data-row="${row}"][data-column="${column}"]`);
	const text = cell.locator('.text');
	return (await text.count()) ? (await text.innerText()).trim() : cell.locator('input').inputValue();
};

test('a change dragged to another day lies there, also after a reload, and goes back by undo', async ({
	page
}) => {
	const calendar = await openDemo(page);
	const { day, id } = await nextJob(calendar, 'change');
	const there = next(day, 1);
	await drag(page, taskOf(calendar, id), column(calendar, there));
	await expect(column(calendar, there).locator(`[data-tasks~="${id}"]`)).toBeVisible();
	await expect(page.getByText('Saved', { exact: true })).toBeVisible();
	await page.reload();
	await ready(page);
	await expect(column(calendar, there).locator(`[data-tasks~="${id}"]`)).toBeVisible();
	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(column(calendar, day).locator(`[data-tasks~="${id}"]`)).toBeVisible();
	// right after a drag the keys undo it, wherever it left them
	await drag(page, taskOf(calendar, id), column(calendar, there));
	await expect(column(calendar, there).locator(`[data-tasks~="${id}"]`)).toBeVisible();
	await page.keyboard.press('ControlOrMeta+z');
	await expect(column(calendar, day).locator(`[data-tasks~="${id}"]`)).toBeVisible();
});

test('a job moved back to where its row has it leaves nothing written', async ({ page, request }) => {
	const calendar = await openDemo(page);
	const { day, id } = await nextJob(calendar, 'change');
	const run = `/api${new URL(page.url()).pathname}`;
	const moves = async () => {
		const { run: kept } = (await (await request.get(run)).json()) as {
			run: { document: { moves?: object } };
		};
		return kept.document.moves ?? {};
	};
	await drag(page, taskOf(calendar, id), column(calendar, next(day, 1)));
	await expect.poll(moves).toEqual({ [id]: next(day, 1) });
	await drag(page, taskOf(calendar, id), column(calendar, day));
	await expect.poll(moves).toEqual({});
});

test('a dose that holds a level says why it stays, and springs back', async ({ page }) => {
	const calendar = await openDemo(page);
	const { day, id } = await nextJob(calendar, 'dose');
	await drag(page, taskOf(calendar, id), column(calendar, next(day, 1)));
	await expect(refusal(page)).toHaveText(/stays on .*: a dose that holds a level follows the changes/);
	await expect(column(calendar, day).locator(`[data-tasks~="${id}"]`)).toBeVisible();
	await expect(page.locator('[data-ghost]')).toHaveCount(0);
});

test('what is logged, and days that are over, are left alone', async ({ page }) => {
	const calendar = await openDemo(page);
	const { id } = await nextJob(calendar, 'change');
	const yesterday = await dayFrom(calendar, -1);
	await drag(page, taskOf(calendar, id), column(calendar, yesterday));
	await expect(refusal(page)).toHaveText(/is over\.$/);
	const done = column(calendar, yesterday).locator('.chip.done').first();
	await drag(page, done, column(calendar, await dayFrom(calendar, 1)));
	await expect(refusal(page)).toHaveText(/is in the log, and the past stays/);
});

test('a drop on a day away asks first', async ({ page }) => {
	const calendar = await openDemo(page);
	const away = await calendar.locator('[data-day].away').first().getAttribute('data-day');
	const { id } = await nextJob(calendar, 'change');
	const there = calendar.locator(`[data-day="${away}"]`);
	await drag(page, taskOf(calendar, id), there);
	await page.getByRole('dialog').getByRole('button', { name: 'Leave it where it is' }).click();
	await expect(there.locator(`[data-tasks~="${id}"]`)).toHaveCount(0);
	await drag(page, taskOf(calendar, id), there);
	await expect(page.getByRole('dialog')).toContainText('You are away on');
	await page.getByRole('button', { name: 'Move it all the same' }).click();
	await expect(there.locator(`[data-tasks~="${id}"]`)).toBeVisible();
});

test('Escape lets go of a drag, and a press that does not move is a click', async ({ page }) => {
	const calendar = await openDemo(page);
	const { day, id } = await nextJob(calendar, 'change');
	const from = await taskOf(calendar, id).boundingBox();
	const to = await column(calendar, next(day, 1)).boundingBox();
	if (!from || !to) throw new Error('nothing to drag');
	await page.mouse.move(from.x + 10, from.y + 8);
	await page.mouse.down();
	await page.mouse.move(to.x + 20, to.y + 20, { steps: 5 });
	await page.keyboard.press('Escape');
	await page.mouse.up();
	await expect(column(calendar, day).locator(`[data-tasks~="${id}"]`)).toBeVisible();
	await taskOf(calendar, id).click();
	await expect(page.getByRole('dialog')).toBeVisible();
});

test('the end of a band writes what its row lasts', async ({ page }) => {
	const calendar = await openDemo(page);
	const end = calendar.locator('[data-band="copper"].closes');
	await end.evaluate((element) => element.scrollIntoView({ block: 'center' }));
	const box = await end.boundingBox();
	const before = await shown(page, 1, 3);
	const last = await page.locator('[data-row="1"].computed, [data-row="1"] .computed').nth(1).innerText();
	if (!box) throw new Error('no band');
	const day = await end.evaluate(
		(band) => band.closest('.week')?.querySelector('[data-day]')?.getBoundingClientRect().width ?? 0
	);
	// on one day of the week the band ends in the first column, and there is nothing before it
	const by = box.width < 1.5 * day ? 1 : -1;
	await page.mouse.move(box.x + box.width - 5, box.y + 8);
	await page.mouse.down();
	await page.mouse.move(box.x + box.width - 5 + by * day, box.y + 8, { steps: 6 });
	await page.mouse.up();
	await expect.poll(() => shown(page, 1, 3)).not.toBe(before);
	expect(Number.parseInt(await shown(page, 1, 3))).toBe(Number.parseInt(before) + by);
	await expect(lasts(page)).toBeVisible();
	await expect(page.locator('[data-row="1"].computed, [data-row="1"] .computed').nth(1)).not.toHaveText(last);
});

test('the start of a band, dragged, writes the day its row starts on', async ({ page }) => {
	const calendar = await openDemo(page);
	const start = calendar.locator('[data-band="watch"].opens');
	const from = page.locator('[data-row="4"][data-column="8"]');
	const before = await from.innerText();
	await start.evaluate((element) => element.scrollIntoView({ block: 'center' }));
	const box = await start.boundingBox();
	if (!box) throw new Error('no band');
	const { day, left } = await start.evaluate((band) => {
		const first = band.closest('.week')?.querySelector('[data-day]')?.getBoundingClientRect();
		return { day: first?.width ?? 0, left: first?.left ?? 0 };
	});
	// a band that begins with its week has no day before it there
	const by = box.x - left < day / 2 ? 1 : -1;
	await page.mouse.move(box.x + 5, box.y + 8);
	await page.mouse.down();
	await page.mouse.move(box.x + 5 + by * day, box.y + 8, { steps: 6 });
	await page.mouse.up();
	await expect.poll(() => shown(page, 4, 2)).toMatch(/^on /);
	await expect(from).not.toHaveText(before);
	await page.keyboard.press('ControlOrMeta+z');
	await expect.poll(() => shown(page, 4, 2)).toBe('after 4');
	await expect(from).toHaveText(before);
});

test('the start of a band writes where its row starts; one that has begun keeps its start', async ({
	page
}) => {
	const calendar = await openDemo(page);
	const watch = calendar.locator('[data-band="watch"].opens, [data-band="observe"].opens').first();
	await watch.focus();
	await page.keyboard.press('Shift+ArrowRight');
	await expect.poll(() => shown(page, 4, 2)).toMatch(/^on /);
	await page.getByRole('button', { name: /^Show .* before$/ }).click();
	await calendar.locator('[data-band="copper"].opens').focus();
	await page.keyboard.press('Shift+ArrowRight');
	await expect(refusal(page)).toHaveText(/^Row 2 keeps its start: .* is over\.$/);
});

test('the keyboard moves bands and jobs as the mouse does, and keeps hold of them', async ({ page }) => {
	const calendar = await openDemo(page);
	const before = Number.parseInt(await shown(page, 1, 3));
	await calendar.locator('[data-band="copper"]').last().focus();
	await page.keyboard.press('ArrowRight');
	await expect.poll(async () => Number.parseInt(await shown(page, 1, 3))).toBe(before + 1);

	const { day, id } = await nextJob(calendar, 'change');
	await taskOf(calendar, id).focus();
	await page.keyboard.press('Shift+ArrowRight');
	await expect(column(calendar, next(day, 1)).locator(`[data-tasks~="${id}"]`)).toBeFocused();
	await page.keyboard.press('Shift+ArrowLeft');
	await expect(column(calendar, day).locator(`[data-tasks~="${id}"]`)).toBeFocused();
	// up and down by weeks
	await page.keyboard.press('Shift+ArrowDown');
	await expect(column(calendar, next(day, 7)).locator(`[data-tasks~="${id}"]`)).toBeFocused();
	await page.keyboard.press('Shift+ArrowUp');
	await expect(column(calendar, day).locator(`[data-tasks~="${id}"]`)).toBeFocused();
});

test('in the week with hours a job goes to another hour and back, by mouse and by keyboard, and keeps it over days', async ({
	page
}) => {
	const calendar = await openDemo(page);
	await calendar.getByRole('button', { name: 'One week' }).click();
	const cell = (day: string, time: string) => calendar.locator(`[data-day="${day}"][data-time="${time}"]`);
	await calendar.locator('[data-time="08:00"]').first().waitFor();
	const today = await dayFrom(calendar, 0);
	await calendar.getByRole('button', { name: 'The week after' }).click();
	const { day, id } = await nextJob(calendar, 'change', today);
	const at = (time: string) => cell(day, time).locator(`[data-tasks~="${id}"]`);
	await drag(page, taskOf(calendar, id), cell(day, '15:00'));
	await expect(at('15:00')).toBeVisible();
	await expect(page.getByText('Saved', { exact: true })).toBeVisible();
	await page.reload();
	await ready(page);
	await calendar.getByRole('button', { name: 'One week' }).click();
	await calendar.getByRole('button', { name: 'The week after' }).click();
	await expect(at('15:00')).toBeVisible();
	await taskOf(calendar, id).focus();
	await page.keyboard.press('Shift+ArrowUp');
	await expect(at('14:00')).toBeFocused();
	await drag(page, taskOf(calendar, id), cell(day, '08:00'));
	await expect(at('08:00')).toBeVisible();
	const days = await calendar
		.locator('[data-date]')
		.evaluateAll((all) => all.map((one) => (one as HTMLElement).dataset.date ?? ''));
	const there = days[days.indexOf(day) + 1] ?? days[days.indexOf(day) - 1] ?? '';
	await drag(page, taskOf(calendar, id), cell(there, '08:00'));
	const question = page.getByRole('button', { name: 'Move it all the same' });
	await expect(question.or(cell(there, '08:00').locator(`[data-tasks~="${id}"]`))).toBeVisible();
	if (await question.isVisible()) await question.click();
	await expect(cell(there, '08:00').locator(`[data-tasks~="${id}"]`)).toBeVisible();
});

test('an hour that the checks forbid sends a job back with their sentence', async ({ page }) => {
	const calendar = await openDemo(page);
	await calendar.getByRole('button', { name: 'One week' }).click();
	const cell = (day: string, time: string) => calendar.locator(`[data-day="${day}"][data-time="${time}"]`);
	await calendar.locator('[data-time="08:00"]').first().waitFor();
	const today = await dayFrom(calendar, 0);
	await calendar.getByRole('button', { name: 'The week after' }).click();
	// a day with a make-up dose: its copper test belongs before it
	const { day } = await nextJob(calendar, 'dose', today);
	const test = cell(day, '08:00').locator('[data-tasks*="/test/"]').first();
	const id = (await test.getAttribute('data-tasks'))?.split(' ')[0] ?? '';
	await drag(page, test, cell(day, '18:00'));
	await expect(refusal(page)).toHaveText(
		/ionic copper is dosed at 08:00 and tested at 18:00: the test comes first/
	);
	await expect(cell(day, '08:00').locator(`[data-tasks~="${id}"]`)).toBeVisible();
	await expect(page.locator('[data-ghost]')).toHaveCount(0);
	// by the day's dialog too
	await page.keyboard.press('Escape');
	await cell(day, '08:00').locator(`[data-tasks~="${id}"]`).click();
	const field = page.locator(`[data-task="${id}"] input[type="time"]`);
	await field.fill('23:15');
	await expect(page.getByRole('dialog').getByRole('alert')).toHaveText(/23:15 is night/);
});
