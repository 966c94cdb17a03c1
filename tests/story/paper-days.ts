import { dated, fullDay, isoDay } from './dates.ts';
import { says } from './says.ts';
import type { Part } from './sweep.ts';

const name = 'Banded cardinalfish, Bay 4';
/** Days in a row that nobody comes, and their tests: a test vouches for 48 h (common practice, no source). */
const awayPart = (day: number, days: readonly number[], fallen: number): Part => ({
	where: `section[aria-label="${fullDay(day)}"]`,
	says: [
		says`${fullDay(day)}`,
		says`${name}`,
		says`Test Cu, NH3`,
		says`Nobody is there on ${dated(day)}, when a job falls due: test Cu, NH3. A test vouches for 48 h: those of ${dated(Math.min(...days) - 1)} and ${dated(Math.max(...days) + 1)} cover it, if both are made. By the forecast ionic copper falls under 0.15 mg/L by ${dated(fallen)} all the same: no day on which it does counts, unless the test of ${dated(Math.max(...days) + 1)} reads it inside.`,
		says`Not away on ${dated(day)} in ${name}`
	]
});

/** The page of days away the day before: the form offers tomorrow. `fallen`: when copper is forecast to be under its floor. */
export const awayParts = (days: readonly number[], fallen: number): Part[] => [
	...days.map((day) => awayPart(day, days, fallen)),
	{ where: 'html', says: [says`${isoDay(days[0] ?? 0)}`, says`${name}`] }
];
