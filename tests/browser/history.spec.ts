import AxeBuilder from '@axe-core/playwright';
import { expect, test, visit } from './app.ts';

const document = {
	format: 'lazaret-plan/1',
	name: 'Trial',
	timeZone: 'UTC',
	tank: { name: 'T1', net: '100 L', filterClears: '40 L/d' },
	medicines: [{ id: 'cu', active: 'copper-ionic' }],
	phases: [
		{ id: 'a', kind: 'observe', starts: 'on 2027-01-01', lasts: '3 d' },
		{ id: 'b', kind: 'hold', medicine: 'cu', starts: 'after a' }
	]
};

test('any earlier state is looked at and put back, with who and when', async ({ page }) => {
	await page.request.post('/api/runs', { data: { id: 'r1', document } });
	for (const [n, lasts] of ['4 d', '5 d', '6 d'].entries()) {
		const edits = [{ path: ['phases', 0, 'lasts'], to: lasts }];
		const saved = await page.request.post('/api/runs/r1/edits', {
			data: { id: `e${n}`, base: n + 1, edits }
		});
		expect(saved.status()).toBe(200);
	}
	await page.goto('/runs/r1/history');
	await expect(page.getByText('Row 1, Lasts: 5 d → 6 d')).toBeVisible();
	await expect(page.getByText('This is how the plan stands now.')).toBeVisible();
	// as the sheet says it, not as the file writes it
	await expect(page.getByText('Net volume 100 L · Filter clears 40 L/d')).toBeVisible();
	const second = page.getByRole('row', { name: 'after 1' });
	for (const text of ['Hold', 'Ionic copper']) await expect(second.getByText(text)).toBeVisible();
	const saves = page.getByRole('list').filter({ hasText: 'made the run' }).getByRole('listitem');
	await expect(saves).toHaveCount(4);
	await expect(saves.last()).toContainText('keeper made the run');
	await saves.nth(2).getByRole('link').click();
	await expect(page.getByRole('cell', { name: '4 d' })).toBeVisible();
	await page.getByRole('button', { name: 'Put this state back' }).click();
	await page.waitForURL(/\/runs\/r1$/);
	const { run } = (await (await page.request.get('/api/runs/r1')).json()) as {
		run: { version: number; document: object };
	};
	expect(run).toMatchObject({ version: 5, document: { phases: [{ lasts: '4 d' }, { id: 'b' }] } });
	await page.goto('/runs/r1/history?version=1');
	await expect(page.getByText('keeper put an earlier state back')).toBeVisible();
	await expect(page.getByRole('cell', { name: '3 d' })).toBeVisible();
	for (const query of ['?version=99', '?version=-1', '?version=1e9', '?before=x', '?version=%00'])
		expect([query, (await page.goto(`/runs/r1/history${query}`))?.status()]).toEqual([
			query,
			query === '?version=99' ? 404 : 200
		]);
});

for (const colorScheme of ['light', 'dark'] as const)
	test(`the history breaks no accessibility rule and fits a phone, ${colorScheme}`, async ({ page }) => {
		await page.request.post('/api/runs', { data: { id: 'r1', document } });
		await page.emulateMedia({ colorScheme });
		await page.setViewportSize({ width: 390, height: 844 });
		await visit(page, '/runs/r1/history');
		expect(await page.evaluate(() => window.document.documentElement.scrollWidth)).toBe(390);
		expect((await new AxeBuilder({ page }).analyze()).violations.map(({ id }) => id)).toEqual([]);
	});
