import AxeBuilder from '@axe-core/playwright';
import { expect, test, visit } from './app.ts';
import { copperRun, newEntries } from './day-run.ts';

test.use({ viewport: { width: 390, height: 844 } });

test('signs that are logged say at once what they may be, what to do first and what reaches it', async ({
	page,
	request
}) => {
	await copperRun(request, 'q2');
	await visit(page, '/today');
	await page.getByRole('button', { name: /^Log a look/ }).click();
	const sheet = page.getByRole('dialog');
	// a tick made by mistake is taken away; one that stands is never thrown away by saying that there is none
	const none = sheet.getByRole('button', { name: 'No signs' });
	await sheet.getByLabel('gold dust').check();
	await expect(none).toBeDisabled();
	await sheet.getByLabel('gold dust').uncheck();
	await expect(none).toBeEnabled();
	await sheet.getByLabel('gold dust').check();
	await sheet.getByLabel('into flow').check();
	await sheet.getByRole('button', { name: 'Log gold dust, into flow' }).click();
	await expect(sheet.getByRole('heading', { level: 2 })).toHaveText('What the signs at Q2 may be');
	await expect(sheet.getByRole('heading', { level: 3 })).toHaveText('Amyloodinium ocellatum (velvet)');
	// velvet: copper or chloroquine within a day; transfers and low salinity do not reach it
	await expect(sheet).toContainText(
		/First: Today, without days to settle in: copper or chloroquine within a day/
	);
	await expect(sheet.getByRole('link', { name: 'Ionic copper' }).first()).toHaveAttribute(
		'href',
		'/medicines#copper-ionic'
	);
	await expect(sheet.getByText(/^Not reached by/)).toContainText('Low salinity');
	await expect(sheet).toContainText('2 deaths in 48 hours, at more than 100 breaths a minute');
	expect((await newEntries(request, 'q2')).map(({ signs }) => signs)).toEqual([['gold-dust', 'into-flow']]);
	const violations = (await new AxeBuilder({ page }).analyze()).violations;
	await page.emulateMedia({ colorScheme: 'dark' });
	violations.push(...(await new AxeBuilder({ page }).analyze()).violations);
	expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html.slice(0, 160)])).toEqual([]);
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
	await sheet.getByRole('button', { name: 'Close' }).click();
	// it can be read again, also after the page was left
	await page.reload();
	await page.locator('html[data-hydrated]').waitFor();
	await page.getByRole('button', { name: 'What it may be' }).click();
	await expect(sheet.getByRole('heading', { level: 3 })).toHaveText('Amyloodinium ocellatum (velvet)');
});

test('a loss says what the bodies may do to the water of this tank', async ({ page, request }) => {
	await copperRun(request, 'q2');
	await visit(page, '/today');
	await page.getByRole('button', { name: /^Log a look/ }).click();
	const sheet = page.getByRole('dialog');
	await sheet.getByText('A fish died').click();
	// no mass is written: a fish of 25 g holds about 0.7 g of nitrogen, 700 mg / 112 L = 6.25 mg/L
	await expect(sheet.getByRole('status')).toContainText(
		/1 of 25 g: about 0\.7 g.*up to 6\.[23] mg\/L .*112 L/
	);
	await sheet.getByLabel(/^How many/).fill('2');
	await expect(sheet.getByRole('status')).toContainText(/2 of 25 g: about 1\.4 g.*up to 12\.5 mg\/L/);
	await sheet.getByRole('button', { name: 'Log the loss' }).click();
	await expect
		.poll(async () => (await newEntries(request, 'q2')).map(({ kind, count }) => [kind, count]))
		.toEqual([['loss', 2]]);
	const because = page
		.locator('[data-run="q2"]')
		.getByRole('note')
		.filter({ hasText: '2 fish died within 48' });
	await expect(because).toContainText('up to 12.5 mg/L of total ammonia nitrogen in 112 L');
});

test('a fish of one long name makes nothing wider than the phone', async ({ page, request }) => {
	await copperRun(request, 'q2');
	const path = '/api/runs/q2';
	const { run } = (await (await request.get(path)).json()) as {
		run: { version: number; document: { lots: unknown[] } };
	};
	// it came yesterday and nobody logged that: the job that was missed names it
	const arrived = new Date(Date.now() - 86_400_000).toISOString().slice(0, 10);
	const lot = {
		id: 'long',
		what: 'Cardinalfishofthenorthernlagoon'.repeat(4),
		group: 'cardinalfish',
		arrived
	};
	const edits = [{ path: ['lots', run.document.lots.length], to: { ...lot, count: 2 } }];
	const data = { id: 'long', base: run.version, edits };
	expect((await request.post(`${path}/edits`, { data })).ok()).toBe(true);
	for (const address of ['/runs/q2', '/today']) {
		await visit(page, address);
		expect(await page.evaluate(() => document.documentElement.scrollWidth), address).toBe(390);
	}
	await page.getByRole('button', { name: /^Log a look/ }).click();
	const sheet = page.getByRole('dialog');
	await sheet.getByText('A fish died').click();
	expect(await sheet.evaluate(({ scrollWidth }) => scrollWidth)).toBe(390);
});
