import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test, visit } from './app.ts';

const columns = ['kind', 'medicine', 'starts', 'lasts', 'level', 'repeat', 'change', 'test'];
const cell = (page: Page, row: number, column: string) =>
	page.locator(`[data-row="${row}"][data-column="${columns.indexOf(column)}"]`);
/** What a cell shows, whether it is the one with the field or not. */
const shown = async (page: Page, row: number, column: string) => {
	const text = cell(page, row, column).locator('.text');
	if (await text.count()) return (await text.innerText()).trim();
	return cell(page, row, column).locator('input').inputValue();
};

async function openDemo(page: Page) {
	await visit(page, '/');
	await page.getByRole('button', { name: 'Open the demo run' }).click();
	await page.getByRole('grid', { name: 'Phases' }).waitFor();
	await page.locator('html[data-hydrated]').waitFor();
}

test('a first visit has two ways on, and the demo lists two tanks', async ({ page }) => {
	await page.goto('/');
	await expect(page.getByRole('button', { name: 'Open the demo run' })).toBeVisible();
	await expect(page.getByRole('heading', { name: 'Plan a new arrival' })).toBeVisible();
	await openDemo(page);
	await page.goto('/runs');
	await expect(page.locator('tbody').first().locator('tr')).toHaveCount(2);
	await page.goto('/');
	await expect(page).toHaveURL(/\/today$/);
});

test('each edit replans at once, is kept over a reload and can be undone', async ({ page }) => {
	await openDemo(page);
	const to = page.locator('[data-row="1"].computed, [data-row="1"] .computed').nth(1);
	const before = await page.getByRole('grid').innerText();
	await cell(page, 1, 'lasts').click();
	await page.keyboard.type('20 d');
	await page.keyboard.press('Enter');
	await expect(page.getByRole('grid')).not.toHaveText(before);
	await expect(page.getByText('Saved', { exact: true })).toBeVisible();
	await page.reload();
	await page.locator('html[data-hydrated]').waitFor();
	await expect.poll(() => shown(page, 1, 'lasts')).toBe('20 d');
	await cell(page, 1, 'lasts').click();
	await page.keyboard.press('ControlOrMeta+z');
	await expect.poll(() => shown(page, 1, 'lasts')).toBe('28 d');
	await expect(to).toBeVisible();
});

test('a cell that cannot be read keeps its text, says what was expected, and the rest plans on', async ({
	page
}) => {
	await openDemo(page);
	const events = await page.locator('.day, [data-day]').count();
	await cell(page, 4, 'lasts').click();
	await page.keyboard.type('a fortnight or so');
	await page.keyboard.press('Enter');
	await expect.poll(() => shown(page, 4, 'lasts')).toBe('a fortnight or so');
	await expect(page.getByText(/14 d, 3 wk/).first()).toBeVisible();
	expect(await page.locator('.day, [data-day]').count()).toBeGreaterThan(events / 3);
});

test('rows pasted from a spreadsheet become phases', async ({ page }) => {
	await openDemo(page);
	const rows = await page.locator('tbody tr').count();
	await cell(page, 5, 'kind').click();
	await page.keyboard.press('ArrowDown');
	await page.evaluate(() => {
		const data = new DataTransfer();
		data.setData(
			'text/plain',
			'observe\t\tafter 5\t10 d\t\t\t25% weekly\tNH3 daily\r\nrelease\t\tafter 7\r\n'
		);
		document.activeElement?.dispatchEvent(
			new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true })
		);
	});
	await expect(page.locator('tbody tr')).toHaveCount(rows + 2);
	await expect.poll(() => shown(page, 6, 'change')).toMatch(/25 ?% weekly/);
});

test.describe('on a phone', () => {
	test.use({ viewport: { width: 390, height: 844 } });
	test('nothing scrolls sideways and phases are cards', async ({ page }) => {
		await visit(page, '/');
		await page.getByRole('button', { name: 'Open the demo run' }).click();
		await page.waitForURL(/\/runs\/./);
		for (const path of [page.url(), '/runs', '/medicines', '/water', '/new']) {
			await page.goto(path);
			expect([path, await page.evaluate(() => document.documentElement.scrollWidth)]).toEqual([path, 390]);
		}
	});
});

for (const colorScheme of ['light', 'dark'] as const)
	test(`no page breaks an accessibility rule, ${colorScheme}`, async ({ page }) => {
		await page.emulateMedia({ colorScheme });
		await page.goto('/');
		const welcome = await new AxeBuilder({ page }).analyze();
		await openDemo(page);
		const paths = [page.url(), '/runs', '/new', '/medicines'];
		const found = [...welcome.violations];
		for (const path of paths) {
			await visit(page, path);
			found.push(...(await new AxeBuilder({ page }).analyze()).violations);
		}
		expect(found.map(({ id, nodes }) => [id, nodes[0]?.html.slice(0, 120)])).toEqual([]);
	});
