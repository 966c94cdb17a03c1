import { expect } from '@playwright/test';
import { dated, isoDay } from './dates.ts';
import { aheadParts } from './paper-ahead.ts';
import { dayParts } from './paper-day.ts';
import { differenceParts, learned } from './paper-lessons.ts';
import { runParts } from './paper-calendar.ts';
import { rosterParts } from './paper-outlook.ts';
import { watchClock } from './paper-watch-clock.ts';
import { says } from './says.ts';
import { sweep } from './sweep.ts';
import type { Walk } from './walk.ts';

const name = says`Banded cardinalfish, Bay 4`;

/** The page of the run and the page of all runs on the evening of the open day. */
export async function outlookSays(walk: Walk, run: string, time = '18:00'): Promise<void> {
	const { keeper } = walk;
	const outlook = walk.outlook();
	const when = dated(outlook.today);
	await keeper.follow(outlook.today, time, '/runs');
	await sweep(keeper.page, `all runs, ${when}`, rosterParts(outlook));
	await keeper.follow(outlook.today, time, `/runs/${run}`);
	// the weeks that are over are folded away until they are asked for
	const over = keeper.page.getByRole('button', { name: /^Show .* before$/ });
	if (outlook.today >= 7) await over.click();
	await sweep(keeper.page, `the run on a phone, ${when}`, runParts(outlook));
}

/** One fish of 4 g joins on the tenth day; the log before and after. */
export async function addFish(walk: Walk, run: string): Promise<void> {
	const { keeper, log, ledger } = walk;
	const { page } = keeper;
	await logSays(walk, run, '17:00');
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
	walk.fish = 5;
	await logSays(walk, run, '17:10');
}

/** The dialog of a day to come, over the page of the run. */
export async function dayDialogSays(walk: Walk, run: string, day: number): Promise<void> {
	const { page } = walk.keeper;
	const outlook = walk.outlook();
	await walk.keeper.open(outlook.today, '18:10', `/runs/${run}`);
	await page.locator(`button[data-date="${isoDay(day)}"]`).click();
	await page.getByRole('dialog').waitFor();
	await sweep(page, `the dialog of ${dated(day)}`, [...dayParts(outlook, day), ...runParts(outlook)]);
	await page.getByRole('dialog').getByRole('button', { name: 'Close' }).click();
}

/** The ledger on the evening of the open day: what lies behind to the digit, what lies ahead within bounds. */
export async function ledgerSays(walk: Walk, run: string, time = '18:05'): Promise<void> {
	const { keeper, ledger } = walk;
	const outlook = walk.outlook();
	const { today, days } = outlook;
	await keeper.open(today, time, `/runs/${run}/ledger`);
	await sweep(keeper.page, `the ledger, ${dated(today)}`, [
		...ledger.parts(),
		...aheadParts(days, today),
		...differenceParts(ledger.met()),
		watchClock(outlook),
		{
			where: 'html',
			says: [
				name,
				says`Ledger of Banded cardinalfish, Bay 4 · Lazaret`,
				...learned(ledger.met(), today > 9 ? 3.2 : 2.8, walk.tank.loss.estimate())
			]
		}
	]);
}

/** The log on the evening of the open day. */
export async function logSays(walk: Walk, run: string, time = '18:06'): Promise<void> {
	const { keeper, log } = walk;
	const outlook = walk.outlook();
	await keeper.open(outlook.today, time, `/runs/${run}/log`);
	// it shows the newest first, and more when asked
	const older = keeper.page.getByRole('button', { name: 'Show older entries' });
	while (await older.isVisible()) await older.click();
	await sweep(keeper.page, `the log, ${dated(outlook.today)}`, [
		...log.parts(),
		watchClock(outlook),
		// an example of what may be typed
		{
			where: 'html',
			says: [name, says`Log of Banded cardinalfish, Bay 4 · Lazaret`, says`0.17 mg/L`, log.count()]
		}
	]);
}

/** Both. */
export async function papersSay(walk: Walk, run: string, time = '18:05'): Promise<void> {
	await ledgerSays(walk, run, time);
	await logSays(walk, run, time);
}
