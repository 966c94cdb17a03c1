import { RRule } from 'rrule';
import { describe, expect, it } from 'vitest';
import { dayNumber, dayText, expandRule } from '../index.ts';

const days = (rule: string, from: string, span: number) =>
	expandRule(rule, dayNumber(from), span).map(dayText);

describe('a repeat rule', () => {
	// RFC 5545, section 3.8.5.3, the examples given there for DTSTART 1997-09-02 (a Tuesday), whole days only.
	it.each([
		['FREQ=DAILY;COUNT=3', ['1997-09-02', '1997-09-03', '1997-09-04']],
		[
			'FREQ=DAILY;INTERVAL=10;COUNT=5',
			['1997-09-02', '1997-09-12', '1997-09-22', '1997-10-02', '1997-10-12']
		],
		['FREQ=WEEKLY;COUNT=3', ['1997-09-02', '1997-09-09', '1997-09-16']],
		[
			'FREQ=WEEKLY;INTERVAL=2;WKST=SU;BYDAY=TU,TH;COUNT=8',
			[
				'1997-09-02',
				'1997-09-04',
				'1997-09-16',
				'1997-09-18',
				'1997-09-30',
				'1997-10-02',
				'1997-10-14',
				'1997-10-16'
			]
		],
		['FREQ=MONTHLY;BYMONTHDAY=-3;COUNT=3', ['1997-09-28', '1997-10-29', '1997-11-28']],
		['FREQ=MONTHLY;BYMONTHDAY=2,15;COUNT=4', ['1997-09-02', '1997-09-15', '1997-10-02', '1997-10-15']],
		['FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13', ['1998-02-13', '1998-03-13']],
		['FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2;COUNT=3', ['1997-09-29', '1997-10-30', '1997-11-27']],
		['FREQ=WEEKLY;UNTIL=19970917T000000Z', ['1997-09-02', '1997-09-09', '1997-09-16']]
	])('%s falls where the standard says', (rule, expected) => {
		expect(days(rule, '1997-09-02', 300)).toEqual(expected);
	});

	it.each(['2026-11-27', '2028-02-29', '2099-11-30', '2100-01-01', '1999-12-31', '2196-02-29'])(
		'falls from %s on as rrule itself has it',
		(from) => {
			const start = new Date(`${from}T00:00:00Z`);
			const end = new Date(start.getTime() + 400 * 86_400_000);
			for (const rule of [
				'FREQ=WEEKLY;BYDAY=MO,TH',
				'FREQ=YEARLY;BYYEARDAY=-1,60',
				'FREQ=YEARLY;BYWEEKNO=1,53;BYDAY=SU',
				'FREQ=MONTHLY;BYDAY=-1FR',
				'FREQ=YEARLY'
			]) {
				const bare = new RRule({ ...RRule.parseString(rule), dtstart: start }).between(start, end, true);
				expect([rule, days(rule, from, 400)]).toEqual([
					rule,
					bare.map((date) => date.toISOString().slice(0, 10))
				]);
			}
		}
	);

	it('that never falls is soon known to', () => {
		const began = performance.now();
		expect(days('FREQ=DAILY;INTERVAL=7;BYDAY=MO', '2026-11-27', 400)).toEqual([]);
		expect(days('FREQ=DAILY;UNTIL=20260101', '2026-11-27', 400)).toEqual([]);
		// rrule alone needs over a second for the first; the margin is for a busy machine
		expect(performance.now() - began).toBeLessThan(500);
	});
});
