import ICAL from 'ical.js';
import { expect, test } from 'vitest';
import { plan } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import { planToIcs } from './ics.ts';

/** The starts in the file of a plan that tests once a day from `from`, as ical.js reads them, by UID. */
function startsOf(timeZone: string, service: string, from: string, days = 4): [string, string][] {
	const document = {
		format: 'lazaret-plan/1',
		id: 'quay',
		name: 'Quay',
		timeZone,
		service,
		tank: { name: 'Q7', net: '112 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1, aeration: 'coarse' },
		phases: [{ id: 'settle', kind: 'settle', starts: `on ${from}`, lasts: `${days} d`, test: 'NH3 daily' }]
	};
	const now = `${from}T00:00:00Z`;
	const run = readRun(document, { today: null });
	const text = planToIcs(run, plan(run, now), { now, kinds: ['test'] });
	const calendar = new ICAL.Component(ICAL.parse(text) as ConstructorParameters<typeof ICAL.Component>[0]);
	return calendar
		.getAllSubcomponents('vevent')
		.map((event) => [
			String(event.getFirstPropertyValue('uid')),
			String(event.getFirstPropertyValue('dtstart')).slice(0, 16)
		]);
}

const uids = [1, 2, 3, 4].map((n) => `settle/test/${n}@quay`);

// offsets of the IANA time zone database: New York -5/-4, Sydney +10/+11, Lord Howe +10:30/+11, Apia -10 then +14
test.each([
	['America/New_York', '2027-03-12', ['12T13:00', '13T13:00', '14T12:00', '15T12:00']],
	['America/New_York', '2027-11-05', ['05T12:00', '06T12:00', '07T13:00', '08T13:00']],
	['Australia/Sydney', '2027-04-02', ['01T21:00', '02T21:00', '03T22:00', '04T22:00']],
	['Australia/Sydney', '2027-10-01', ['30T22:00', '01T22:00', '02T21:00', '03T21:00']],
	['Australia/Lord_Howe', '2027-04-02', ['01T21:00', '02T21:00', '03T21:30', '04T21:30']],
	['Australia/Lord_Howe', '2027-10-01', ['30T21:30', '01T21:30', '02T21:00', '03T21:00']]
])('eight in the morning stays eight over a change of the clocks, %s from %s', (zone, from, starts) => {
	const seen = startsOf(zone, '08:00', from);
	expect(seen.map(([uid]) => uid)).toEqual(uids);
	expect(seen.map(([, start]) => start.slice(8))).toEqual(starts);
});

test.each([
	// 02:30 is not on the clock that day: the hour is gone, the job is not
	['02:30', '2027-03-13', ['2027-03-13T07:30', '2027-03-14T07:30', '2027-03-15T06:30', '2027-03-16T06:30']],
	// 01:30 is on it twice: the first of the two
	['01:30', '2027-11-06', ['2027-11-06T05:30', '2027-11-07T05:30', '2027-11-08T06:30', '2027-11-09T06:30']]
])('%s in New York from %s is one job each day', (service, from, starts) => {
	expect(startsOf('America/New_York', service, from)).toEqual(uids.map((uid, n) => [uid, starts[n]]));
});

// Samoa left out 30 December 2011 when it crossed the date line
test('a day that a country left out keeps its job, at the moment it would have been', () => {
	const seen = startsOf('Pacific/Apia', '08:00', '2011-12-29');
	expect(seen).toEqual([
		[uids[0], '2011-12-29T18:00'],
		[uids[1], '2011-12-30T18:00'],
		[uids[2], '2011-12-30T18:00'],
		[uids[3], '2011-12-31T18:00']
	]);
});
