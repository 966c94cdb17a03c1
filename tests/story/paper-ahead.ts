import { shortDay } from './dates.ts';
import type { HandTank } from './hand-tank.ts';
import { changesOf } from './paper-watch.ts';
import { between, says, type Said } from './says.ts';
import type { Part } from './sweep.ts';

/** The first day of the watch, where four halvings and a test are enough. */
const watchFrom = 43;
const release = watchFrom + 14;

/** The rows of the ledger that lie ahead on the last day of copper: four halvings, a test, fourteen days of watching. */
export function aheadParts(today: number, tank: HandTank): Part[] {
	const rows: Part[] = [];
	let [tan, copper, praziquantel] = [tank.tanMg, tank.copperMg, tank.praziquantelMg];
	let least = copper;
	let changes: { day: number; percent: number }[] = [];
	for (let day = today + 1; day <= release; day++) {
		tan += tank.tanMgPerDay;
		least *= tank.keeps;
		if (day === watchFrom)
			changes = changesOf({
				tanMg: tan,
				tanMgPerDay: tank.tanMgPerDay,
				litres: tank.litres,
				from: watchFrom,
				to: release - 1,
				changed: watchFrom - 2
			});
		const percent = day < watchFrom - 1 ? 50 : (changes.find((change) => change.day === day)?.percent ?? 0);
		const of = (mg: number) => mg / tank.litres;
		// three digits that count
		const near = (low: number, high: number) => between(low * 0.995, high * 1.005, 6);
		const lines: Said[] = [
			says`${shortDay(day)}`,
			says`${near(of(least), of(copper))}`,
			says`${near(of(praziquantel), of(praziquantel))}`,
			says`${between(of(tan) - 0.0005 * (day - today + 1), of(tan) + 0.0005 * (day - today + 1), 6)}`,
			says`0`
		];
		if (percent > 0)
			lines.push(
				day < watchFrom ? says`Wash out ${(percent / 100) * 120} L` : says`Change ${(percent / 100) * 120} L`
			);
		rows.push({ where: `[aria-label="Ledger"] tbody tr:nth-child(${day + 1})`, says: lines });
		const kept = 1 - percent / 100;
		[tan, copper, praziquantel, least] = [tan * kept, copper * kept, praziquantel * kept, least * kept];
	}
	return rows;
}
