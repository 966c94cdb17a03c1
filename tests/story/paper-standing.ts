import { datedOn } from './dates.ts';
import type { Find, Outlook } from './paper-outlook.ts';
import { rowsOf } from './paper-rows.ts';
import { between, line, says } from './says.ts';

/** The day on which the fish of the tenth day joins, and the first whole one after it. */
const joined = 9;

/**
 * The last day of 28 of copper, counted from the first service from which on the floor is kept: that of the sixth day as
 * planned; a day later once its dose is not given at its hour; from the ninth day on, once two low readings were made up for; from the day after the new fish.
 */
export function copperTo(today: number, fish: number): number {
	if (fish > 4) return joined + 1 + 27;
	if (today < 5) return 5 + 27;
	return (today < 7 ? 6 : 8) + 27;
}

/** Whole days of copper that count by the evening: each after the first in which the next service came. */
const creditOf = (today: number, fish: number): number => {
	if (fish > 4) return Math.min(28, Math.max(0, today - (joined + 1)));
	return today === joined ? 1 : 0;
};

/** What the checks find by the evening of a day; `fish`: how many there are. */
function findsOf(today: number, fish: number): Find[] {
	// a colour card shows steps of 0.05 (from memory), and the window is as wide
	const card = says`Row 2. A colour card for ionic copper tells 0.05 mg/L apart; the window is 0.05 wide.`;
	const on = (day: number) => datedOn(day, today);
	// read at 0.14 mg/L in the evening, and by the morning perhaps as much less as in the night before
	const level = today < 8 ? between((0.14 * 0.12) / 0.18, 0.14, 3) : '0.14';
	const falls = ['Ionic copper falls to ', level, ` mg/L on ${on(8)}, under the floor of 0.15 mg/L.`];
	const low: Find = {
		day: 8,
		severity: 'caution',
		words: line(`Row 2, ${on(8)}. `, ...falls),
		heard: ['caution: ', ...falls]
	};
	// of copper 0.10 mg/L is the most that a fish should meet at once (judgment, no source)
	// made up to 0.18 mg/L at eight, and by five in the afternoon nine hours of a loss of at most a tenth a day (judgment, no source)
	const met = between(0.18 * 0.9 ** (9 / 24), 0.18, 3);
	const most = [
		'Banded cardinalfish would go into ',
		met,
		` mg/L of copper on ${on(joined)}; 0.1 mg/L is the most to meet at once.`
	];
	const came = `Banded cardinalfish join on ${on(joined)}, after row 2 (hold) began on ${on(3)}.`;
	const late: Find[] = [
		{
			day: joined,
			severity: 'stop',
			words: line(`Row 2, ${on(joined)}. `, ...most),
			heard: ['stop: ', ...most]
		},
		{ day: joined, severity: 'note', words: says`Row 2, ${on(joined)}. ${came}`, heard: [`note: ${came}`] }
	];
	return [
		...(today > 6 ? [low] : []),
		...(fish > 4 ? late : []),
		{ day: null, severity: 'note', words: card, heard: [] }
	];
}

/** How the run stands on an evening, but for its days. */
export const standing = (today: number, fish: number): Omit<Outlook, 'days'> => ({
	today,
	// on the forty-third day the kit shows 0.03 mg/L, so that a day of washing out is added
	rows: rowsOf(copperTo(today, fish), today < 42 ? 5 : 6),
	fish: { count: fish, grams: fish > 4 ? 32 : 28 },
	credit: creditOf(today, fish),
	finds: findsOf(today, fish)
});
