import { arrivalParts, arrivalWords, bag } from './paper-arrival.ts';
import { logSays } from './pages.ts';
import { sweep } from './sweep.ts';
import type { Walk } from './walk.ts';

/** The bag is read and written down, on the day the fish are taken in. */
export async function arrival(walk: Walk, run: string): Promise<void> {
	const { keeper } = walk;
	const { page } = keeper;
	await keeper.open(0, '18:10', `/runs/${run}/arrival`);
	for (const [name, text] of [
		['Temperature in the bag', `${bag.temperature} C`],
		['Salinity in the bag', `${bag.salinity} ppt`],
		['pH in the bag', `${bag.pH}`],
		['Ammonia in the bag', `${bag.tan} mg/L`],
		['Fish counted', `${bag.fish}`],
		['Mass, all together', `${bag.grams} g`],
		['Breaths a minute', `${bag.breaths}`]
	] as const)
		await page.getByLabel(name).fill(text);
	await sweep(page, 'the record of the arrival', arrivalParts());
	await page.getByRole('button', { name: 'Write the record of the arrival' }).click();
	await page.waitForURL(/\/log$/);
	walk.log.write(0, '18:10', arrivalWords);
	walk.ledger.note(0, `Banded cardinalfish: ${bag.breaths} breaths a minute`);
	await logSays(walk, run, '18:20');
}
