import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { clean } from '../../src/lib/calendar/content-line.ts';
import { planToIcs } from '../../src/lib/calendar/index.ts';
import { samplePlan, sampleRun, sampleTask } from '../../src/lib/calendar/sample-plan.ts';
import { sampleTexts } from '../../src/lib/calendar/sample-text.ts';
import { goldenFiles, readWithIcalJs } from './golden-files.ts';
import { folder, readWithThree } from './program.ts';

const seen = readWithThree(goldenFiles);

describe('every golden file reads the same in', () => {
	test.each(['icalendar', 'vobject', 'libical'])('%s as in ical.js', (reader) => {
		expect(goldenFiles.length).toBeGreaterThan(10);
		for (const path of goldenFiles) {
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
		expect(events.map((event) => event[3])).toEqual(readWithIcalJs(file).map((event) => event[3]));
	}
	remove();
});
