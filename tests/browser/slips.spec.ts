import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test, visit } from './app.ts';
import { behind, day, frame, logOf, make, pair, short } from './forgotten-run.ts';

async function open(page: Page, at = ''): Promise<void> {
	await visit(page, `/runs/r1/slips${at}`);
}

const titles = (page: Page) =>
	page
		.getByRole('listitem')
		.filter({ has: page.getByRole('button') })
		.getByRole('heading');

test.use({ locale: 'en-GB' });

test('a forgotten dose shows its ways side by side; the one that is taken is written and says what moved', async ({
	page,
	request
}) => {
	await pair(request, 8);
	await open(page, '#flukes/dose/2');
	await expect(page).toHaveTitle('Open jobs of A forgotten job · Lazaret');
	await expect(titles(page)).toHaveText(['Give it now', 'Begin the doses again', 'Skip it and go on']);
	const [now, again, skip] = ['Give it now', 'Begin the doses again', 'Skip it and go on'].map((name) =>
		page.getByRole('listitem', { name })
	);
	await expect(now!).toContainText('Proposed');
	// the doses end today, 14 days of watch begin tomorrow: release on the 15th day from today
	await expect(now!).toContainText(`${short(15)}, 1 day later than planned`);
	// a new pair tomorrow and seven days on: nine days later than the dose of yesterday had it; with the one given three of 2.5 mg/L in 100 L, not two
	await expect(again!).toContainText(`${short(23)}, 9 days later than planned`);
	await expect(again!).toContainText('Praziquantel 250 mg more, 750 mg in all');
	await expect(skip!).toContainText('Not safe');

	await now!.getByRole('button', { name: /^Take this way/ }).click();
	const moved = page.getByRole('region', { name: 'What moved' });
	await expect(moved).toBeFocused();
	await expect(moved).toContainText(`Praziquantel 250 mg: from ${short(-1)} 00:00 to ${short(0)}`);
	await expect(page.getByText('No job is open')).toBeVisible();
	const choices = (await logOf(request)).filter(({ kind }) => kind === 'choice');
	expect(choices).toMatchObject([{ task: 'flukes/dose/2', taken: 'now' }]);

	await moved.getByRole('button', { name: 'Take it back' }).click();
	await expect(titles(page)).toHaveCount(3);
	expect((await logOf(request)).at(-1)).toMatchObject({ kind: 'correct', entry: choices[0]?.id, void: true });
});

test('an unsafe way is never taken by one touch, and says why', async ({ page, request }) => {
	await pair(request, 14);
	await open(page);
	await expect(titles(page).first()).toHaveText('Begin the doses again');
	const before = await logOf(request);
	const now = page.getByRole('listitem', { name: 'Give it now' });
	await now.getByRole('button', { name: /^Take it all the same/ }).click();
	const question = page.getByRole('alertdialog');
	// fourteen days and as much of this one as is over
	await expect(question).toContainText(
		/1[45](\.\d)? days after the one before; at 26 °C it belongs on day 7 to 9/
	);
	await expect(question.getByRole('button', { name: 'Leave it' })).toBeFocused();
	await page.keyboard.press('Enter');
	await expect(question).toHaveCount(0);
	expect(await logOf(request)).toEqual(before);

	await now.getByRole('button', { name: /^Take it all the same/ }).click();
	await question.getByRole('button', { name: /write it/ }).click();
	await expect(page.getByRole('region', { name: 'What moved' })).toBeVisible();
	expect((await logOf(request)).at(-1)).toMatchObject({ kind: 'choice', taken: 'now' });
});

test('days that were written for later jobs move along, in one save that can be taken back', async ({
	page,
	request
}) => {
	const rinse = {
		id: 'rinse',
		kind: 'dip',
		medicine: 'fw',
		starts: `on ${day(-4)}`,
		lasts: '3 doses',
		repeat: 'every 3 d',
		bath: '10 L'
	};
	await make(
		request,
		{ ...frame, phases: [rinse, ...behind('rinse')], moves: { 'rinse/dip/3': day(3) } },
		{ at: `${day(-4)}T00:05:00Z`, task: 'rinse/dip/1' }
	);
	const moves = async () =>
		((await (await request.get('/api/runs/r1')).json()) as { run: { document: { moves: unknown } } }).run
			.document.moves;
	await open(page);
	const shift = page.getByRole('listitem', { name: 'Dip now, the rest as much later' });
	await shift.getByRole('button', { name: /^Take this way/ }).click();
	const moved = page.getByRole('region', { name: 'What moved' });
	await expect(moved).toContainText(`from ${short(3)} 00:00 to ${short(4)} 00:00`);
	expect(await moves()).toEqual({ 'rinse/dip/3': day(4) });
	await moved.getByRole('button', { name: 'Take it back' }).click();
	await expect(titles(page).first()).toBeVisible();
	expect(await moves()).toEqual({ 'rinse/dip/3': day(3) });
});

test('a way that cannot be sent is kept, said to be, and written once when it can', async ({
	page,
	request
}) => {
	await pair(request, 8);
	await open(page);
	await page.route('**/api/runs/r1/slips', (route) => route.abort());
	await page
		.getByRole('listitem', { name: 'Give it now' })
		.getByRole('button', { name: /^Take this way/ })
		.click();
	await expect(page.getByText('Taken: give it now.')).toBeVisible();
	await expect(page.getByText('1 entry waits to be sent.')).toBeVisible();
	await expect(titles(page)).toHaveCount(0);
	await page.unroute('**/api/runs/r1/slips');
	await expect(page.getByRole('region', { name: 'What moved' })).toContainText('Give it now.');
	expect((await logOf(request)).filter(({ kind }) => kind === 'choice')).toHaveLength(1);
});

test('a way that does something else by now is not written: the page says so and shows those there are', async ({
	page,
	request
}) => {
	await pair(request, 8);
	await open(page);
	const edits = [{ path: ['phases', 1, 'lasts'], was: '14 d', to: '20 d' }];
	expect((await request.post('/api/runs/r1/edits', { data: { id: 'e', base: 1, edits } })).ok()).toBe(true);
	await page
		.getByRole('listitem', { name: 'Give it now' })
		.getByRole('button', { name: /^Take this way/ })
		.click();
	await expect(page.locator('.outbox')).toContainText(
		`It would now lead to release on ${short(21)}; shown was release on ${short(15)}.`
	);
	await expect(page.getByRole('listitem', { name: 'Give it now' })).toContainText(
		`${short(21)}, 1 day later than planned`
	);
	expect((await logOf(request)).filter(({ kind }) => kind === 'choice')).toEqual([]);
	await page.getByRole('button', { name: 'Let it go' }).click();
	await page
		.getByRole('listitem', { name: 'Give it now' })
		.getByRole('button', { name: /^Take this way/ })
		.click();
	await expect(page.getByRole('region', { name: 'What moved' })).toBeVisible();
});

for (const colorScheme of ['light', 'dark'] as const)
	test(`stands on a phone, ${colorScheme}: nothing scrolls sideways, all can be touched, no rule of access is broken`, async ({
		page,
		request
	}) => {
		await page.emulateMedia({ colorScheme });
		await page.setViewportSize({ width: 390, height: 844 });
		await pair(request, 14);
		await open(page);
		await page
			.getByRole('button', { name: /^Take it all the same/ })
			.first()
			.click();
		expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
		for (const button of await page.locator('main :is(button, summary)').all())
			expect((await button.boundingBox())?.height).toBeGreaterThanOrEqual(44);
		const { violations } = await new AxeBuilder({ page }).analyze();
		expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html.slice(0, 120)])).toEqual([]);
	});
