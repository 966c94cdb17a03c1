import { expect, test, visit } from './app.ts';
import { fiveRows, SheetPage } from './sheet-page.ts';

test('fill steps days and rows down, copies right, by key and by the corner', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(4, 'starts').click();
	await sheet.press('Shift+ArrowDown', 'ControlOrMeta+d');
	await sheet.shows(5, 'starts', 'after 4');
	await sheet.press('ControlOrMeta+z');
	await sheet.cell(1, 'starts').click();
	await sheet.press('Shift+ArrowDown', 'Shift+ArrowDown', 'ControlOrMeta+d');
	await sheet.shows(3, 'starts', 'on 5 Mar 2031');
	await sheet.press('ControlOrMeta+z');
	await sheet.cell(4, 'change').click();
	await sheet.press('Shift+ArrowRight', 'ControlOrMeta+r');
	await sheet.shows(4, 'test', 'auto');
	await sheet.press('ControlOrMeta+z');
	await sheet.shows(4, 'test', 'NH3 every 2 d');

	const pull = async (row: number, column: 'lasts' | 'level') => {
		await sheet.grid.locator('.handle').hover();
		await page.mouse.down();
		await sheet.cell(row, column).hover();
		await page.mouse.up();
	};
	await sheet.cell(1, 'lasts').click();
	await pull(3, 'lasts');
	await sheet.shows(2, 'lasts', '3 d');
	await sheet.shows(3, 'lasts', '3 d');
	await sheet.selects(3);
	await sheet.press('ControlOrMeta+z');
	await sheet.cell(3, 'lasts').click();
	await pull(3, 'level');
	await sheet.shows(3, 'level', 'until clear');
	await sheet.selects(2);
	await sheet.press('ControlOrMeta+z');
	await sheet.shows(3, 'level', '0.02 mg/L');
});

test('rows are cleared, put in, taken out, doubled and moved by key, and references follow', async ({
	page
}) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(4, 'lasts').click();
	await sheet.press('Shift+ArrowRight', 'Shift+ArrowRight', 'Shift+ArrowRight', 'Delete');
	await sheet.shows(4, 'lasts', '');
	await sheet.shows(4, 'change', '');
	await sheet.press('ControlOrMeta+z');
	await sheet.shows(4, 'lasts', '14 d');

	await sheet.cell(2, 'kind').click();
	await sheet.press('ControlOrMeta+Equal');
	await sheet.hasRows(6);
	await sheet.shows(3, 'starts', 'after 1');
	await sheet.shows(4, 'starts', 'after 3');
	await sheet.press('ControlOrMeta+Minus');
	await sheet.hasRows(5);

	await sheet.cell(2, 'kind').click();
	await sheet.press('Shift+ArrowDown', 'ControlOrMeta+Shift+D');
	await sheet.hasRows(7);
	await sheet.shows(4, 'starts', 'after 1');
	await sheet.shows(5, 'starts', 'after 4');
	await sheet.press('ControlOrMeta+z');
	await sheet.hasRows(5);

	await sheet.cell(4, 'kind').click();
	await sheet.press('Alt+ArrowUp');
	await sheet.shows(3, 'kind', 'Observe');
	await sheet.shows(3, 'starts', 'after 4');
	await sheet.shows(5, 'starts', 'after 3');
	await sheet.isAt(3, 'kind');
	await sheet.press('Alt+ArrowDown');
	await sheet.shows(4, 'starts', 'after 3');

	await page.getByRole('button', { name: 'Duplicate' }).click();
	await sheet.hasRows(6);
	await page.getByRole('button', { name: 'Undo' }).click();
	await sheet.hasRows(5);
});

