import { shortDay } from './dates.ts';
import type { Band, CourseDay, CourseJob } from './paper-course.ts';
import { between, line, maybe, says, type Said } from './says.ts';
import type { Part } from './sweep.ts';

/** Three digits that count. */
const near = ([least, most]: Band) => between(least * 0.995, most * 1.005, 6);

/** What changes the water, as the ledger has it. */
function deedOf({ kind, what, mL = [0, 0], perhaps = false }: CourseJob): Said[] {
	if (kind === 'change') return [says`Change ${what} L`];
	if (kind === 'wash') return [says`Wash out ${what} L`];
	if (kind === 'fluke') return [says`Praziquantel ${what} mg`];
	if (kind !== 'copper') return [];
	const amount = mL[0] === mL[1] ? mL[0].toFixed(1) : between(mL[0], mL[1], 1);
	const deed = line('Ionic copper ', amount, ' mL');
	return [perhaps ? maybe(deed) : deed];
}

/** The rows of the ledger that lie ahead: each level before its service, and what will be done. */
export const aheadParts = (days: readonly CourseDay[], today: number): Part[] =>
	days
		.filter(({ day }) => day > today)
		.map(({ day, jobs, levels: [before] }) => {
			if (!before) throw new Error(`no levels on ${shortDay(day)}`);
			const { copper, praziquantel, tan } = before;
			return {
				where: `[aria-label="Ledger"] tbody tr:nth-child(${day + 1})`,
				says: [
					says`${shortDay(day)}`,
					says`${near(copper)}`,
					says`${near([praziquantel, praziquantel])}`,
					says`${near(tan)}`,
					says`0`,
					...jobs.flatMap(deedOf)
				]
			};
		});
