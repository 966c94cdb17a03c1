import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import { clean } from '../../src/lib/calendar/content-line.ts';
import { planToIcs } from '../../src/lib/calendar/index.ts';
import { samplePlan, sampleRun, sampleTask } from '../../src/lib/calendar/sample-plan.ts';
import { sampleTexts } from '../../src/lib/calendar/sample-text.ts';
import { folder, readWithThree, type Seen } from './program.ts';

/** Files with every form an export has, and the calendars of whole runs. */
const files = ['golden', '../golden/results']
	.map((folder) => join(import.meta.dirname, folder))
	.flatMap((folder) => readdirSync(folder).map((name) => join(folder, name)))
	.filter((path) => path.endsWith('.ics'));
const seen = readWithThree(files);

/** The fourth reader, in process. */
function readWithIcalJs(path: string): Seen {
	const root = ICAL.parse(readFileSync(path, 'utf8')) as ConstructorParameters<typeof ICAL.Component>[0];
	return new ICAL.Component(root).getAllSubcomponents('vevent').map((event) => {
		const start = event.getFirstPropertyValue('dtstart') as ICAL.Time;
		const text = (name: string) => String(event.getFirstPropertyValue(name) ?? '');
		return [text('uid'), text('summary'), start.toICALString(), text('description')];
	});
}

describe('every golden file reads the same in', () => {
	test.each(['icalendar', 'vobject', 'libical'])('%s as in ical.js', (reader) => {
		expect(files.length).toBeGreaterThan(10);
		for (const path of files) {
			const events = readWithIcalJs(path);
			expect(events.length).toBeGreaterThan(0);
			expect({ [path]: seen[path]?.[reader] }).toEqual({ [path]: events });
		}
	});
});

test('2,000 random titles and notes come back the same from vobject, libical and ical.js', () => {
	const notes = sampleTexts(2000, 31);
	const tasks = sampleTexts(2000, 30).map((text, n) =>
		sampleTask(`copper/dose/${n}`, '2027-02-01', { text, because: notes[n] ?? '' })
	);
	const { path, remove } = folder();
	const file = join(path, 'random.ics');
	writeFileSync(file, planToIcs(sampleRun(), samplePlan(tasks), { now: '2027-01-30T00:00:00Z' }));
	const readings: Record<string, unknown> = {
		...readWithThree([file])[file],
		'ical.js': readWithIcalJs(file)
	};
	for (const reader of ['vobject', 'libical', 'ical.js']) {
		const events = readings[reader] as string[][];
		if (!Array.isArray(events)) throw new Error(`${reader}: ${JSON.stringify(events)}`);
		expect(events).toHaveLength(2000);
		const compared = tasks.flatMap(({ text }, n) => {
			const wanted = `Q7: ${clean(text)}`.replace(/[ \t\n]+$/, '');
			return wanted.length < 500 && events[n]?.[1] !== wanted
				? [{ reader, wanted, read: events[n]?.[1] }]
				: [];
		});
		expect(compared).toEqual([]);
		expect(events.map((event) => event[3])).toEqual(
			(readWithIcalJs(file) as string[][]).map((event) => event[3])
		);
	}
	remove();
});