test('rows carried by their heads land where they are dropped, and take references along', async ({
	page
}) => {
	const sheet = await SheetPage.open(page);
	const carry = async (from: number, to: number) => {
		await sheet.head(from).hover();
		await page.mouse.down();
		await sheet.head(to).hover();
		await page.mouse.up();
	};
	await carry(2, 4);
	await sheet.shows(4, 'kind', 'Hold');
	await sheet.shows(2, 'starts', 'after 4');
	await sheet.selects(12);
	await carry(4, 2);
	await sheet.shows(2, 'kind', 'Hold');
	await sheet.head(3).click();
	await sheet.head(4).click({ modifiers: ['Shift'] });
	await carry(3, 1);
	await sheet.shows(1, 'kind', 'Washout');
	await sheet.shows(2, 'kind', 'Observe');
	await sheet.shows(2, 'starts', 'after 1');
	await sheet.shows(1, 'starts', 'after 4');
});

test('undo and redo know no end, and survive a reload', async ({ page }) => {
	test.slow();
	const sheet = await SheetPage.open(page);
	for (const days of [4, 5, 6, 7]) await sheet.put(1, 'lasts', `${days} d`);
	await sheet.press('ControlOrMeta+z', 'ControlOrMeta+z');
	await sheet.shows(1, 'lasts', '5 d');
	await sheet.press('ControlOrMeta+y');
	await sheet.shows(1, 'lasts', '6 d');
	await sheet.saved();
	await sheet.reload();
	await sheet.cell(2, 'lasts').click();
	await sheet.press('ControlOrMeta+Shift+Z');
	await sheet.shows(1, 'lasts', '7 d');
	await sheet.press('ControlOrMeta+z', 'ControlOrMeta+z', 'ControlOrMeta+z', 'ControlOrMeta+z');
	await sheet.shows(1, 'lasts', '3 d');
	await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
});

test('a page that is left in the moment of an edit still hands it over', async ({ page, request }) => {
	const sheet = await SheetPage.open(page);
	await sheet.put(1, 'lasts', '4 d');
	await sheet.saved();
	const [, run] = /\/runs\/([^/?]+)/.exec(page.url()) ?? [];
	await page.evaluate(() => {
		const undo = new KeyboardEvent('keydown', { key: 'z', ctrlKey: true, bubbles: true, cancelable: true });
		// a page that goes may make no frame any more
		window.requestAnimationFrame = () => 0;
		document.activeElement?.dispatchEvent(undo);
		location.href = '/medicines';
	});
	await page.waitForURL('/medicines');
	const lasts = async () => {
		const { run: kept } = (await (await request.get(`/api/runs/${run}`)).json()) as {
			run: { document: { phases: { lasts: string }[] } };
		};
		return kept.document.phases[0]?.lasts;
	};
	await expect.poll(lasts).toBe('3 d');
});

test('keys go on in the sheet after a row went, after a tool was pressed and from anywhere beside', async ({
	page
}) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(4, 'lasts').click();
	await sheet.press('ControlOrMeta+Minus');
	await sheet.type('7 d');
	await sheet.press('Enter');
	await sheet.hasRows(4);
	await sheet.shows(4, 'lasts', '7 d');
	await sheet.press('ControlOrMeta+z', 'ControlOrMeta+z');
	await sheet.hasRows(5);

	await page.getByRole('button', { name: 'Delete', exact: true }).click();
	await sheet.hasRows(4);
	await sheet.press('ControlOrMeta+z');
	await sheet.hasRows(5);
	// who walks the buttons by key stays there
	const twice = page.getByRole('button', { name: 'Duplicate' });
	await twice.focus();
	await sheet.press('Enter');
	await sheet.hasRows(6);
	await expect(twice).toBeFocused();
	await sheet.press('ControlOrMeta+z');
	await sheet.hasRows(5);
	// a field beside the sheet undoes its own text
	await page.getByRole('button', { name: 'Redo' }).click();
	await sheet.hasRows(6);
	await page.getByRole('searchbox', { name: 'Find in the sheet' }).fill('copper');
	await sheet.press('ControlOrMeta+z');
	await sheet.hasRows(6);
});

