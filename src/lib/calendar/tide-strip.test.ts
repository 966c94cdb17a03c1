import { expect, test } from 'vitest';
import { figure } from './gauge.ts';
import { dayPosition } from './tide-strip.ts';

const hour = 3_600_000;
/** Eight midnights; `lengths` are the hours of the days between them. */
const midnights = (lengths: number[]) =>
	lengths.reduce((all, hours) => [...all, (all.at(-1) ?? 0) + hours * hour], [0]);

// a day keeps its width when the clock changes: noon of a 23 h day, where the clock went forward in the night, is 11 h
// after its midnight
test.each([
	[[24, 24, 24, 24, 24, 24, 24], 36, 1.5],
	[[23, 24, 24, 24, 24, 24, 24], 11.5, 0.5],
	[[23, 24, 24, 24, 24, 24, 24], 35, 1.5],
	[[25, 24, 24, 24, 24, 24, 24], 25, 1],
	[[24, 24, 24, 24, 24, 24, 24], -12, -0.5],
	[[24, 24, 24, 24, 24, 24, 24], 192, 8]
])('in days of %j hours, %d h is day %d', (lengths, hours, day) => {
	expect(dayPosition(midnights(lengths), hours * hour)).toBeCloseTo(day, 12);
});

test.each([
	[0, '0'],
	[0.0186, '0.019'],
	[0.2, '0.2'],
	[2.5, '2.5'],
	[31.62, '32'],
	[488.4, '488'],
	[1234, '1230']
])('%d is read as %s', (level, text) => expect(figure(level)).toBe(text));
