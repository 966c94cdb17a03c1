import { describe, expect, it } from 'vitest';
import { instantIn, wallClock } from './moment.ts';

/** Offsets of the IANA time zone database: Chicago -06:00 in winter, -05:00 in summer; Kathmandu +05:45. */
describe('a moment on the keeper’s clock', () => {
	it.each([
		['America/Chicago', '2026-12-03', '08:05', '2026-12-03T08:05:00-06:00'],
		['America/Chicago', '2026-07-03', '08:05', '2026-07-03T08:05:00-05:00'],
		['Asia/Kathmandu', '2026-12-03', '00:10', '2026-12-03T00:10:00+05:45'],
		['UTC', '2026-12-03', '23:59', '2026-12-03T23:59:00Z'],
		// the clock jumps from 02:00 to 03:00
		['America/Chicago', '2027-03-14', '02:30', '2027-03-14T03:30:00-05:00']
	])('in %s, %s %s is %s', (zone, day, time, at) => {
		expect(instantIn(zone, day, time)).toEqual({ at, atMs: Date.parse(at) });
	});

	it('is read back as it was written', () => {
		for (const zone of ['America/Chicago', 'Asia/Kathmandu', 'UTC', 'Pacific/Kiritimati'])
			for (const time of ['00:00', '07:59', '23:30'])
				expect(wallClock(zone, instantIn(zone, '2026-12-03', time).atMs)).toEqual({
					day: '2026-12-03',
					time
				});
	});
});
