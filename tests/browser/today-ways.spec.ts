import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { startApp } from '../built-app.ts';
import { expect, test } from './app.ts';
import { logOf, pair, short } from './forgotten-run.ts';
import { openToday } from './round-page.ts';

test.use({ viewport: { width: 390, height: 844 } });

const dose = 'flukes/dose/2';
const missed = (page: Page) => page.locator(`[data-missed="${dose}"]`);
const take = (page: Page) => missed(page).getByRole('button', { name: /^Give it now ?: take this way/ });

test('a forgotten dose says what each way to go on costs, and one touch takes the proposed one', async ({
	page,
	request
}) => {
	await pair(request, 8);
	await openToday(page);
	// as on the page of open jobs: given today, a day after its own, or a new pair from tomorrow on
	await expect(missed(page)).toContainText(
		`Proposed: give it now, 250 mg. Release ${short(15)}, 1 day later than planned.`
	);
	await expect(missed(page)).toContainText('works between the last hatch and the first eggs');
	await expect(missed(page)).toContainText(
		`Begin the doses again: release ${short(23)}, 9 days later than planned.`
	);
	await expect(missed(page)).toContainText('Skip it and go on: not safe.');
	await expect(missed(page).getByRole('link', { name: /^See what moves/ })).toBeVisible();
	await expect(missed(page).getByRole('button')).toHaveText([/^Give it now/, /^Log or skip/]);

	await take(page).click();
	await expect(missed(page)).toHaveCount(0);
	await expect(page.locator(`[data-task="${dose}"]`)).toContainText('Praziquantel 250 mg');
	expect((await logOf(request)).at(-1)).toMatchObject({ kind: 'choice', task: dose, taken: 'now' });
	const line = page.getByRole('listitem').filter({ hasText: 'chosen: give it now' });
	await line.getByRole('button', { name: /^Undo/ }).click();
	await expect(take(page)).toBeVisible();
});

test('where no way is safe none is taken by one touch', async ({ page, request }) => {
	await pair(request, 14);
	await openToday(page);
	await expect(missed(page)).toContainText(/Proposed: begin the doses again\. Release/);
	await expect(missed(page)).toContainText('Give it now is not safe:');
	await expect(take(page)).toHaveCount(0);
});

test('a way that is taken without network is kept through a reload, and written once when it is back', async ({
	page,
	context,
	request,
	app
}) => {
	await pair(request, 8);
	await openToday(page);
	await expect(take(page)).toBeVisible();
	await page.locator('html[data-kept]').waitFor();
	await expect
		.poll(() => page.evaluate(async () => Boolean(await (await caches.open('lazaret-kept')).match('/today'))))
		.toBe(true);
	await context.setOffline(true);
	await take(page).click();
	await expect(missed(page)).toContainText('Taken: give it now, 250 mg. It is kept on this device');
	// the job has its answer: it can be done now, as that says, and not be skipped as well
	const buttons = missed(page).getByRole('button');
	await expect(buttons).toHaveText([/^Take it back/, /^Log as done/]);
	// the app goes away too: what the reload shows can come from nowhere but this device
	await app.stop();
	await page.reload();
	await page.locator('html[data-hydrated]').waitFor();
	await expect(missed(page)).toContainText('Taken: give it now, 250 mg. It is kept on this device');
	await missed(page)
		.getByRole('button', { name: /^Log as done/ })
		.click();
	await expect(page.getByRole('dialog').getByRole('button', { name: 'Log as skipped' })).toHaveCount(0);
	await page
		.getByRole('dialog')
		.getByLabel(/^Amount/)
		.fill('250');
	await page.getByRole('dialog').getByRole('button', { name: 'Log as done' }).click();
	await expect(page.getByText('2 entries wait to be sent.')).toBeVisible();
	const again = await startApp(app.folder, { PORT: new URL(app.url).port });
	try {
		await context.setOffline(false);
		await expect.poll(async () => (await logOf(request)).length).toBe(3);
		await expect(page.getByText(/entries? waits? to be sent/)).toHaveCount(0);
		expect((await logOf(request)).slice(1)).toMatchObject([
			{ kind: 'choice', task: dose, taken: 'now' },
			{ kind: 'done', task: dose, amount: '250 mg' }
		]);
		await expect(page.locator(`[data-task="${dose}"]`)).toContainText('✓');
	} finally {
		await again.stop();
	}
});

test('a way taken without network can be taken back, and the job answered otherwise', async ({
	page,
	context,
	request
}) => {
	await pair(request, 8);
	await openToday(page);
	await expect(take(page)).toBeVisible();
	await context.setOffline(true);
	await take(page).click();
	const buttons = missed(page).getByRole('button');
	await expect(buttons).toHaveText([/^Take it back/, /^Log as done/]);
	await buttons.first().click();
	await expect(buttons).toHaveText([/^Give it now/, /^Log or skip/]);
});

test('a way taken without network is not written when the run has changed: it says so and offers those of now', async ({
	page,
	context,
	request
}) => {
	await pair(request, 8);
	await openToday(page);
	await expect(take(page)).toBeVisible();
	await context.setOffline(true);
	await take(page).click();
	await expect(missed(page)).toContainText('Taken: give it now');
	const edits = [{ path: ['phases', 1, 'lasts'], was: '14 d', to: '20 d' }];
	expect((await request.post('/api/runs/r1/edits', { data: { id: 'e', base: 1, edits } })).ok()).toBe(true);
	await context.setOffline(false);
	await expect(page.locator('.outbox')).toContainText(
		`It would now lead to release on ${short(21)}; shown was release on ${short(15)}. Nothing was moved.`
	);
	expect((await logOf(request)).filter(({ kind }) => kind === 'choice')).toEqual([]);
	await expect(missed(page)).toContainText(
		`Proposed: give it now, 250 mg. Release ${short(21)}, 1 day later than planned.`
	);
	await page.getByRole('button', { name: 'Let it go' }).click();
	await take(page).click();
	await expect(missed(page)).toHaveCount(0);
});

for (const colorScheme of ['light', 'dark'] as const)
	test(`stands on a phone, ${colorScheme}`, async ({ page, context, request }) => {
		await page.emulateMedia({ colorScheme });
		await pair(request, 8);
		await openToday(page);
		await expect(take(page)).toBeVisible();
		const found = async () => (await new AxeBuilder({ page }).analyze()).violations;
		const violations = await found();
		for (const button of await missed(page).locator('button, a').all())
			expect((await button.boundingBox())?.height).toBeGreaterThanOrEqual(43.5);
		await context.setOffline(true);
		await take(page).click();
		await expect(missed(page)).toContainText('Taken: give it now');
		violations.push(...(await found()));
		expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
		expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html.slice(0, 160)])).toEqual([]);
	});
