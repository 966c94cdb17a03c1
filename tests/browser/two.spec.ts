import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { applyAll, type Edit } from '../../src/lib/run/index.ts';
import { expect, test, visit } from './app.ts';

/*
 * Two browsers on one run, each with its own seeded hand, at the same time. However their edits meet, both have to end
 * on what the store holds, and the store has to have every edit it ever acknowledged. What clashed is asked, and
 * answered at random.
 */
const seconds = Number(process.env.TWO_SECONDS ?? 60);
const document = {
	format: 'lazaret-plan/1',
	name: 'Two hands',
	timeZone: 'UTC',
	tank: { name: 'T1', net: '100 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1 },
	phases: Array.from({ length: 5 }, (_, i) => ({
		id: `p${i}`,
		kind: 'observe',
		starts: i === 0 ? 'on 2027-01-01' : `after p${i - 1}`,
		lasts: '3 d'
	}))
};
const columns = ['kind', 'medicine', 'starts', 'lasts', 'level', 'repeat', 'change', 'test'];

/** The same sequence for the same seed (Park & Miller, CACM 31, 1988: x -> 16807 x mod 2^31 - 1). */
function seeded(seed: number): (below: number) => number {
	let state = seed;
	return (below) => (state = (state * 16_807) % 2_147_483_647) % below;
}

interface Sent {
	id: string;
	edits: Edit[];
	status: number;
}

/** Collects what the page sends and how it is answered. */
function listen(page: Page): Sent[] {
	const sent: Sent[] = [];
	page.on('response', (response) => {
		const request = response.request();
		if (request.method() !== 'POST' || !request.url().endsWith('/edits')) return;
		const { id, edits } = request.postDataJSON() as { id: string; edits: Edit[] };
		sent.push({ id, edits, status: response.status() });
	});
	return sent;
}

const saved = (page: Page) =>
	expect(page.getByText('Saved', { exact: true })).toBeVisible({ timeout: 60_000 });

const ways = (page: Page) => page.getByRole('button', { name: /^(Keep theirs|Put in yours)/ });

/** Chooses one of the values asked about, if there are any; how many were answered. */
async function choose(page: Page, pick: (below: number) => number): Promise<number> {
	const count = await ways(page).count();
	if (count === 0) return 0;
	await ways(page)
		.nth(pick(count))
		.click({ timeout: 2000 })
		.catch(() => undefined);
	return 1;
}

/** Works on the sheet until the time is up; how often it did something and how often it was asked. */
async function hand(page: Page, seed: number, until: number): Promise<{ acts: number; asked: number }> {
	const pick = seeded(seed);
	let [acts, asked] = [0, 0];
	for (; Date.now() < until; acts++) {
		if (pick(6) === 0) asked += await choose(page, pick);
		const rows = await page.locator('[data-row][data-column="3"]').count();
		const [column, text] =
			pick(3) === 0 ? ['test', `NH3 every ${1 + pick(6)} d`] : ['lasts', `${1 + pick(25)} d`];
		const cell = page.locator(
			`[data-row="${pick(Math.max(1, rows))}"][data-column="${columns.indexOf(column)}"]`
		);
		// a row may go while the hand reaches for it: the next act reaches for another
		await cell.click({ timeout: 2000 }).catch(() => undefined);
		const act = pick(12);
		if (act === 0 && rows < 9) await page.keyboard.press('Control++');
		else if (act === 1 && rows > 3) await page.keyboard.press('Control+-');
		else if (act === 2) await page.keyboard.press('Control+z');
		else if (act === 3) await page.keyboard.press('Control+y');
		else {
			await page.keyboard.type(text);
			await page.keyboard.press('Enter');
		}
	}
	for (let n = 0; n < 50 && (await ways(page).count()) > 0; n++) asked += await choose(page, pick);
	await saved(page);
	return { acts, asked };
}

test('two browsers edit one run at random: both end in the same state, every edit in the history', async ({
	page,
	browser,
	app
}) => {
	test.setTimeout(600_000);
	await page.request.post('/api/runs', { data: { id: 'r1', document } });
	const other = await (await browser.newContext({ baseURL: app.url })).newPage();
	const pages = [page, other];
	const sent = pages.map(listen);
	for (const one of pages) {
		await one.goto('/runs/r1');
		await one.getByRole('grid', { name: 'Phases' }).waitFor();
		await one.locator('html[data-hydrated]').waitFor();
	}
	const began = Date.now();
	const until = began + seconds * 1000;
	const hands = await Promise.all(pages.map((one, n) => hand(one, 20_261_125 + n, until)));

	const acts = hands.reduce((sum, one) => sum + one.acts, 0);
	const asked = hands.reduce((sum, one) => sum + one.asked, 0);
	const { run } = (await (await page.request.get('/api/runs/r1')).json()) as {
		run: { version: number; document: { phases: Record<string, string>[] } };
	};
	const stands = run.document.phases.map(({ lasts = '', test: tests = '' }) => [lasts, tests]);
	for (const one of pages) {
		// as if somebody came back to the window: nothing is typed, and what the other did arrives
		await one.evaluate(() => window.document.dispatchEvent(new Event('visibilitychange')));
		await expect.poll(() => shown(one), { timeout: 60_000 }).toEqual(stands);
	}

	const answer = await page.request.get('/api/runs/r1/history?limit=1000');
	const { history } = (await answer.json()) as {
		history: { version: number; what: string; edits: Edit[] }[];
	};
	const saves = history.toReversed();
	expect(saves.map(({ version }) => version)).toEqual(saves.map((_, n) => n + 1));
	expect(
		applyAll(
			document,
			saves.flatMap(({ edits }) => edits)
		)
	).toEqual(run.document);
	const taken = new Map(
		sent
			.flat()
			.filter(({ status }) => status === 200)
			.map((one) => [one.id, one])
	);
	expect(saves.filter(({ what }) => what === 'edit')).toHaveLength(taken.size);
	const values = (all: readonly { edits: readonly Edit[] }[]) =>
		all.flatMap(({ edits }) => edits.map(({ to }) => JSON.stringify(to) ?? 'gone')).toSorted();
	// edits that both made alike are dropped on the way past each other, so the history may hold fewer, never others
	const held = values(saves);
	const acknowledged = values([...taken.values()]);
	for (const value of new Set(held)) expect(acknowledged).toContain(value);
	const refused = sent.flat().filter(({ status }) => status !== 200);
	expect(refused.every(({ status }) => status === 409)).toBe(true);
	expect(taken.size).toBeGreaterThan(acts / 3);
	console.log(
		`two browsers: ${acts} acts in ${seconds} s, ${taken.size} saves acknowledged and in the history, ${refused.length} met in one cell, ${asked} questions answered, version ${run.version}`
	);
	await other.context().close();
});

/** Two browsers on one run, the second one's words held back until the first one's are saved. */
async function clash(page: Page, other: Page): Promise<void> {
	const lasts = columns.indexOf('lasts');
	for (const one of [page, other]) {
		await visit(one, '/runs/r1');
	}
	await other.route('**/api/runs/r1/edits**', (route) => route.abort());
	for (const [one, text] of [
		[page, '4 d'],
		[other, '5 d']
	] as const) {
		await one.locator(`[data-row="1"][data-column="${lasts}"]`).click();
		await one.keyboard.type(text);
		await one.keyboard.press('Enter');
	}
	await saved(page);
	await expect(other.getByText('Not saved', { exact: true })).toBeVisible();
	await other.unroute('**/api/runs/r1/edits**');
}

test.describe('one cell typed into by two', () => {
	const question = (page: Page) => page.getByRole('region', { name: 'Changed here and elsewhere' });
	const cell = (page: Page) => shown(page).then((rows) => rows[1]?.[0]);

	test('asks with both values, and either can be had by keyboard', async ({ page, browser, app }) => {
		await page.request.post('/api/runs', { data: { id: 'r1', document } });
		const other = await (await browser.newContext({ baseURL: app.url })).newPage();
		await clash(page, other);
		await expect(question(other)).toContainText('Row 2, Observe, Lasts');
		await expect(question(other)).toContainText(/Theirs \(keeper, .*\)\s*4 d/);
		await expect(question(other)).toContainText(/Yours\s*5 d/);
		expect(await cell(other)).toBe('4 d');

		await other.reload();
		await expect(question(other)).toContainText(/Yours\s*5 d/);
		await other.locator('html[data-hydrated]').waitFor();
		const yours = other.getByRole('button', { name: 'Put in yours, 5 d, in Row 2, Observe, Lasts' });
		await other.getByRole('button', { name: /^Keep theirs/ }).focus();
		await other.keyboard.press('Tab');
		await expect(yours).toBeFocused();
		await other.keyboard.press('Enter');
		await expect(question(other)).toHaveCount(0);
		await saved(other);
		await page.evaluate(() => window.document.dispatchEvent(new Event('visibilitychange')));
		await expect.poll(() => cell(page), { timeout: 60_000 }).toBe('5 d');
		await other.context().close();
	});

	test('after theirs is kept, one step back brings yours', async ({ page, browser, app }) => {
		await page.request.post('/api/runs', { data: { id: 'r1', document } });
		const other = await (await browser.newContext({ baseURL: app.url })).newPage();
		await clash(page, other);
		await other.getByRole('button', { name: /^Keep theirs/ }).click();
		await expect(question(other)).toHaveCount(0);
		expect(await cell(other)).toBe('4 d');
		await other.getByRole('button', { name: 'Undo' }).click();
		await expect.poll(() => cell(other)).toBe('5 d');
		await other.context().close();
	});

	for (const colorScheme of ['light', 'dark'] as const)
		test(`the question breaks no accessibility rule and fits a phone, ${colorScheme}`, async ({
			page,
			browser,
			app
		}) => {
			await page.request.post('/api/runs', { data: { id: 'r1', document } });
			const other = await (await browser.newContext({ baseURL: app.url, colorScheme })).newPage();
			await clash(page, other);
			await question(other).waitFor();
			expect((await new AxeBuilder({ page: other }).analyze()).violations.map(({ id }) => id)).toEqual([]);
			if (process.env.SHOTS)
				await other.screenshot({ path: `${process.env.SHOTS}/clash-wide-${colorScheme}.png` });
			await other.setViewportSize({ width: 390, height: 844 });
			await expect.poll(() => other.evaluate(() => window.document.documentElement.scrollWidth)).toBe(390);
			for (const button of await ways(other).all())
				expect((await button.boundingBox())?.height).toBeGreaterThanOrEqual(44);
			if (process.env.SHOTS)
				await other.screenshot({ path: `${process.env.SHOTS}/clash-phone-${colorScheme}.png` });
			await other.context().close();
		});
});

/** What the sheet shows of each row: how long it lasts, and its tests. */
const shown = (page: Page) =>
	page.evaluate(
		(at) => {
			const text = (row: number, column: number) => {
				const cell = window.document.querySelector(`[data-row="${row}"][data-column="${column}"]`);
				// the field over the active cell is empty while nothing is typed
				return cell?.querySelector('.text')?.textContent?.trim() ?? '';
			};
			// the last row of the sheet is the empty one that the next phase is typed into
			const rows = window.document.querySelectorAll(`[data-row][data-column="${at[0]}"]`).length - 1;
			return Array.from({ length: rows }, (_, row) => at.map((column) => text(row, column)));
		},
		[columns.indexOf('lasts'), columns.indexOf('test')]
	);
