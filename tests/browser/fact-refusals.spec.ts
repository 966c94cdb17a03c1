import { expect, test } from './app.ts';
import { logOf, openRun } from './fact-pages.ts';

test.use({ viewport: { width: 390, height: 844 } });

/** What is typed into a field of a kind, and the sentence that stands there then. */
const refusals: readonly [kind: string, field: string, typed: string, says: RegExp][] = [
	['change', 'How much', 'abc', /^“abc” was not understood: expected an amount in L/],
	['change', 'How much', '-5 L', /^“-5 L” .* expected an amount in L/],
	['change', 'How much', '0 L', /^“0 L” does not fit: expected more than nothing/],
	['change', 'How much', '0 %', /^“0 %” does not fit: expected more than nothing/],
	['change', 'How much', '900 L', /^“900 L” does not fit: expected at most the .* L in the tank/],
	['change', 'How much', '', /^Needed here: litres/],
	['topoff', 'Fresh water', '2 kg', /^“2 kg” was not understood: expected an amount in L/],
	['topoff', 'Fresh water', '1e9', /^“1e9” was not understood/],
	[
		'loss',
		'How many',
		'900',
		/^“900” does not fit: expected at most \d+, as many .* as are known in the tank/
	],
	['loss', 'How many', 'some', /^“some” was not understood: expected a whole number of fish/],
	['leaves', 'How many', '900', /^“900” does not fit: expected at most \d+/],
	['joins', 'How many', '0', /^“0” does not fit: expected a whole number of fish/],
	[
		'observation',
		'Breaths a minute, optional',
		'fast',
		/^“fast” was not understood: expected breaths a minute/
	]
];

test('what the log cannot take is said at its field on a phone, and nothing typed is lost', async ({
	page
}) => {
	test.slow();
	const run = await openRun(page, 'log');
	const before = (await logOf(page, run)).length;
	const write = page.getByRole('button', { name: 'Write it into the log' });
	for (const [kind, name, typed, says] of refusals) {
		await page.getByLabel('What happened').selectOption(kind);
		const fish = page.getByLabel('Which fish', { exact: true });
		if (await fish.isVisible()) await fish.selectOption({ index: 1 });
		if (kind === 'joins') await page.getByLabel('Fish', { exact: true }).fill('yellow wrasse');
		const field = page.getByRole('textbox', { name, exact: true });
		await field.fill(typed);
		await write.click();
		await expect(field, `${kind} ${typed}`).toHaveAccessibleDescription(says);
		await expect(field).toHaveValue(typed);
		const wide = await page.evaluate(() => document.documentElement.scrollWidth);
		expect(wide).toBeLessThanOrEqual(390);
	}
	expect(await logOf(page, run)).toHaveLength(before);
});

test('a moment that cannot be is told, and what was typed beside it stays', async ({ page }) => {
	const run = await openRun(page, 'log');
	const before = (await logOf(page, run)).length;
	await page.getByLabel('What happened').selectOption('topoff');
	const litres = page.getByRole('textbox', { name: 'Fresh water' });
	await litres.fill('1,5 L');
	await page.getByText('When: now').click();
	for (const [day, says] of [
		['2019-01-01', /long before this run, .* look at the year of 1 Jan 2019|look at the year of Jan 1, 2019/],
		['2099-01-01', /still to come/],
		['', /Needed here: a date that exists/]
	] as const) {
		await page.getByLabel('Day', { exact: true }).fill(day);
		await page.getByRole('button', { name: 'Write it into the log' }).click();
		await expect(page.getByRole('alert').filter({ hasText: says })).toBeVisible();
		await expect(litres).toHaveValue('1,5 L');
	}
	expect(await logOf(page, run)).toHaveLength(before);
});
