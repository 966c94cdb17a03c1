import { dated, fullDay } from './dates.ts';
import { factLines, outlook, rowLines, tideLine } from './paper-outlook.ts';
import { says, type Said } from './says.ts';
import type { Part } from './sweep.ts';

const { rows, isChange, waterL, within, release } = outlook;

/** The words of a day's chips, spoken with the kind in front; what has an amount shows it. */
function chips(day: number): { spoken: string; shown: string }[] {
	const plain = (spoken: string) => ({ spoken, shown: '' });
	const litres = `${waterL(day)} L`;
	if (day === 0)
		return [
			plain('Test NH₃'),
			{ spoken: 'Move Take in 4 banded cardinalfish', shown: 'Take in 4 banded cardinalfish' }
		];
	if (day < 3) return [...(day === 2 ? [plain('Look Look')] : []), plain('Test NH₃')];
	if (within(day, rows.copper)) {
		const mL = day < 6 ? '3.6' : '2.7';
		const dose = day < 6 || isChange(day) ? [{ spoken: `Dose Cu ${mL} mL`, shown: `Cu ${mL} mL` }] : [];
		const change = isChange(day) ? [{ spoken: `Change water ${litres}`, shown: litres }] : [];
		const fluke = (rows.flukes as readonly number[]).includes(day)
			? [{ spoken: 'Dose PZQ 300 mg', shown: 'PZQ 300 mg' }]
			: [];
		return [plain('Test Cu · NH₃'), ...change, ...dose, ...fluke];
	}
	if (within(day, rows.wash)) {
		const wash =
			day < rows.wash[1]
				? [{ spoken: `Wash out ${litres}`, shown: litres }]
				: [plain('Equipment carbon out')];
		return [plain('Test Cu'), ...wash, ...(day === rows.wash[0] ? [plain('Equipment carbon in')] : [])];
	}
	if (day === release)
		return [plain('Release'), plain('Clean Strip, disinfect and dry the tank and its tools')];
	const n = day - rows.watch[0] + 1;
	const what = [...(n % 2 === 1 && n < 14 ? ['NH₃'] : []), ...(n % 7 === 1 ? ['NO₃'] : [])];
	return [
		...(n === 14 ? [plain('Look Look')] : []),
		...(what.length > 0 ? [plain(`Test ${what.join(' · ')}`)] : []),
		...(waterL(day) > 0 ? [{ spoken: `Change water ${litres}`, shown: litres }] : [])
	];
}

const names = [
	'Settle',
	'Ionic copper, hold 0.15–0.20 mg/L',
	'Praziquantel, pulse 2 × 2.5 mg/L',
	'Washout',
	'Observe',
	'Release'
];

/** The rows of the sheet as bands of a week; one that began before says so. */
const bandLines = (monday: number): Said[] =>
	Object.values(rows).flatMap(([from, to], n) => {
		if (from > monday + 6 || to < monday) return [];
		const days = from === to ? dated(from) : `${dated(from)} to ${dated(to)}`;
		const name = names[n] ?? '';
		return [
			says`Row ${n + 1}, ${name}, ${days}`,
			from < monday ? says`… ${n + 1} ${name}` : says`${n + 1} ${name}`
		];
	});

function dayLines(day: number): Said[] {
	const own = chips(day);
	const date = dated(day).split(' ')[0] ?? '';
	const spoken = own.map((chip) => chip.spoken).join(', ');
	return [
		says`${fullDay(day)}. ${spoken}`,
		says`${date}`,
		...own.flatMap(({ shown }) => (shown ? [says`${shown}`] : []))
	];
}

/** Weeks of the year: 30 November 2026 begins the 49th of 53 (ISO 8601). */
const weekNumber = (n: number) => (49 + n > 53 ? n - 4 : 49 + n);

function weekPart(n: number): Part {
	const monday = n * 7;
	const title = `Week ${weekNumber(n)}, from ${dated(monday)}`;
	const days = Array.from({ length: 7 }, (_, i) => monday + i).filter(
		(day) => day <= release && chips(day).length > 0
	);
	return {
		where: `section[aria-label="${title}"]`,
		says: [
			says`${title}`,
			says`${weekNumber(n)}`,
			...bandLines(monday),
			...days.flatMap(dayLines),
			tideLine(monday)
		]
	};
}

/** The page of the run on the evening of the fifth day, on a phone. */
export const runParts = (): Part[] => [
	...Array.from({ length: Math.floor(release / 7) + 1 }, (_, n) => weekPart(n)),
	{ where: 'main dl', says: factLines() },
	{
		where: '.top',
		says: [
			says`Banded cardinalfish, Bay 4`,
			says`Tank Bay 4 · 120 L net · 26.0 °C · 34 ppt · pH 8.1 · 4 fish, 28 g`
		]
	},
	{
		where: 'html',
		says: [
			says`Banded cardinalfish, Bay 4 · Lazaret`,
			...rowLines(),
			// a colour card shows steps of 0.05 (from memory), and the window is as wide
			says`Row 2. A colour card for ionic copper tells 0.05 mg/L apart; the window is 0.05 wide.`,
			says`0 in the calendar does the same`
		]
	}
];
