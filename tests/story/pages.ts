import { expect } from '@playwright/test';
import { dated } from './dates.ts';
import type { Keeper } from './keeper.ts';
import { aheadParts } from './paper-ahead.ts';
import { runParts } from './paper-calendar.ts';
import { rosterParts } from './paper-outlook.ts';
import { watchClock } from './paper-watch-clock.ts';
import { says } from './says.ts';
import { sweep } from './sweep.ts';
import type { Walk } from './walk.ts';

const name = says`Banded cardinalfish, Bay 4`;

/**
 * The release of the run's page and of all runs is this day's; of copper so many whole days are in range, and so much
 * new water is needed: 30 L for each change under copper, 60 for each halving, 24 for each of the two of the watch.
 */
export async function releaseIs(
	keeper: Keeper,
	run: string,
	today: number,
	release: number,
	[credit, waterL]: readonly [number, number]
): Promise<void> {
	await keeper.open(today, '18:00', `/runs/${run}`);
	const facts = keeper.page.locator('dl').filter({ hasText: 'Tasks left' });
	await expect.soft(facts).toContainText(`Release ${dated(release)}`);
	await expect.soft(facts, `credit on ${dated(today)}`).toContainText(` ${credit} / 28 d`);
	await expect.soft(facts, `water on ${dated(today)}`).toContainText(`New water ${waterL} L`);
	await keeper.open(today, '18:01', '/runs');
	await expect.soft(keeper.page.getByRole('row').filter({ hasText: 'Bay 4' })).toContainText(dated(release));
}

/** The page of the run and the page of all runs while everything goes as planned. */
export async function outlookSays(keeper: Keeper, run: string, today: number): Promise<void> {
	await keeper.open(today, '18:00', `/runs/${run}`);
	await sweep(keeper.page, 'the run on a phone', runParts());
	await keeper.open(today, '18:01', '/runs');
	await sweep(keeper.page, 'all runs', rosterParts(today));
}

/** One fish of 4 g joins on the tenth day; the log before and after. */
export async function addFish({ keeper, log, ledger }: Walk, run: string): Promise<void> {
	const { page } = keeper;
	await keeper.open(9, '17:00', `/runs/${run}/log`);
	const logSays = (when: string, clock: ReturnType<typeof watchClock>) =>
		sweep(page, `the log ${when}`, [
			...log.parts(),
			clock,
			// an example of what may be typed
			{
				where: 'html',
				says: [name, says`Log of Banded cardinalfish, Bay 4 · Lazaret`, says`0.17 mg/L`, log.count()]
			}
		]);
	// 28 days of copper from the ninth on, and fourteen after them
	await logSays('before a fish joins', watchClock(0, 9, 9, 8 + 28 + 14));
	await page.getByLabel('What happened').selectOption('joins');
	await page.getByLabel('Fish', { exact: true }).fill('banded cardinalfish');
	await page.getByLabel('Group').selectOption('cardinalfish');
	await page.getByLabel('How many').fill('1');
	await page.getByLabel('Mass, all together, optional').fill('4 g');
	await page.getByRole('button', { name: 'Write it into the log' }).click();
	await expect(page.getByText('Written: 1 fish joined: banded cardinalfish; credits restart.')).toBeVisible();
	const joined = '1 fish joined: banded cardinalfish; credits restart';
	log.write(9, '17:00', joined);
	ledger.note(9, joined);
	await keeper.open(9, '17:10', `/runs/${run}/log`);
	// thirty days from today, and fifteen after the last of 28 days of copper from tomorrow on
	await logSays('after a fish joined', watchClock(0, 9, 0, 37 + 15));
}

/** The ledger on the last day of copper: what lies behind to the digit, what lies ahead within bounds. */
export async function ledgerSays({ keeper, tank, ledger }: Walk, run: string, today: number): Promise<void> {
	await keeper.open(today, '18:05', `/runs/${run}/ledger`);
	await sweep(keeper.page, 'the ledger', [
		...ledger.parts(),
		...aheadParts(today, tank),
		...ledger.differences(),
		watchClock(0, today, today - 9, today + 15),
		{
			where: 'html',
			says: [name, says`Ledger of Banded cardinalfish, Bay 4 · Lazaret`, ...ledger.learned()]
		}
	]);
}
