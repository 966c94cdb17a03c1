import { dated } from './dates.ts';
import { dayLines } from './paper-chips.ts';
import type { Outlook } from './paper-outlook.ts';
import { factLines, rowLines, tankLine } from './paper-outlook.ts';
import { tideLine } from './paper-tide.ts';
import { says, type Said } from './says.ts';
import type { Part } from './sweep.ts';

const names = [
	'Settle',
	'Ionic copper, hold 0.15–0.20 mg/L',
	'Praziquantel, pulse 2 × 2.5 mg/L',
	'Washout',
	'Observe',
	'Release'
];

/** The rows of the sheet as bands of a week; one that began before says so. */
const bandLines = ({ rows }: Outlook, monday: number): Said[] =>
	Object.values(rows).flatMap(([from, to]: readonly [number, number], n) => {
		if (from > monday + 6 || to < monday) return [];
		const days = from === to ? dated(from) : `${dated(from)} to ${dated(to)}`;
		const name = names[n] ?? '';
		return [
			says`Row ${n + 1}, ${name}, ${days}`,
			from < monday ? says`… ${n + 1} ${name}` : says`${n + 1} ${name}`
		];
	});

/** Weeks of the year: 30 November 2026 begins the 49th of 53 (ISO 8601). */
const weekNumber = (n: number) => (49 + n > 53 ? n - 4 : 49 + n);

/** On a phone a week shows the days on which something is to do or to say, and today. At the desk it shows all seven. */
function weekPart(outlook: Outlook, n: number, atDesk: boolean): Part {
	const monday = n * 7;
	const title = `Week ${weekNumber(n)}, from ${dated(monday)}`;
	const empty = (day: number) => ({ day, jobs: [], waterL: 0, away: false, levels: [] });
	const days = Array.from({ length: 7 }, (_, i) => monday + i)
		.map((day) => outlook.days.find((one) => one.day === day) ?? empty(day))
		.filter(({ day, jobs }) => atDesk || jobs.length > 0 || day === outlook.today);
	return {
		where: `section[aria-label="${title}"]`,
		says: [
			says`${title}`,
			says`${weekNumber(n)}`,
			...bandLines(outlook, monday),
			...days.flatMap((day) =>
				dayLines(
					day,
					outlook.finds.filter((find) => find.day === day.day)
				)
			),
			tideLine(outlook.days, monday)
		]
	};
}

/** The weeks of the calendar up to that of the release. */
export function weekParts(outlook: Outlook, atDesk = false): Part[] {
	const last = Math.floor(Math.max(outlook.rows.release[0], outlook.today) / 7);
	return Array.from({ length: last + 1 }, (_, n) => weekPart(outlook, n, atDesk));
}

/** The page of the run on a phone. */
export const runParts = (outlook: Outlook): Part[] => [
	...weekParts(outlook),
	{ where: 'main dl', says: factLines(outlook) },
	{ where: '.top', says: [says`Banded cardinalfish, Bay 4`, tankLine(outlook)] },
	{
		where: 'html',
		says: [
			says`Banded cardinalfish, Bay 4 · Lazaret`,
			...rowLines(outlook),
			...outlook.finds.map(({ words }) => words),
			...(outlook.today < 14 ? [] : [says`Fold ${Math.floor(outlook.today / 7)} weeks before`]),
			says`0 in the calendar does the same`
		]
	}
];
