import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dayOfInstant, momentOf, wallOfInstant } from './clock.ts';

const zones = [
	'UTC',
	'America/Chicago',
	'Pacific/Auckland',
	'Asia/Kathmandu',
	'Australia/Lord_Howe'
] as const;

/** The same instant by the platform's own calendar (ICU), which the planner does not use. */
function byPlatform(zone: string, atMs: number): string {
	const format = new Intl.DateTimeFormat('en-CA', {
		timeZone: zone,
		hourCycle: 'h23',
		dateStyle: 'short',
		timeStyle: 'medium'
	});
	return format.format(atMs).replace(',', '');
}

test('law: an instant falls on the day and hour of its zone, whichever zone asked for it before', () => {
	const from = Date.parse('2020-01-01T00:00:00Z');
	const to = Date.parse('2035-01-01T00:00:00Z');
	const seconds = fc.integer({ min: from / 1000, max: to / 1000 });
	fc.assert(
		fc.property(fc.shuffledSubarray([...zones], { minLength: 2 }), seconds, (asked, second) => {
			const atMs = second * 1000;
			for (const zone of [...asked, ...asked]) {
				const wall = new Date(Math.round(wallOfInstant(zone, atMs) * 86_400) * 1000).toISOString();
				const { date, time, at } = momentOf(zone, atMs);
				expect(wall.slice(0, 19).replace('T', ' ')).toBe(byPlatform(zone, atMs));
				expect(`${date} ${time}`).toBe(byPlatform(zone, atMs).slice(0, 16));
				expect(dayOfInstant(zone, atMs) * 86_400_000).toBe(Date.parse(`${date}T00:00:00Z`));
				expect(Date.parse(at)).toBe(atMs);
			}
		}),
		{ seed: 20, numRuns: 300 }
	);
});

test('a zone that is none throws each time it is asked for', () => {
	for (let n = 0; n < 2; n++) expect(() => dayOfInstant('No/Zone', 0)).toThrow(RangeError);
});
