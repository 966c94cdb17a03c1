import AxeBuilder from '@axe-core/playwright';
import type { APIRequestContext, Page } from '@playwright/test';
import { expect, test } from './app.ts';

/*
 * Runs that began some days ago in UTC and are looked after at midnight, so that the hour the test runs at changes
 * nothing. All invented.
 */
const day = (n: number) => new Date(Date.now() + n * 86_400_000).toISOString().slice(0, 10);
const short = (n: number) =>
	new Date(`${day(n)}T12:00:00Z`).toLocaleDateString('en-GB', {
		day: 'numeric',
		month: 'short',
		timeZone: 'UTC'
	});

const frame = {
	format: 'lazaret-plan/1',
	name: 'A forgotten job',
	timeZone: 'UTC',
	service: '00:00',
	tank: {
		name: 'Q1',
		net: '100 L',
		temperature: '26 C',
		salinity: '34 ppt',
		pH: 8.1,
		aeration: 'coarse',
		filterClears: '100 L/d'
	},
	source: { name: 'reservoir', ammonia: '0 mg/L', nitrate: '0 mg/L', salinity: '34 ppt' },
	lots: [],
	medicines: [
		{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' },
		{ id: 'fw', active: 'fresh-water' }
	]
};
const behind = (id: string) => [
	{ id: 'watch', kind: 'observe', starts: `after ${id}`, lasts: '14 d' },
	{ id: 'release', kind: 'release', starts: 'after watch' }
];

/** A pair of doses seven days apart, the first given `days` ago, the second not answered for. */
async function pair(request: APIRequestContext, days: number): Promise<void> {
	const flukes = {
		id: 'flukes',
		kind: 'pulse',
		medicine: 'pz',
		starts: `on ${day(-days)}`,
		lasts: '2 doses',
		level: '2.5 mg/L',
		repeat: 'every 7 d'
	};
	await make(
		request,
		{ ...frame, phases: [flukes, ...behind('flukes')] },
		{ at: `${day(-days)}T00:05:00Z`, task: 'flukes/dose/1' }
	);
}

async function make(
	request: APIRequestContext,
	document: object,
	done: { at: string; task: string }
): Promise<void> {
	expect((await request.post('/api/runs', { data: { id: 'r1', document } })).status()).toBe(201);
	const entries = [{ id: 'd1', kind: 'done', ...done }];
	expect((await request.post('/api/runs/r1/log', { data: { entries } })).status()).toBe(200);
}

async function open(page: Page, at = ''): Promise<void> {
	await page.goto(`/runs/r1/slips${at}`);
	await page.locator('html[data-hydrated]').waitFor();
}

const logOf = async (request: APIRequestContext) =>
	((await (await request.get('/api/runs/r1/log')).json()) as { log: Record<string, unknown>[] }).log;
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
	await expect(now!).toContainText(`${short(15)}, as planned`);
	// a new pair tomorrow and seven days on: eight days later, and twice 2.5 mg/L in 100 L
	await expect(again!).toContainText(`${short(23)}, 8 days later`);
	await expect(again!).toContainText('Praziquantel 500 mg more');
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
	await expect(question).toContainText('14 days after the one before; at 26 °C it belongs on day 7 to 9');
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

test('what cannot be written is said, and nothing is written twice', async ({ page, request }) => {
	await pair(request, 8);
	await open(page);
	const take = page
		.getByRole('listitem', { name: 'Give it now' })
		.getByRole('button', { name: /^Take this way/ });
	await page.route('**/api/runs/r1/log', (route) => route.abort());
	await take.click();
	await expect(page.getByRole('alert')).toContainText('It could not be written');
	await page.unroute('**/api/runs/r1/log');
	await take.click();
	await expect(page.getByRole('region', { name: 'What moved' })).toBeVisible();
	expect((await logOf(request)).filter(({ kind }) => kind === 'choice')).toHaveLength(1);
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
