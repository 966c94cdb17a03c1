import { dated, fullDay, isoDay } from './dates.ts';
import { says } from './says.ts';
import type { Part } from './sweep.ts';

const name = 'Banded cardinalfish, Bay 4';
/** A day nobody comes and its test: a test vouches for 48 h (common practice, no source). */
const awayPart = (day: number): Part => ({
	where: `section[aria-label="${fullDay(day)}"]`,
	says: [
		says`${fullDay(day)}`,
		says`${name}`,
		says`Test Cu, NH3`,
		says`Nobody is there on ${dated(day)}, when a job falls due: test Cu, NH3. A test vouches for 48 h: those of the day before and the day after cover it, if both are made.`,
		says`Not away on ${dated(day)} in ${name}`
	]
});

/** The page of days away the day before: the form offers tomorrow. */
export const awayParts = (days: readonly number[]): Part[] => [
	...days.map(awayPart),
	{ where: 'html', says: [says`${isoDay(days[0] ?? 0)}`, says`${name}`] }
];
