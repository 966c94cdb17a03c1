import { describe, expect, it } from 'vitest';
import { canonicalCell, printCell, readCell, type CellColumn, type CellContext } from '../index.ts';

// Rows 1 to 3 of the sheet, two medicines, and a day in November.
const sheet: CellContext = {
	rows: ['settle', 'copper', 'flukes'],
	medicines: ['cu', 'pz', 'fo'],
	counted: 'mass',
	kind: 'hold',
	today: '2026-11-25'
};
const file: CellContext = { ...sheet, today: null };
const salty: CellContext = { ...sheet, kind: 'low-salinity' };
const whole: CellContext = { ...sheet, counted: 'whole' };
const food: CellContext = { ...sheet, kind: 'feed' };

// column | typed | shown in the sheet | kept in the file
const readable: [CellColumn, string, string, string, CellContext?][] = [
	['starts', 'on 27 Nov', 'on 27 Nov 2026', 'on 2026-11-27'],
	['starts', '27 nov', 'on 27 Nov 2026', 'on 2026-11-27'],
	['starts', 'Nov 27, 2026', 'on 27 Nov 2026', 'on 2026-11-27'],
	['starts', 'on November 27th', 'on 27 Nov 2026', 'on 2026-11-27'],
	['starts', 'Fri 27 Nov', 'on 27 Nov 2026', 'on 2026-11-27'],
	['starts', '11/27/2026', 'on 27 Nov 2026', 'on 2026-11-27'],
	['starts', '27.11.2026', 'on 27 Nov 2026', 'on 2026-11-27'],
	['starts', '2026-11-27', 'on 27 Nov 2026', 'on 2026-11-27'],
	['starts', 'on 3 Jan', 'on 3 Jan 2027', 'on 2027-01-03'],
	['starts', 'on 3 Sept', 'on 3 Sep 2026', 'on 2026-09-03'],
	['starts', 'on 4/4/2027', 'on 4 Apr 2027', 'on 2027-04-04'],
	['starts', 'on 29 Feb', 'on 29 Feb 2028', 'on 2028-02-29'],
	['starts', 'after 2', 'after 2', 'after copper'],
	['starts', '  AFTER   2 ', 'after 2', 'after copper'],
	['starts', 'after Copper', 'after 2', 'after copper'],
	['starts', 'after row 2', 'after 2', 'after copper'],
	['starts', 'after 2+1d', 'after 2 + 1 d', 'after copper + 1 d'],
	['starts', 'after 2 + 1 week', 'after 2 + 7 d', 'after copper + 7 d'],
	['starts', 'with 2 + 2 d', 'with 2 + 2 d', 'with copper + 2 d'],
	['starts', 'with 2 + 0 d', 'with 2', 'with copper'],
	['lasts', '14 d', '14 d', '14 d'],
	['lasts', '14 Days', '14 d', '14 d'],
	['lasts', '3 wk', '21 d', '21 d'],
	['lasts', '45 min', '45 min', '45 min'],
	['lasts', '1 h', '60 min', '60 min'],
	['lasts', '2 doses', '2 doses', '2 doses'],
	['lasts', '1 Dose', '1 dose', '1 dose'],
	['lasts', '4 moves', '4 moves', '4 moves'],
	['lasts', 'Until Clear', 'until clear', 'until clear'],
	['lasts', 'until 3 Jan', 'until 3 Jan 2027', 'until 2027-01-03'],
	['level', '0.18 mg/L', '0.18 mg/L', '0.18 mg/L'],
	['level', '0.15-0.20 mg/L', '0.15-0.20 mg/L', '0.15-0.20 mg/L'],
	['level', '0.15 – 0.2 mg/l', '0.15-0.20 mg/L', '0.15-0.20 mg/L'],
	['level', '0.15 to 0.20 mg/L', '0.15-0.20 mg/L', '0.15-0.20 mg/L'],
	['level', '2.5 ppm', '2.5 mg/L', '2.5 mg/L'],
	['level', '180 ug/L', '0.18 mg/L', '0.18 mg/L'],
	['level', '25 ppm', '25 uL/L', '25 uL/L', whole],
	['level', '16 ppt', '16 ppt', '16 ppt', salty],
	['level', '12-14 ppt', '12-14 ppt', '12-14 ppt', salty],
	['level', '10 mg/g', '10 mg/g', '10 mg/g', food],
	['aim', '0.18 mg/L', '0.18 mg/L', '0.18 mg/L'],
	['aim', '14 psu', '14 ppt', '14 ppt', salty],
	['repeat', 'every 7 d', 'every 7 d', 'every 7 d'],
	['repeat', 'every 7 days', 'every 7 d', 'every 7 d'],
	['repeat', 'Weekly', 'every 7 d', 'every 7 d'],
	['repeat', 'every 2 wk', 'every 14 d', 'every 14 d'],
	['repeat', 'daily', 'daily', 'daily'],
	['repeat', 'every day', 'daily', 'daily'],
	['repeat', 'every other day', 'every 2 d', 'every 2 d'],
	['repeat', 'Thu, mon', 'Mon, Thu', 'Mon, Thu'],
	['repeat', 'Mondays and Thursdays', 'Mon, Thu', 'Mon, Thu'],
	['repeat', 'ramp 2 d', 'ramp 2 d', 'ramp 2 d'],
	['repeat', 'Ramp over 3 days, every 2 d', 'ramp 3 d, every 2 d', 'ramp 3 d, every 2 d'],
	[
		'repeat',
		'rrule:freq=weekly;byday=mo,th',
		'RRULE:FREQ=WEEKLY;BYDAY=MO,TH',
		'RRULE:FREQ=WEEKLY;BYDAY=MO,TH'
	],
	[
		'repeat',
		'FREQ=DAILY;INTERVAL=3;COUNT=4',
		'RRULE:FREQ=DAILY;INTERVAL=3;COUNT=4',
		'RRULE:FREQ=DAILY;INTERVAL=3;COUNT=4'
	],
	[
		'repeat',
		'ramp 2 d, RRULE:FREQ=DAILY;INTERVAL=2',
		'ramp 2 d, RRULE:FREQ=DAILY;INTERVAL=2',
		'ramp 2 d, RRULE:FREQ=DAILY;INTERVAL=2'
	],
	['change', 'Auto', 'auto', 'auto'],
	['change', 'none', 'none', 'none'],
	['change', '25% every 3 d', '25% every 3 d', '25% every 3 d'],
	['change', '25 % every 3 days', '25% every 3 d', '25% every 3 d'],
	['change', '30% daily', '30% daily', '30% daily'],
	['change', '20% weekly', '20% weekly', '20% weekly'],
	['change', '20% Mon, Thu', '20% Mon, Thu', '20% Mon, Thu'],
	['change', '50% before dose', '50% before dose', '50% before dose'],
	['change', '50% before each dose', '50% before dose', '50% before dose'],
	['test', 'NH3 daily', 'NH3 daily', 'NH3 daily'],
	['test', 'cu daily; no3 weekly', 'Cu daily, NO3 weekly', 'Cu daily, NO3 weekly'],
	['test', 'NH3 every 2 d', 'NH3 every 2 d', 'NH3 every 2 d'],
	['test', 'NH3 Mon, Thu, pH daily', 'NH3 Mon, Thu, pH daily', 'NH3 Mon, Thu, pH daily'],
	[
		'test',
		'pz weekly, NH3 RRULE:FREQ=WEEKLY;BYDAY=MO,TH',
		'pz weekly, NH3 RRULE:FREQ=WEEKLY;BYDAY=MO,TH',
		'pz weekly, NH3 RRULE:FREQ=WEEKLY;BYDAY=MO,TH'
	],
	['test', 'none', 'none', 'none'],
	['bath', '20 L', '20 L', '20 L'],
	['rise', '2 ppt/d', '2 ppt/d', '2 ppt/d']
];

