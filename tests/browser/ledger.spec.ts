import { expect, test, visit } from './app.ts';
import { logOf, openRun } from './fact-pages.ts';

test('readings are typed in place and pasted as a block, previewed before they are written', async ({
	page
}) => {
	test.slow();
	const run = await openRun(page, 'ledger');
	const grid = page.getByRole('region', { name: 'Ledger' });
	const before = (await logOf(page, run)).length;
	const cells = grid.getByLabel(/^Nitrate read on/);
	await cells.last().fill('lots');
	await cells.last().press('Enter');
	await expect(cells.last()).toHaveAccessibleDescription(/“lots.*” was not understood/);
	await expect(cells.last()).toHaveValue('lots');
	await cells.last().fill('8.5');
	await cells.last().press('Enter');
	await expect.poll(async () => (await logOf(page, run)).length).toBe(before + 1);
	expect(
		(await logOf(page, run)).find(({ what, value }) => what === 'NO3' && value === '8.5 mg/L')
	).toBeTruthy();

	const days = [...new Set((await logOf(page, run)).map(({ at }) => String(at).slice(0, 10)))];
	await page.getByText('Paste or upload readings').click();
	const block = [
		'Day\tTest\tResult',
		`${days[1]}\tpH\t8.05`,
		`${days[2]}\tpH\t8.0`,
		`${days[2]}\tZn\t1`,
		'30 Feb 2026\tpH\t8'
	];
	await page.getByRole('textbox', { name: 'Readings' }).fill(block.join('\n'));
	await expect(page.getByText('Before anything is written: 2 new, 2 refused')).toBeVisible();
	await expect(page.getByText('“Zn” is nothing that is read here')).toBeVisible();
	expect(await logOf(page, run)).toHaveLength(before + 1);
	await page.getByRole('button', { name: 'Write 2 readings into the log' }).click();
	await expect(page.getByText('2 readings written.')).toBeVisible();
	await expect.poll(async () => (await logOf(page, run)).length).toBe(before + 3);
	await expect(page.getByRole('heading', { name: 'How wrong the forecast was' })).toBeVisible();
});

for (const name of ['Readings as CSV', 'Ledger as CSV'])
	test(`${name}, taken in again, adds nothing`, async ({ page }) => {
		const run = await openRun(page, 'ledger');
		const before = (await logOf(page, run)).length;
		const [download] = await Promise.all([
			page.waitForEvent('download'),
			page.getByRole('button', { name }).click()
		]);
		await page.getByText('Paste or upload readings').click();
		await page.getByLabel('or a file').setInputFiles(await download.path());
		await expect(page.getByText(/Before anything is written: 0 new, \d+ already in the log$/)).toBeVisible();
		await expect(page.getByRole('button', { name: 'Write 0 readings into the log' })).toBeDisabled();
		expect(await logOf(page, run)).toHaveLength(before);
	});

test('a day away is marked in every run, names what falls on it, and takes a hand', async ({ page }) => {
	const run = await openRun(page, 'log');
	await visit(page, '/days');
	const day = await page.getByLabel('Nobody can come on').inputValue();
	await page.getByRole('button', { name: 'Mark as away' }).click();
	await expect(page.getByText('The day is marked.')).toBeVisible();
	const documentOf = async () => {
		const answer = await page.request.get(`/api/runs/${run}`);
		return ((await answer.json()) as { run: { document: { away: string[]; hands?: object } } }).run.document;
	};
	expect((await documentOf()).away).toContain(day);
	const hand = page.getByLabel('Who may help').first();
	await hand.fill('a neighbour feeds');
	await hand.blur();
	await expect(page.getByText('Written down.')).toBeVisible();
	await page
		.getByRole('button', { name: /^Not away on/ })
		.first()
		.click();
	await expect(page.getByText(/can come .* after all/)).toBeVisible();
});