test('find goes from cell to cell and gives the keys back', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(1, 'kind').click();
	await sheet.press('ControlOrMeta+f');
	await expect(page.getByRole('searchbox', { name: 'Find in the sheet' })).toBeFocused();
	await sheet.type('cu daily');
	await sheet.press('Enter');
	await expect(sheet.cell(2, 'test')).toHaveAttribute('aria-selected', 'true');
	await sheet.press('Enter');
	await expect(sheet.cell(3, 'test')).toHaveAttribute('aria-selected', 'true');
	await sheet.press('Enter');
	await expect(sheet.cell(2, 'test')).toHaveAttribute('aria-selected', 'true');
	await sheet.press('Escape');
	await sheet.isAt(2, 'test');
});

test('a row that others name says so when it goes, can be pointed elsewhere, and comes back', async ({
	page,
	browser,
	app
}) => {
	const sheet = await SheetPage.open(page);
	await sheet.head(3).click();
	await sheet.press('ControlOrMeta+Minus');
	await sheet.hasRows(4);
	await expect(
		page.getByText(/Row 3, Observe, Starts\. “after the deleted row \(3 Washout\)” was not understood/)
	).toBeVisible();
	await sheet.shows(3, 'starts', 'after the deleted row (3 Washout)');
	await sheet.saved();
	// on a device that has none of it in memory, too
	const other = await (await browser.newContext({ baseURL: app.url })).newPage();
	await other.goto(page.url());
	await new SheetPage(other).shows(3, 'starts', 'after the deleted row (3 Washout)');
	await other.context().close();
	await page.getByRole('button', { name: 'Point it to row 2, hold' }).click();
	await sheet.shows(3, 'starts', 'after 2');
	await sheet.cell(1, 'kind').click();
	await sheet.press('ControlOrMeta+z', 'ControlOrMeta+z');
	await sheet.hasRows(5);
	await sheet.shows(4, 'starts', 'after 3');
});

test('what another page writes appears without a reload, and undo leaves it alone', async ({
	page,
	context
}) => {
	test.slow();
	const here = await SheetPage.open(page);
	await here.put(4, 'lasts', '15 d');
	await here.saved();
	const other = await context.newPage();
	await visit(other, page.url());
	const there = new SheetPage(other);
	await there.cell(1, 'kind').click();
	await there.press('ControlOrMeta+Equal');
	await there.put(1, 'kind', 'observe');
	await here.hasRows(6);
	await here.shows(5, 'lasts', '15 d');
	await here.cell(2, 'kind').click();
	await here.press('ControlOrMeta+z');
	await here.shows(5, 'lasts', '14 d');
	await there.shows(5, 'lasts', '14 d');
	await there.shows(1, 'kind', 'Observe');
});

test('two hundred phases scroll, are walked and edited', async ({ page }) => {
	const phases = Array.from({ length: 200 }, (_, n) => ({
		id: `watch-${n}`,
		kind: 'observe',
		starts: n === 0 ? 'on 2031-03-03' : `after watch-${n - 1}`,
		lasts: '1 d'
	}));
	const sheet = await SheetPage.open(page, { ...fiveRows, phases });
	await sheet.cell(1, 'lasts').click();
	await sheet.press('ControlOrMeta+ArrowDown');
	await sheet.isAt(200, 'lasts');
	await expect(sheet.cell(200, 'lasts')).toBeInViewport();
	await expect(sheet.columnHead('lasts')).toBeInViewport();
	const before = await sheet.cell(200, 'to').innerText();
	await sheet.press('ControlOrMeta+Home');
	await sheet.put(1, 'lasts', '9 d');
	await expect(sheet.cell(200, 'to')).not.toHaveText(before);
});

test('Backspace clears as Delete does, and with Shift the keys for rows do the same', async ({ page }) => {
	const sheet = await SheetPage.open(page);
	await sheet.cell(4, 'lasts').click();
	await sheet.press('Backspace', 'ArrowDown');
	await sheet.shows(4, 'lasts', '');
	await sheet.press('ControlOrMeta+Shift+Equal');
	await sheet.hasRows(6);
	await sheet.press('ControlOrMeta+Shift+Minus');
	await sheet.hasRows(5);
});
