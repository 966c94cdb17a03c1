import { dated } from './dates.ts';
import { weekParts } from './paper-calendar.ts';
import { factLines, jobsOfRow, tankLine, type Outlook } from './paper-outlook.ts';
import { says, type Said } from './says.ts';
import type { Part } from './sweep.ts';

const course = [
	'Copper for 28 days, two fluke doses inside it',
	'Copper for 14 days, then into a clean second tank',
	'Low salinity for 28 days'
];

/** The form of a new run: what was typed into it, and the examples that stand where nothing is typed. */
export const formParts = (): Part[] => [
	{
		where: 'main form',
		says: ['Bay 4', '120', '26', '34', '8.1', '4', '28', '2026-11-30', '112', '64', ...course].map(
			(text) => says`${text}`
		)
	}
];

/** What the keeper laid down in each row: begin, how long, level, how often, change, tests. */
export const laidDown = [
	['on 30 Nov', '3 d', 'NH3 daily'],
	['after 1', '28 d', '0.15-0.20 mg/L', 'ramp 3 d', '25% every 3 d', 'Cu daily, NH3 daily'],
	['with 2 + 3 d', '2 doses', '2.5 mg/L', 'every 7 d'],
	['after 2', '0.02 mg/L', '50% daily + carbon'],
	['after 4', '14 d', 'NH3 every 2 d, NO3 weekly'],
	['after 5']
];

/** What stands in the fields about tank, fish, bottles and new water, and the example behind each. */
const fields: Record<string, [typed: string, example: string]> = {
	'tank.name': ['Bay 4', ''],
	'tank.net': ['120 L', '112 L'],
	'tank.temperature': ['26 C', '26 C'],
	'tank.salinity': ['34 ppt', '34 ppt'],
	'tank.pH': ['8.1', '8.1'],
	'tank.filterClears': ['', '40 L/d'],
	'tank.evaporates': ['', '1.5 L/d'],
	'tank.heater.holdsWithin': ['', '1 C'],
	'lots.a.count': ['4', ''],
	'lots.a.mass': ['28 g', '64 g'],
	'lots.a.feed': ['', '1.6 g/d'],
	'lots.a.protein': ['', '0.09'],
	'lots.a.arrived': ['2026-11-30', ''],
	'medicines.cu.strength': ['2 mg/mL', '2 mg/mL, 1 g/g'],
	'medicines.cu.measure': ['0.1 mL', '0.1 mL'],
	'medicines.pzq.strength': ['1 g/g', '2 mg/mL, 1 g/g'],
	'medicines.pzq.measure': ['10 mg', '0.1 mL'],
	'source.ammonia': ['', '0 mg/L'],
	'source.nitrate': ['', '5 mg/L'],
	'source.salinity': ['34 ppt', '34 ppt'],
	'limits.nh3': ['', '0.02 mg/L'],
	'limits.nitrate': ['', '10 mg/L'],
	'run.name': ['Banded cardinalfish, Bay 4', ''],
	'run.service': ['08:00', '08:00']
};

const rowPart = (outlook: Outlook, n: number): Part => {
	const [name, [from, to]] = Object.entries(outlook.rows)[n] as [string, readonly [number, number]];
	// the cell that holds the keys says where it is
	const heard: Said[] = n === 2 ? [says`Change, row 3: empty`] : n === 1 ? [says`1 to settle`] : [];
	return {
		where: `table[aria-label="Phases"] tbody tr:nth-child(${n + 1})`,
		says: [
			says`${n + 1}`,
			...(laidDown[n] ?? []).map((text) => says`${text}`),
			says`${dated(from)}`,
			says`${dated(to)}`,
			jobsOfRow(outlook, name),
			...heard
		]
	};
};

/** The page of the run at the desk, once it is laid down: nothing is done yet. */
export const deskParts = (outlook: Outlook): Part[] => [
	...weekParts(outlook, true),
	{ where: 'main dl', says: factLines(outlook) },
	{ where: '.top', says: [says`Banded cardinalfish, Bay 4`, tankLine(outlook)] },
	...Object.entries(fields).map(([cell, texts]) => ({
		where: `[data-cell="${cell}"]`,
		says: texts.filter((text) => text !== '').map((text) => says`${text}`)
	})),
	...laidDown.map((_, n) => rowPart(outlook, n)),
	{
		where: 'html',
		says: [
			says`Banded cardinalfish, Bay 4 · Lazaret`,
			says`Arrow keys move, Enter or F2 edits, Escape then Tab leaves the sheet. The columns From to Check are computed; 8 columns are typed.`,
			says`Change: auto, 25% every 3 d, none`,
			says`More about row 3`,
			...outlook.finds.map(({ words }) => words),
			says`0 in the calendar does the same`
		]
	}
];

/** What was laid down before anything was done, at seven in the morning of Chicago, one in the afternoon in UTC. */
export const historyParts = (): Part[] => {
	const then = '30 Nov 2026, 13:00 UTC';
	return [
		...laidDown.map((texts, n) => ({
			where: `[aria-label="The state looked at"] tbody tr:nth-child(${n + 1})`,
			says: [says`${n + 1}`, ...texts.map((text) => says`${text}`)]
		})),
		{
			where: 'html',
			says: [
				says`History of Banded cardinalfish, Bay 4 · Lazaret`,
				says`History of Banded cardinalfish, Bay 4`,
				says`As of ${then}, after keeper changed it`,
				says`Tank Bay 4 · Net volume 120 L · Temperature 26 C · Salinity 34 ppt · pH 8.1 · Aeration coarse · Substrate none`,
				says`${then}`,
				says`Row 2, Change: auto → 25% every 3 d`,
				says`Bottle 2, strength: nothing → 1 g/g`,
				says`Bottle 1, strength: nothing → 2 mg/mL`
			]
		}
	];
};
