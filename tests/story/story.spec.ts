/*
 * Eight weeks of one tank in a real browser, with the clock moved by hand: planned from the form, a dose forgotten, a
 * low reading, two days away, a fish on the tenth day, a wash-out that ends on a test, a release. What the screens
 * show is held against `HandTank` and against days counted on paper; the fish and the tank are invented.
 */
import { rmSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { startApp, type App } from '../built-app.ts';
import { SheetPage } from '../browser/sheet-page.ts';
import { Clock } from './clock.ts';
import { HandTank } from './hand-tank.ts';
import { at, dated, Keeper } from './keeper.ts';

const clock = new Clock(at(0, '07:00'));
/** 28 g of fish whose feed nobody wrote down: 100 mg N for each kg and day (judgment, no source). */
const tank = new HandTank(120, 2.8, { strength: 2, step: 0.1 });
let app: App;

test.use({ viewport: { width: 390, height: 844 } });
test.beforeAll(async () => {
	app = await startApp(undefined, clock.env);
});
test.afterAll(async () => {
	await app.stop();
	rmSync(app.folder, { recursive: true, force: true });
});

test('a run from arrival to release, its slips included', async ({ page }) => {
	const keeper = new Keeper(page, app.url, clock);
	const run = await test.step('planned at the desk', () => plan(keeper));
	const days = async (from: number, to: number) => {
		for (let day = from; day <= to; day++)
			await test.step(`day ${day}`, async () => {
				await keeper.today(day);
				if (day > 0) tank.days(1);
				await keeper.work(tank);
			});
	};

	await test.step('five days as planned', async () => {
		await days(0, 2);
		// a step of 0.06 mg/L a day, and at the aim 28 days in it; from 0.18 to under 0.02 by halves in four days
		tank.aim = 0.06;
		await days(3, 3);
		tank.aim = 0.12;
		await days(4, 4);
		await releaseIs(keeper, run, 4, 5 + 28 + 4 + 1 + 14);
	});

	await test.step('the dose of the sixth day is forgotten, and given the morning after', async () => {
		tank.aim = 0.18;
		await keeper.today(5);
		tank.days(1);
		await keeper.work(tank, /dose/);
		await keeper.today(6, '07:00');
		const forgotten = page.locator('[data-missed="copper/dose/3"]');
		await expect(forgotten).toContainText('Ionic copper 3.6 mL, Sat 5 Dec: not logged');
		await forgotten.getByRole('link', { name: /See what moves/ }).click();
		await page.locator('html[data-hydrated]').waitFor();
		const now = page.getByRole('listitem', { name: 'Give it now' });
		await expect(now).toContainText('Proposed');
		// the level counts from the hour it is reached
		await expect(now).toContainText('Release');
		await now.getByRole('button', { name: /^Take this way/ }).click();
		await expect(page.getByRole('region', { name: 'What moved' })).toBeVisible();
		tank.days(1);
		await keeper.today(6, '07:05');
		await expect(keeper.says('copper/dose/3')).toHaveText('Ionic copper 3.6 mL');
		await keeper.done('copper/dose/3');
		tank.giveCopper(3.6);
		await keeper.today(6);
		await keeper.work(tank);
		await releaseIs(keeper, run, 6, 6 + 28 + 4 + 1 + 14);
	});

	await test.step('a reading comes out low, and so does the second', async () => {
		await keeper.today(7);
		tank.days(1);
		// (0.20 - 0.18) x 120 L / 2 mg/mL: no more before a second look
		const low = keeper.job('copper/test/5#Cu');
		await low.getByRole('textbox').fill('0.120');
		await expect(low).toContainText(
			'1.2 mL now; test again tonight and, if it confirms, 2.4 mL more to 0.18'
		);
		await low.getByRole('button', { name: 'Log', exact: true }).click();
		tank.copperMg = 0.12 * tank.litres;
		await keeper.today(7, '08:10');
		await expect(keeper.says('copper/dose/5')).toHaveText('Ionic copper 1.2 mL');
		await keeper.done('copper/dose/5');
		tank.giveCopper(1.2);
		await keeper.read('copper/test/5#NH3', tank.tanMgPerL());
		await keeper.today(7, '20:00');
		await low.getByRole('button', { name: /Details/ }).click();
		const sheet = page.getByRole('dialog');
		await sheet.getByRole('textbox', { name: /Test copper/ }).fill(tank.copperMgPerL().toFixed(3));
		// (0.18 - 0.14) x 120 / 2
		await expect(sheet).toContainText('0.14 mg/L, below 0.15, confirmed: 2.4 mL to 0.18.');
		await sheet.getByRole('button', { name: 'Log', exact: true }).click();
		await expect(sheet).toHaveCount(0);
		await days(8, 8);
		expect(tank.copperMgPerL()).toBeCloseTo(0.18, 9);
		await releaseIs(keeper, run, 8, 8 + 28 + 4 + 1 + 14);
	});

	await test.step('a fish joins on the tenth day, and nobody comes for two', async () => {
		await days(9, 9);
		await addFish(keeper, run);
		// 4 g more from 17:00 on, which the day counted from 08:00 has not
		tank.tanMg -= (0.4 * 9) / 24;
		tank.tanMgPerDay = 3.2;
		await keeper.open(9, '17:20', '/days');
		await page.getByLabel('Nobody can come on').fill('2026-12-10');
		await page.getByLabel('to, if longer').fill('2026-12-11');
		await page.getByRole('button', { name: 'Mark as away' }).click();
		await expect(page.getByRole('status').filter({ hasText: '2 days are marked.' })).toBeVisible();
		await expect(page.getByRole('region')).toHaveCount(2);
		await keeper.today(12, '08:01');
		const missed = page.locator('.missed');
		await expect(missed).toContainText('Test copper, Fri 11 Dec: not logged, and 1 more of these.');
		await missed.getByRole('button', { name: 'Skip the 1 other' }).click();
		await missed
			.getByRole('button', { name: /^(Log or skip|Test copper)/ })
			.first()
			.click();
		await page.getByLabel('nobody there').check();
		await page.getByRole('button', { name: 'Log as skipped' }).click();
		await expect(missed).toHaveCount(0);
		tank.days(2);
		await days(12, 12);
		// all days count again from the first whole one with the new fish
		await releaseIs(keeper, run, 12, 10 + 28 + 4 + 1 + 14);
	});

	await test.step('copper goes on to its 28 days, the second dose against flukes in them', async () => {
		await days(13, 13);
		await days(14, 37);
		await ledgerSays(keeper, run, 37);
	});

	await test.step('the wash-out ends on a test, not on a forecast', async () => {
		tank.share = 0.5;
		await days(38, 41);
		// four halvings, a test, fourteen days
		await releaseIs(keeper, run, 41, 10 + 28 + 4 + 1 + 14);
		expect(tank.copperMgPerL()).toBeCloseTo(0.18 / 16, 9);
		tank.kitShows = 0.03;
		await days(42, 42);
		await releaseIs(keeper, run, 42, 44 + 14);
		tank.kitShows = 0;
		await days(43, 43);
		tank.kitShows = null;
		await releaseIs(keeper, run, 43, 44 + 14);
	});

	await test.step('fourteen days of watching, and the release', async () => {
		await days(44, 57);
		await releaseIs(keeper, run, 57, 44 + 14);
		await keeper.today(58);
		await expect(page.locator('li.job').filter({ hasText: 'Release the fish' })).toBeVisible();
		await days(58, 58);
		await keeper.today(59);
		await expect(page.getByText('No run is under way.')).toBeVisible();
	});
});

/** The release of the run's page and of all runs is this day's. */
async function releaseIs(keeper: Keeper, run: string, today: number, release: number): Promise<void> {
	await keeper.open(today, '18:00', `/runs/${run}`);
	const facts = keeper.page.locator('dl').filter({ hasText: 'Tasks left' });
	await expect.soft(facts).toContainText(`Release ${dated(release)}`);
	await keeper.open(today, '18:01', '/runs');
	await expect.soft(keeper.page.getByRole('row').filter({ hasText: 'Bay 4' })).toContainText(dated(release));
}

/** One fish of 4 g. */
async function addFish(keeper: Keeper, run: string): Promise<void> {
	const { page } = keeper;
	await keeper.open(9, '17:00', `/runs/${run}/log`);
	await page.getByLabel('What happened').selectOption('joins');
	await page.getByLabel('Fish', { exact: true }).fill('banded cardinalfish');
	await page.getByLabel('Group').selectOption('cardinalfish');
	await page.getByLabel('How many').fill('1');
	await page.getByLabel('Mass, all together, optional').fill('4 g');
	await page.getByRole('button', { name: 'Write it into the log' }).click();
	await expect(page.getByText('Written: 1 fish joined: banded cardinalfish; credits restart.')).toBeVisible();
	// thirty days from today, and fifteen after the last of 28 days of copper from tomorrow on
	const watch = page.getByLabel('Watch clock');
	await expect.soft(watch).toContainText('0 of 14');
	await expect.soft(watch).toContainText('0 of 30');
	await expect.soft(watch).toContainText(dated(37 + 15));
}

/** The rows of the ledger that the story made. */
async function ledgerSays(keeper: Keeper, run: string, today: number): Promise<void> {
	await keeper.open(today, '18:05', `/runs/${run}/ledger`);
	const row = (day: number) =>
		keeper.page.getByRole('row').filter({ hasText: new RegExp(`\\b${dated(day)}\\b`) });
	await expect.soft(row(5)).not.toContainText('Ionic copper');
	await expect.soft(row(7)).toContainText('Ionic copper 1.2 mL');
	await expect.soft(row(7).getByText('0.12', { exact: true })).toBeVisible();
	await expect.soft(row(8)).toContainText('Ionic copper 2.4 mL');
	await expect.soft(row(9)).toContainText('1 fish joined: banded cardinalfish');
	await expect.soft(row(10)).toContainText('away');
	await expect.soft(row(12)).toContainText('Change 30 L');
	await expect.soft(row(13)).toContainText('Praziquantel 300 mg');
}

/** From the form to a sheet: one typed cell, the strengths off the labels. Answers with the id of the run. */
async function plan(keeper: Keeper): Promise<string> {
	const { page } = keeper;
	await page.setViewportSize({ width: 1440, height: 900 });
	await keeper.open(0, '07:00', '/new');
	await page.getByRole('textbox', { name: 'Tank' }).fill('Bay 4');
	for (const [name, text] of [
		['Net volume', '120'],
		['Temperature', '26'],
		['Salinity, ppt', '34'],
		['pH', '8.1'],
		['How many', '4'],
		['Mass, all together', '28']
	] as const)
		await page.getByRole('spinbutton', { name }).fill(text);
	await page.getByRole('textbox', { name: 'Fish' }).fill('banded cardinalfish');
	await page.getByLabel('Group').selectOption('cardinalfish');
	await page.getByRole('button', { name: 'Plan a new arrival' }).click();
	const sheet = new SheetPage(page);
	await sheet.grid.waitFor();
	await page.getByText('Tank, fish, bottles and new water').click();
	const strengths = page.locator('[data-cell^="medicines."][data-cell$=".strength"]');
	await strengths.nth(0).fill('2 mg/mL');
	await strengths.nth(1).fill('1 g/g');
	await strengths.nth(1).press('Tab');
	await sheet.put(2, 'change', '25% every 3 d');
	await sheet.saved();
	const id = new URL(page.url()).pathname.split('/')[2] ?? '';
	await page.setViewportSize({ width: 390, height: 844 });
	return id;
}
