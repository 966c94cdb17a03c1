import { dated, shortDay } from './dates.ts';
import type { CourseDay, CourseJob } from './paper-course.ts';
import type { Rows } from './paper-rows.ts';
import { between, says, type Hole, type Said } from './says.ts';
import type { Part } from './sweep.ts';

/** What the checks find, as the page of the run has it. */
export interface Find {
	/** null: of no single day */
	day: number | null;
	words: Said;
	/** a note asks for nothing to be settled */
	severity: 'stop' | 'caution' | 'note';
	/** how it is spoken with its day */
	heard: readonly (string | Hole)[];
}

/** The whole run as it stands on the evening of a day: what lies behind as it was done, what lies ahead as it is planned. */
export interface Outlook {
	today: number;
	rows: Rows;
	days: readonly CourseDay[];
	fish: { count: number; grams: number };
	/** whole days of copper that count */
	credit: number;
	finds: readonly Find[];
}

/** How many jobs a day has; some nobody can tell yet. */
type Count = readonly [least: number, most: number];
const countOf = (jobs: readonly CourseJob[]): Count => [
	jobs.filter(({ perhaps }) => !perhaps).length,
	jobs.length
];
const counted = ([least, most]: Count): Hole => between(least, most, 0);
const allJobs = (days: readonly CourseDay[]) => days.flatMap(({ jobs }) => jobs);
/** Jobs that wait: all that lie ahead, and what is open today. */
const waiting = ({ days, today }: Outlook) =>
	days.flatMap(({ day, jobs }) => jobs.filter(({ open }) => day > today || open));
const waterOf = (days: readonly CourseDay[]) => days.reduce((sum, { waterL }) => sum + waterL, 0);

/** What stands over the sheet: release, jobs left of all, new water, days of copper in range, what is to settle. */
export const factLines = (outlook: Outlook): Said[] => [
	says`${dated(outlook.rows.release[0])}`,
	says`${counted(countOf(waiting(outlook)))} / ${counted(countOf(allJobs(outlook.days)))}`,
	says`${Math.round(waterOf(outlook.days))} L`,
	says`${outlook.credit} / 28 d`,
	says`${outlook.finds.filter(({ severity }) => severity !== 'note').length}`
];

export const tankLine = ({ fish }: Outlook): Said =>
	says`Tank Bay 4 · 120 L net · 26.0 °C · 34 ppt · pH 8.1 · ${fish.count} fish, ${fish.grams} g`;

/** How many jobs are a row's own. */
export const jobsOfRow = ({ days }: Outlook, name: string): Said =>
	says`${counted(countOf(allJobs(days).filter(({ row }) => row === name)))}`;

/** The rows of the sheet, folded on a phone: number, first and last day, how many jobs are its own. */
export const rowLines = ({ rows, days }: Outlook): Said[] =>
	Object.entries(rows).flatMap(([name, [from, to]]: [string, readonly [number, number]], n) => {
		const own = countOf(allJobs(days).filter(({ row }) => row === name));
		return [says`${n + 1}`, says`${dated(from)} to ${dated(to)}, ${counted(own)} tasks`];
	});

const bandNames = ['Settle', 'Ionic copper', 'Praziquantel', 'Washout', 'Observe', 'Release'];

const bandLines = ({ rows }: Outlook): Said[] =>
	Object.values(rows).map(([from, to]: readonly [number, number], n) => {
		const name = `${n + 1} ${bandNames[n]}`;
		return from === to ? says`${name}, ${dated(from)}` : says`${name}, ${dated(from)} to ${dated(to)}`;
	});

/** What waits to be settled: jobs whose hour is over, stops and cautions. */
const settleLine = ({ finds, days, today }: Outlook): Said[] => {
	const open = days[today]?.jobs.filter((job) => job.open).length ?? 0;
	const count = (one: string) => finds.filter(({ severity }) => severity === one).length;
	const told = (['stop', 'caution'] as const).flatMap((one) =>
		count(one) > 0 ? [`${count(one)} ${one}${count(one) > 1 ? 's' : ''}`] : []
	);
	if (open > 0) told.unshift(`${open} open job${open > 1 ? 's' : ''}`);
	return told.length > 0 ? [says`${told.join(' ')}`] : [];
};

/** All runs against the days: one tank, its rows as bands, its jobs and its new water a day. */
export function rosterParts(outlook: Outlook): Part[] {
	const { days, today, rows } = outlook;
	const counts = days.map(({ jobs }) => countOf(jobs));
	const most: Count = [Math.max(...counts.map(([few]) => few)), Math.max(...counts.map(([, many]) => many))];
	const week = days.filter(({ day }) => day >= today && day < today + 7);
	return [
		{ where: '.bands', says: bandLines(outlook) },
		{
			where: 'li.jobs',
			says: days.map(({ day, jobs }) => says`${dated(day)}: ${counted(countOf(jobs))}`)
		},
		{
			where: 'li.waterL',
			says: days.map(({ day, waterL }) => says`${dated(day)}: ${waterL > 0 ? `${waterL} L` : '–'}`)
		},
		...week.map(({ day, jobs, waterL }, n) => ({
			where: `section table tbody tr:nth-child(${n + 1})`,
			says: [
				says`${shortDay(day)}${day === today ? ', today' : ''}`,
				says`${counted(countOf(jobs))}`,
				...(waterL > 0 ? [says`${waterL} L`] : [])
			]
		})),
		{
			where: 'html',
			says: [
				says`Banded cardinalfish, Bay 4`,
				says`Bay 4`,
				says`Release ${dated(rows.release[0])}`,
				...settleLine(outlook),
				says`Jobs a day, at most ${counted(most)}`,
				says`New water a day, at most ${Math.max(...days.map(({ waterL }) => waterL))} L`
			]
		}
	];
}