describe('a cell that can be read', () => {
	it.each(readable)('%s: %s', (column, typed, shown, kept, context = sheet) => {
		const canonical = (text: string, form: 'sheet' | 'file', of = context) => {
			const result = canonicalCell(column, text, of, form);
			return result.ok ? result.value : result.problem;
		};
		expect(canonical(typed, 'sheet')).toBe(shown);
		expect(canonical(typed, 'file')).toBe(kept);
		// what is shown and what is kept say the same, and say it again when read back
		expect(canonical(shown, 'file')).toBe(kept);
		expect(canonical(kept, 'sheet', { ...context, today: null })).toBe(shown);
		expect(readCell(column, shown, context)).toEqual(readCell(column, typed, context));
	});
});

// column | typed | part of what was expected
const unreadable: [CellColumn, string, string, CellContext?][] = [
	['starts', '', 'on 27 Nov'],
	['starts', 'soon', 'on 27 Nov'],
	['starts', 'on 30 Feb', 'a date that exists'],
	['starts', 'on 2026-02-30', 'a date that exists'],
	['starts', 'on 31 Apr 2027', 'a date that exists'],
	['starts', 'on 3/4/2027', 'month as a word'],
	['starts', 'on 27 Nov 0026', 'a date that exists'],
	['starts', 'Mon 27 Nov', 'a weekday that fits'],
	['starts', 'after 9', 'a row that exists: there are 3'],
	['starts', 'after 0', 'a row that exists'],
	['starts', 'after flake', 'the number of a row'],
	['starts', 'after 2 + half a day', 'whole days'],
	['starts', 'after 2 + 12 h', 'whole days'],
	['starts', 'after 2 - 1 d', 'after 2 + 1 d'],
	['starts', 'after', 'after 2 + 1 d'],
	['starts', 'on 27 Nov', 'a date with its year', file],
	['starts', 'after 2', 'the id of a phase', file],
	['lasts', '14', '14 d'],
	['lasts', '0 d', 'more than nothing'],
	['lasts', '1.5 d', 'whole days'],
	['lasts', '-2 d', '14 d'],
	['lasts', '0 doses', 'at least 1'],
	['lasts', 'until it rains', 'until clear'],
	['lasts', 'until 3 Jan', 'a date with its year', file],
	['lasts', '5 mg', '14 d'],
	['level', '0.18', 'mg/L'],
	['level', '0.2-0.15 mg/L', 'lower level first'],
	['level', '16 ppt', 'kept for salinity'],
	['level', '25 mg/L', 'counted whole', whole],
	['level', '14 mg/L', 'ppt', salty],
	['level', '1.009', 'reference pair', salty],
	['level', '14-12 ppt', 'lower salinity first', salty],
	['level', '10 mg/L', '10 mg/g', food],
	['level', '-1 mg/L', 'mg/L'],
	['aim', '0.15-0.2 mg/L', 'one level'],
	['repeat', 'sometimes', 'every 7 d'],
	['repeat', 'every 1.5 d', 'every 7 d'],
	['repeat', 'every 0 d', 'every 7 d'],
	['repeat', 'every 12 h', 'every 7 d'],
	['repeat', 'Mon, Blue', 'every 7 d'],
	['repeat', 'ramp', 'every 7 d'],
	['repeat', 'ramp 1.5 d', 'ramp 2 d'],
	['repeat', 'RRULE:FREQ=HOURLY', 'FREQ'],
	['repeat', 'RRULE:FREQ=DAILY;INTERVAL=0', 'INTERVAL'],
	['repeat', 'RRULE:FREQ=DAILY;INTERVAL=1.5', 'INTERVAL'],
	['repeat', 'RRULE:FREQ=DAILY;BYDAY=XX', 'BYDAY'],
	['repeat', 'RRULE:FREQ=DAILY;BYDAY=2MO', 'numbered weekdays'],
	['repeat', 'RRULE:FREQ=DAILY;BYMONTH=13', 'BYMONTH'],
	['repeat', 'RRULE:FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30', 'a day that one of its months has'],
	['repeat', 'RRULE:FREQ=DAILY;BYHOUR=8', 'RRULE parts'],
	['repeat', 'RRULE:FREQ=DAILY;DTSTART=20261127', 'RRULE parts'],
	['repeat', 'RRULE:FREQ=DAILY;UNTIL=20260230', 'UNTIL'],
	['repeat', 'RRULE:FREQ=DAILY;COUNT=3;UNTIL=20261224', 'not both'],
	['repeat', 'RRULE:FREQ=DAILY;FREQ=DAILY', 'once'],
	['repeat', 'RRULE:BYDAY=MO', 'FREQ'],
	['repeat', 'RRULE:FREQ=WEEKLY;BYWEEKNO=3', 'yearly'],
	['change', '130% daily', 'auto, none'],
	['change', '0% daily', 'over 0 %'],
	['change', '25%', 'auto, none'],
	['change', '25 L daily', 'auto, none'],
	['change', 'half daily', 'auto, none'],
	['test', 'NH3', 'NH3 daily'],
	['test', 'Pb daily', 'NH3 daily'],
	['test', 'NH3 daily, Pb weekly', 'NH3 daily'],
	['test', 'daily', 'NH3 daily'],
	['bath', '0 L', 'over 0 L'],
	['bath', '20 g', 'a volume'],
	['rise', '0 ppt/d', 'over nothing'],
	['rise', '2 ppt', 'ppt/d']
];

describe('a cell that cannot be read', () => {
	it.each(unreadable)('%s: %s', (column, typed, expected, context = sheet) => {
		const result = readCell(column, typed, context);
		expect(result).toMatchObject({ ok: false, problem: { seen: typed } });
		if (!result.ok) expect(result.problem.expected).toContain(expected);
	});
});

describe('a date without a year', () => {
	it.each([
		['2026-11-25', '26 May', '2027-05-26'],
		['2026-11-25', '27 May', '2026-05-27'],
		['2027-01-02', '31 Dec', '2026-12-31'],
		['2026-12-31', '1 Jan', '2027-01-01'],
		['2027-03-01', '29 Feb', '2028-02-29'],
		['2098-06-01', '29 Feb', '2096-02-29']
	])('on %s, %s is %s', (today, typed, day) => {
		expect(readCell('starts', `on ${typed}`, { ...sheet, today })).toEqual({ ok: true, value: { on: day } });
	});
});

it('prints a reference to a row that is not there by its id', () => {
	expect(printCell('starts', { after: 'gone', plusDays: 0 }, { ...sheet, form: 'sheet' })).toBe('after gone');
});
