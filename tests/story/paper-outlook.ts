import { dated, shortDay } from './dates.ts';
import { toxicShare } from './hand-tank.ts';
import { says, type Hole, type Said } from './says.ts';
import type { Part } from './sweep.ts';

/**
 * The whole run as paper has it on the evening of the fifth day, two doses given as planned and no reading off: copper
 * to its 28th day, four halvings and a test, fourteen days of watching with two changes of a fifth, a release.
 */
const rows = {
	settle: [0, 2],
	copper: [3, 32],
	flukes: [6, 13],
	wash: [33, 37],
	watch: [38, 51],
	release: [52, 52]
} as const;
const litres = 120;
const tanMgPerDay = 2.8;
/** A fifth each: the seventh day after the last halving, and the seventh after that. */
const watchChanges = [43, 50];

const within = (day: number, [from, to]: readonly [number, number]) => day >= from && day <= to;
const isChange = (day: number) => within(day, rows.copper) && day > 3 && day % 3 === 0;

/** New water of a day, in litres. */
function waterL(day: number): number {
	if (isChange(day)) return 30;
	if (within(day, rows.wash) && day < 37) return 60;
	return watchChanges.includes(day) ? 24 : 0;
}

/** Jobs of a day: a test counts once, whatever it measures. */
function jobs(day: number): number {
	if (day < 3) return day === 1 ? 1 : 2;
	if (within(day, rows.copper)) {
		const rising = day < 6 ? 1 : 0;
		const fluke = (rows.flukes as readonly number[]).includes(day) ? 1 : 0;
		return 1 + rising + (isChange(day) ? 2 : 0) + fluke;
	}
	if (within(day, rows.wash)) return 2 + (day === 33 ? 1 : 0);
	const n = day - 37;
	if (day === 52) return 2;
	const tests = (n % 2 === 1 && n < 14) || n % 7 === 1 ? 1 : 0;
	return tests + (watchChanges.includes(day) ? 1 : 0) + (n === 14 ? 1 : 0);
}

const all = Array.from({ length: rows.release[1] + 1 }, (_, day) => day);
const total = (of: (day: number) => number, from = 0) =>
	all.slice(from).reduce((sum, day) => sum + of(day), 0);

/** Jobs that are logged by then: those of the first five days. */
const done = total(jobs) - total(jobs, 5);

/** What stands over the sheet: release, jobs left of all, new water, days of copper in range, what is to settle. */
export const factLines = (): Said[] => [
	says`${dated(rows.release[0])}`,
	says`${total(jobs) - done} / ${total(jobs)}`,
	says`${total(waterL)} L`,
	says`0 / 28 d`,
	says`0`
];

/** The rows of the sheet, folded on a phone: number, first and last day, how many jobs are its own. */
export function rowLines(): Said[] {
	const own = (from: number, to: number) => total(jobs, from) - total(jobs, to + 1);
	const flukes = rows.flukes.length;
	const spans = Object.entries(rows).map(([name, [from, to]], n) => {
		const mine = name === 'flukes' ? flukes : own(from, to) - (name === 'copper' ? flukes : 0);
		return [says`${n + 1}`, says`${dated(from)} to ${dated(to)}, ${mine} tasks`];
	});
	return spans.flat();
}

/** All runs against the days: one tank, its rows as bands, its jobs and its new water a day. */
export const rosterParts = (today: number): Part[] => {
	const most = (of: (day: number) => number) => Math.max(...all.map(of));
	const litresOf = (day: number) => (waterL(day) > 0 ? `${waterL(day)} L` : '–');
	const week = all.slice(today, today + 7);
	return [
		{ where: '.bands', says: bandLines() },
		{ where: 'li.jobs', says: all.map((day) => says`${dated(day)}: ${jobs(day)}`) },
		{ where: 'li.waterL', says: all.map((day) => says`${dated(day)}: ${litresOf(day)}`) },
		{
			where: 'html',
			says: [
				says`Banded cardinalfish, Bay 4`,
				says`Bay 4`,
				says`Release ${dated(rows.release[0])}`,
				says`Jobs a day, at most ${most(jobs)}`,
				says`New water a day, at most ${most(waterL)} L`,
				...week.map((day) => says`${shortDay(day)}${day === today ? ', today' : ''}`),
				...new Set(week.map(jobs)).values().map((count) => says`${count}`),
				...new Set(week.map(waterL).filter((count) => count > 0)).values().map((count) => says`${count} L`)
			]
		}
	];
};

const bandNames = ['Settle', 'Ionic copper', 'Praziquantel', 'Washout', 'Observe', 'Release'];

const bandLines = (): Said[] =>
	Object.values(rows).map(([from, to], n) => {
		const name = `${n + 1} ${bandNames[n]}`;
		return from === to ? says`${name}, ${dated(from)}` : says`${name}, ${dated(from)} to ${dated(to)}`;
	});

interface Sample {
	day: number;
	toxic: number;
	copper: number;
	praziquantel: number;
}

/** Levels in mg/L before and after the jobs of each day. */
function samples(): Sample[] {
	const found: Sample[] = [];
	let [tan, copper, praziquantel] = [0, 0, 0];
	for (const day of all) {
		if (day > 0) tan += tanMgPerDay;
		const note = () =>
			found.push({
				day,
				toxic: (tan / litres) * toxicShare,
				copper: copper / litres,
				praziquantel: praziquantel / litres
			});
		note();
		const kept = 1 - waterL(day) / litres;
		[tan, copper, praziquantel] = [tan * kept, copper * kept, praziquantel * kept];
		if (within(day, rows.copper)) copper = Math.min(0.06 * (day - 2), 0.18) * litres;
		if ((rows.flukes as readonly number[]).includes(day)) praziquantel += 2.5 * litres;
		note();
	}
	return found;
}

/** Two digits that count; a day of the fish is known to half a thousandth of the 0.023 mg/L it adds, which is 2.2 %. */
const rough = (value: number, share: number): Hole => {
	const half = 0.5 * 10 ** (Math.floor(Math.log10(value || 1)) - 1);
	return {
		text: String(Number(value.toPrecision(2))),
		pattern: '[\\d.]+',
		fits: (seen) => Math.abs(Number(seen) - value) <= value * share + half + 1e-9
	};
};

/** The strip under a week: the least and the most of each level, drawn from the last service before it to the first after it. */
export function tideLine(monday: number): Said {
	const own = samples().filter(({ day }) => day >= monday && day < monday + 7);
	const before = samples().findLast(({ day }) => day < monday);
	const after = samples().find(({ day }) => day >= monday + 7);
	const seen = [...(before ? [before] : []), ...own, ...(after ? [after] : [])];
	const [least, most] = [
		(of: (one: Sample) => number) => Math.min(...seen.map(of)),
		(of: (one: Sample) => number) => Math.max(...seen.map(of))
	];
	const toxic = ({ toxic }: Sample) => toxic;
	const copper = ({ copper }: Sample) => copper;
	const praziquantel = ({ praziquantel }: Sample) => praziquantel;
	return says`Forecast from ${dated(monday)} to ${dated(monday + 6)}: Toxic ammonia (NH₃-N) ${rough(least(toxic), 0.022)} to ${rough(most(toxic), 0.022)} mg/L, limit 0.02; Ionic copper ${rough(least(copper), 0)} to ${rough(most(copper), 0)} mg/L; Praziquantel ${rough(least(praziquantel), 0)} to ${rough(most(praziquantel), 0)} mg/L.`;
}

/** The bones of it, for the calendar. */
export const outlook = { rows, isChange, waterL, within, release: rows.release[0] };
