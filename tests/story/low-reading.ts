import { expect } from '@playwright/test';
import { dated, datedFar } from './dates.ts';
import { eveningPart } from './paper-evening.ts';
import { copperDose } from './paper-jobs.ts';
import { says } from './says.ts';
import type { Walk } from './walk.ts';

/** A day and two hours after the reading of the day before, at 08:05 (judgment, no source). */
const back = '10:05';

/** 0.12 where 0.18 was forecast: (0.20 - 0.18) x 120 L / 2 mg/mL and no more before a second look. */
export async function lowReading(walk: Walk): Promise<void> {
	const { keeper, round, tank } = walk;
	const [copper, ammonia] = round.jobs;
	if (!copper || !ammonia) throw new Error('no test on the day of the low reading');
	await keeper.read(copper.key, '0.120');
	tank.copperMg = 0.12 * tank.litres;
	tank.kitCopperMgPerL();
	tank.keeps = 0.12 / 0.18;
	walk.answer(copper, '0.12 mg/L');
	walk.wrote('Copper', '0.120', '08:05', 0.18);
	copper.verdict = [
		says`0.12 mg/L, below 0.15 and below the forecast of 0.18: 1.2 mL now, by this reading to 0.14 and still under 0.15: no more until a second reading confirms it; test again by ${back} and, if it confirms, 2.4 mL more to 0.18. Back inside by ${back}, the course only pauses; later it begins again.`
	];
	walk.doubt = 0.18;
	walk.put(copperDose('copper/dose/5', tank, [0.12, 0.12], 1, walk.doubt), -1);
	// a day after the last reading inside, so the one day earned is gone: 28 days from the ninth on, not from the seventh
	const [was, is] = [6, 8].map((from) => from + 28 + 4 + 1 + 14) as [number, number];
	round.above.push({
		where: '.tank > .says.caution',
		says: [
			says`Caution. Ionic copper was read at 0.12 mg/L on ${dated(7)}, where 0.18 mg/L was expected.`,
			says`Caution. Release on ${datedFar(is)}, 2 days later than ${datedFar(was)}, planned before: ionic copper read as 0.12 mg/L at 08:05 took back the day earned.`,
			says`A reading under the floor takes back what was earned since the last one inside; under 0.1 mg/L, or not back inside within a day and two hours of that one, the course counts from its beginning. (judgment, no source)`
		]
	});
	await walk.look('after the low reading');
	await walk.work();
}

/** 0.14 in the evening: (0.18 - 0.14) x 120 / 2. */
export async function secondReading(walk: Walk): Promise<void> {
	const { keeper, round, tank } = walk;
	const { page } = keeper;
	walk.doubt = null;
	await keeper.today(7, '20:00');
	for (const { answer } of round.jobs) if (answer) answer.undo = false;
	await keeper
		.job('copper/test/5#Cu')
		.getByRole('button', { name: /Details/ })
		.click();
	const sheet = page.getByRole('dialog');
	await sheet.getByRole('textbox', { name: /Test copper/ }).fill(tank.kitCopperMgPerL().toFixed(3));
	await walk.look('the evening’s test', [eveningPart('0.120', '0.140')]);
	await sheet.getByRole('button', { name: 'Log', exact: true }).click();
	await expect(sheet).toHaveCount(0);
	// the first has taught that some is lost, at most a tenth a day (judgment, no source): half a day then, half a day now
	const halfDay = Math.sqrt(0.9);
	walk.wrote('Copper', '0.140', '20:00', 0.14, 0.14 * halfDay);
	walk.leftOvernight = halfDay;
}
