import { expect, test, visit } from './app.ts';
import { copperRun, newEntries } from './day-run.ts';
import { change, copperTest, dose, job, openToday, read } from './round-page.ts';

test.use({ viewport: { width: 390, height: 844 } });

test('a low reading asks for a second one until it is there, and what that allows is logged with one touch', async ({
	page,
	request
}) => {
	// no change today, as in the keepers' worked example
	await copperRun(request, 'q2', {
		log: (log) => [...log, [0, '08:01', 'missed', { task: change, reason: 'none needed' }]]
	});
	await openToday(page);
	const due = page.getByText('A second reading is due.');
	await expect(due).toHaveCount(0);
	await read(page, 'q2', copperTest, '0.12');
	// (0.20 - 0.17) x 112 = 3.36 mg = 1.6 mL of 2 mg/mL
	await expect(job(page, 'q2', dose)).toContainText('Ionic copper 1.6 mL');
	await job(page, 'q2', dose).getByRole('button', { name: /^Done/ }).click();
	await expect.poll(async () => (await newEntries(request, 'q2')).length).toBe(2);
	// the evening's keeper opens the page anew
	await visit(page, '/today');
	await expect(due).toBeVisible();
	await expect(job(page, 'q2', copperTest)).toContainText('it decides how the doses go on');
	await job(page, 'q2', copperTest).getByRole('button', { name: 'Read again' }).click();
	const sheet = page.getByRole('dialog');
	await sheet.getByRole('textbox', { name: /Test copper/ }).fill('0.14');
	await sheet.getByLabel('Note').fill('other vial');
	// the button at the foot of the sheet takes the number along, it does not drop it
	await sheet.getByRole('button', { name: 'Log this reading' }).click();
	await expect(sheet).toHaveCount(0);
	await expect
		.poll(async () => (await newEntries(request, 'q2')).at(-1))
		.toMatchObject({ kind: 'reading', what: 'Cu', value: '0.14 mg/L', note: 'other vial' });
	await expect(due).toHaveCount(0);
	// whoever opens the page after that finds the amount there too
	await page.reload();
	// (0.18 - 0.14) x 112 = 4.48 mg = 2.2 mL, though the dose of the day was given this morning
	await job(page, 'q2', copperTest).getByRole('button', { name: 'Log 2.2 mL given' }).click();
	await expect
		.poll(async () => (await newEntries(request, 'q2')).at(-1))
		.toMatchObject({ kind: 'dose', medicine: 'cu', amount: '2.2 mL' });
	await page.reload();
	await expect(job(page, 'q2', copperTest)).toContainText('0.14 mg/L');
	await expect(page.getByRole('button', { name: /given$/ })).toHaveCount(0);
});
