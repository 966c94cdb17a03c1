/*
 * Seven weeks of one tank in a real browser, with the clock moved by hand: planned from the form, a dose forgotten, a
 * low reading, two days away, a fish on the tenth day, a wash-out that ends on a test, a release. What the screens
 * show is held against `HandTank` and against days counted on paper; the fish and the tank are invented.
 */
import { rmSync } from 'node:fs';
import { expect, test, type Locator, type Page } from '@playwright/test';
import { startApp, type App } from '../built-app.ts';
import { SheetPage } from '../browser/sheet-page.ts';
import { Clock } from './clock.ts';
import { HandTank } from './hand-tank.ts';

const LITRES = 120;
const STRENGTH = 2;
const STEP = 0.1;
const AIM = 0.18;
/** 28 g of fish whose feed nobody wrote down: 100 mg N for each kg and day (judgment, no source). */
const TAN_A_DAY = 2.8;

/** Winter in Chicago is six hours behind UTC. Day 0 is 30 November 2026. */
const at = (day: number, time = '08:05'): string => {
	const [hours = 0, minutes = 0] = time.split(':').map(Number);
	return `${new Date(Date.UTC(2026, 10, 30 + day, hours + 6, minutes)).toISOString().slice(0, 19)}Z`;
};

const clock = new Clock(at(0, '07:00'));
const tank = new HandTank(LITRES, TAN_A_DAY);
let app: App;

test.use({ viewport: { width: 390, height: 844 } });
test.beforeAll(async () => {
	app = await startApp(undefined, clock.env);
});
test.afterAll(async () => {
	await app.stop();
	rmSync(app.folder, { recursive: true, force: true });
});

async function open(page: Page, path: string): Promise<void> {
	await page.goto(`${app.url}${path}`);
	await page.locator('html[data-hydrated]').waitFor();
}

/** Today at a moment of a day; a page that is open already is looked at again, as a phone is that wakes up. */
async function today(page: Page, day: number, time?: string): Promise<void> {
	const instant = at(day, time);
	await clock.set(page, instant);
	if (!page.url().endsWith('/today')) await open(page, '/today');
	else await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
	const shown = () => page.evaluate(() => localStorage.getItem('lazaret-round') ?? '{}');
	await expect
		.poll(async () => (JSON.parse(await shown()) as { now?: string }).now ?? '')
		.toMatch(new RegExp(`^${instant.slice(0, 16)}`));
}

const job = (page: Page, key: string): Locator => page.locator(`li.job[data-task="${key}"]`);
const jobs = (page: Page): Promise<(string | undefined)[]> =>
	page.locator('li.job').evaluateAll((all) => all.map((one) => (one as HTMLElement).dataset.task));

async function done(page: Page, key: string): Promise<void> {
	await job(page, key).getByRole('button', { name: /^Done/ }).click();
	await expect(job(page, key)).toHaveClass(/answered/);
}

async function read(page: Page, key: string, value: number): Promise<void> {
	const form = job(page, key).locator('form.reading');
	await form.getByRole('textbox').fill(value.toFixed(3));
	await form.getByRole('button', { name: 'Log' }).click();
	await expect(job(page, key)).toHaveClass(/answered/);
}

async function look(page: Page, key: string): Promise<void> {
	await job(page, key).getByRole('button', { name: 'Look', exact: true }).click();
	await page.getByRole('button', { name: 'No signs' }).click();
	await expect(job(page, key)).toHaveClass(/answered/);
}

/** The jobs of a day as they come; what the kit shows comes from the tank of paper, to a thousandth. */
async function work(page: Page, except: RegExp = /^$/): Promise<void> {
	for (const key of (await jobs(page)) as string[]) {
		if (except.test(key)) continue;
		const one = job(page, key);
		if (key.endsWith('#Cu') || (await one.innerText()).startsWith('Test copper'))
			await read(page, key, tank.copperMgPerL());
		else if (key.endsWith('#NH3') || (await one.innerText()).startsWith('Test ammonia'))
			await read(page, key, tank.tanMgPerL());
		else if (key.endsWith('#NO3')) await read(page, key, 0);
		else if (await one.getByRole('button', { name: 'Look', exact: true }).count()) await look(page, key);
		else await done(page, key);
	}
}

/** What a job of the day says it takes. */
const says = (page: Page, key: string): Promise<string> => job(page, key).locator('.text').innerText();

