import { SheetPage } from '../browser/sheet-page.ts';
import { HandTank } from './hand-tank.ts';
import { daysAhead } from './paper-course.ts';
import type { Outlook } from './paper-outlook.ts';
import { deskParts, formParts, historyParts } from './paper-sheet.ts';
import { standing } from './paper-standing.ts';
import { sweep } from './sweep.ts';
import type { Walk } from './walk.ts';

const typed = [
	['Net volume', '120'],
	['Temperature', '26'],
	['Salinity, ppt', '34'],
	['pH', '8.1'],
	['How many', '4'],
	['Mass, all together', '28']
] as const;

/** The run as it was laid down, before anything is done: the fish are there from the first day on. */
function outset(): Outlook {
	const stands = standing(0, 4);
	const empty = new HandTank(120, 2.8, { strength: 2, step: 0.1 });
	empty.tanMg = -empty.tanMgPerDay;
	return { ...stands, today: -1, days: daysAhead(empty, -1, stands.rows, null, 0) };
}

/** From the form to a sheet: one typed cell, the strengths off the labels. Answers with the id of the run. */
export async function plan(walk: Walk): Promise<string> {
	const { keeper } = walk;
	const { page } = keeper;
	await page.setViewportSize({ width: 1440, height: 900 });
	await keeper.open(0, '07:00', '/new');
	await page.getByRole('textbox', { name: 'Tank' }).fill('Bay 4');
	for (const [name, text] of typed) await page.getByRole('spinbutton', { name }).fill(text);
	await page.getByRole('textbox', { name: 'Fish' }).fill('banded cardinalfish');
	await page.getByLabel('Group').selectOption('cardinalfish');
	await sweep(page, 'the form of a new run', formParts());
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
	await sweep(page, 'the run at the desk', deskParts(outset()));
	const id = new URL(page.url()).pathname.split('/')[2] ?? '';
	await keeper.open(0, '07:30', `/runs/${id}/history`);
	await sweep(page, 'what was changed', historyParts());
	await page.setViewportSize({ width: 390, height: 844 });
	return id;
}
