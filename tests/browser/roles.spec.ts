import AxeBuilder from '@axe-core/playwright';
import type { BrowserContext, Page } from '@playwright/test';
import { enterAs, namePeople } from '../people.ts';
import { expect, test, visit } from './app.ts';
import { copperRun } from './day-run.ts';

/*
 * What each role is shown: a keeper everything, a helper what logs, a viewer nothing that writes. That the server
 * refuses the rest is the table's own test.
 */
const everybody = { Kim: 'keeper', Hal: 'helper', Vic: 'viewer' } as const;

/** What writes on each page, by the least role that may; found by what it is called. */
const writes: [
	page: string,
	least: 'helper' | 'keeper',
	role: 'button' | 'link' | 'textbox',
	name: RegExp
][] = [
	['/runs', 'keeper', 'link', /^Plan a new arrival$/],
	['/runs/q1', 'keeper', 'button', /^Insert row$/],
	['/runs/q1', 'keeper', 'button', /^Undo$/],
	['/runs/q1/log', 'helper', 'button', /^Write it into the log$/],
	['/runs/q1/ledger', 'helper', 'textbox', / read on /],
	['/runs/q1/arrival', 'helper', 'button', /^Write the record of the arrival$/],
	['/today', 'helper', 'button', /^Log a look/],
	['/days', 'keeper', 'button', /^Mark as away$/],
	['/new', 'keeper', 'button', /^Plan a new arrival$/]
];

async function open(context: BrowserContext, url: string, name: string): Promise<Page> {
	const { cookie } = await enterAs(url, name);
	const [key = '', value = ''] = cookie.split('=');
	await context.addCookies([{ name: key, value, url }]);
	return context.newPage();
}

for (const [name, role] of Object.entries(everybody))
	test(`a ${role} is shown what a ${role} may do`, async ({ request, context, app }) => {
		await copperRun(request, 'q1');
		namePeople(app.folder, everybody);
		const page = await open(context, app.url, name);
		for (const [path, least, kind, called] of writes) {
			await visit(page, path);
			const shown = role === 'keeper' || (role === 'helper' && least === 'helper');
			const found = page.getByRole(kind, { name: called });
			if (shown) await expect(found.first(), `${path} ${called}`).toBeVisible();
			else await expect(found, `${path} ${called}`).toHaveCount(0);
		}
	});

test('a viewer walks and reads the sheet, and no key writes into it', async ({ request, context, app }) => {
	await copperRun(request, 'q1');
	namePeople(app.folder, everybody);
	const page = await open(context, app.url, 'Vic');
	const refused: string[] = [];
	page.on('response', (answer) => {
		if (answer.status() === 403) refused.push(answer.url());
	});
	await visit(page, '/runs/q1');
	const grid = page.getByRole('grid', { name: 'Phases' });
	const before = await grid.innerText();
	await grid.locator('[data-row="0"][data-column="3"]').click();
	for (const key of ['5', 'Enter', 'F2', 'Delete', 'Control++', 'Control+-', 'Control+d', 'Control+z'])
		await page.keyboard.press(key);
	await expect(grid.getByRole('combobox')).toHaveCount(0);
	await page.keyboard.press('ArrowDown');
	await expect(grid.locator('[aria-selected="true"]')).toBeFocused();
	expect(await grid.innerText()).toBe(before);
	await expect(page.getByText('A keeper changes this plan; you may look at it.')).toBeVisible();
	expect((await new AxeBuilder({ page }).analyze()).violations.map(({ id }) => id)).toEqual([]);
	if (process.env.SHOTS) await page.screenshot({ path: `${process.env.SHOTS}/viewer-run.png` });
	expect(refused).toEqual([]);
});