test('a run from arrival to release, its slips included', async ({ page }) => {
	await clock.set(page, at(0, '07:00'));
	await test.step('planned at the desk', () => plan(page));

	await test.step('five days as planned', async () => {
		for (let day = 0; day < 5; day++) {
			await today(page, day);
			if (day > 0) tank.days(1);
			if (day >= 3) {
				const key = `copper/dose/${day - 2}`;
				expect(await says(page, key)).toBe('Ionic copper 3.6 mL');
				expect(tank.topUpMl(0.06 * (day - 2), STRENGTH, STEP)).toBe(3.6);
			}
			await work(page);
			if (day >= 3) tank.copperMg += 3.6 * STRENGTH;
		}
	});
	await test.step('the dose of the sixth day is forgotten, and given the morning after', async () => {
		await today(page, 5);
		tank.days(1);
		await work(page, /dose/);
		await today(page, 6);
		tank.days(1);
		expect(await says(page, 'copper/dose/4')).toBe('Ionic copper');
		await page.getByRole('link', { name: /See what moves/ }).click();
		await page.locator('html[data-hydrated]').waitFor();
		const now = page.getByRole('listitem', { name: 'Give it now' });
		await expect(now).toContainText('Proposed');
		await now.getByRole('button', { name: /^Take this way/ }).click();
		await expect(page.getByRole('region', { name: 'What moved' })).toBeVisible();
		await today(page, 6, '08:10');
		await read(page, 'copper/test/4#Cu', tank.copperMgPerL());
		await read(page, 'copper/test/4#NH3', tank.tanMgPerL());
		await today(page, 6, '08:15');
		expect(await says(page, 'copper/dose/3')).toBe('Ionic copper 3.6 mL');
		await done(page, 'copper/dose/3');
		tank.copperMg += 3.6 * STRENGTH;
		await today(page, 6, '08:20');
		await change(page, 'copper/change/4', 30);
		await topUp(page, 'copper/dose/4');
		await today(page, 6, '08:30');
		expect(await says(page, 'flukes/dose/1')).toBe('Praziquantel 300 mg');
		await done(page, 'flukes/dose/1');
	});

	await test.step('a reading comes out low', async () => {
		await today(page, 7);
		tank.days(1);
		// (0.20 - 0.18) x 120 L / 2 mg/mL: no more before a second look
		const form = job(page, 'copper/test/5#Cu').locator('form.reading');
		await form.getByRole('textbox').fill('0.120');
		await expect(job(page, 'copper/test/5#Cu')).toContainText('1.2 mL');
		await form.getByRole('button', { name: 'Log' }).click();
		tank.copperMg = 0.12 * LITRES;
		await today(page, 7, '08:10');
		await expect(job(page, 'copper/dose/5').locator('.text')).toHaveText('Ionic copper 1.2 mL');
		await done(page, 'copper/dose/5');
		tank.copperMg += 1.2 * STRENGTH;
		await read(page, 'copper/test/5#NH3', tank.tanMgPerL());
		await today(page, 7, '20:00');
	});
});

/** A change with the litres of the sheet's quarter. */
async function change(page: Page, key: string, litres: number): Promise<void> {
	expect(await says(page, key)).toBe(`Change ${litres} L`);
	await done(page, key);
	tank.change(litres);
}

/** What the plan gives is what paper gives. */
async function topUp(page: Page, key: string): Promise<void> {
	const mL = tank.topUpMl(AIM, STRENGTH, STEP);
	await expect(job(page, key).locator('.text')).toHaveText(`Ionic copper ${mL.toFixed(1)} mL`);
	await done(page, key);
	tank.copperMg += mL * STRENGTH;
}

/** From the form to a sheet: one typed cell, the strengths off the labels. Answers with the id of the run. */
async function plan(page: Page): Promise<string> {
	await page.setViewportSize({ width: 1440, height: 900 });
	await open(page, '/new');
	await page.getByRole('textbox', { name: 'Tank' }).fill('Bay 4');
	for (const [name, text] of [
		['Net volume', String(LITRES)],
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
	await strengths.nth(0).fill(`${STRENGTH} mg/mL`);
	await strengths.nth(1).fill('1 g/g');
	await strengths.nth(1).press('Tab');
	await sheet.put(2, 'change', '25% every 3 d');
	await expect(page.getByText('Saved', { exact: true })).toBeVisible();
	const id = new URL(page.url()).pathname.split('/')[2] ?? '';
	await page.setViewportSize({ width: 390, height: 844 });
	return id;
}
