import { mkdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { goldenFiles, readWithIcalJs } from './golden-files.ts';
import { khalIn } from './khal.ts';
import { folder } from './program.ts';

const golden = (name: string) => join(import.meta.dirname, 'golden', name);
let place: ReturnType<typeof folder>;
beforeEach(() => {
	place = folder();
	mkdirSync(join(place.path, 'calendar'));
});
afterEach(() => place.remove());

const before = [
	'copper/change/1@harbour|2027-02-01 14:00|Q7: Change 24 L|',
	'copper/change/2@harbour|2027-02-02 14:00|Q7: Change 24 L|',
	'copper/change/3@harbour|2027-02-03 14:00|Q7: Change 24 L|',
	'copper/dose/1@harbour|2027-02-01 14:00|Q7: Ionic copper 4.3 mL|',
	'copper/dose/2@harbour|2027-02-02 14:00|Q7: Ionic copper 4.3 mL|',
	'copper/test/1@harbour|2027-02-01 14:00|Q7: Test Cu|',
	'copper/test/2@harbour|2027-02-02 14:00|Q7: Test Cu|',
	'copper/test/3@harbour|2027-02-03 14:00|Q7: Test Cu|'
];
// one dose moved by three days, one change gone, one test done, one renamed
const after = [
	before[0],
	before[1],
	'copper/change/3@harbour|2027-02-03 14:00|Q7: Change 24 L|CANCELLED',
	before[3],
	'copper/dose/2@harbour|2027-02-05 14:00|Q7: Ionic copper 4.3 mL|',
	'copper/test/1@harbour|2027-02-01 14:00|✓ Q7: Test Cu|CONFIRMED',
	'copper/test/2@harbour|2027-02-02 14:00|Q7: Test Cu and pH|',
	before[7]
];

test('khal shows a moved, a renamed, a done and a cancelled task once each, however often the files come', async () => {
	const khal = khalIn(place.path);
	await khal.importFile(golden('per-task.ics'));
	expect(await khal.shown()).toEqual(before);
	await khal.importFile(golden('per-task.ics'));
	expect(await khal.shown()).toEqual(before);
	await khal.importFile(golden('changed.ics'));
	expect(await khal.shown()).toEqual(after);
	await khal.importFile(golden('changed.ics'));
	expect(await khal.shown()).toEqual(after);
});

test('khal shows whole days and names in any script', async () => {
	const khal = khalIn(place.path);
	await khal.importFile(golden('all-day.ics'));
	expect(await khal.shown()).toContain('copper/dose/2@harbour|2027-02-02|Q7: Ionic copper 4.3 mL|');
	await khal.importFile(golden('odd-names.ics'));
	expect(await khal.shown()).toContain('copper/dose/1@odd|2027-02-01 14:00|検疫 2 🐠: Ionic copper 4.3 mL|');
});

// every start of these lies between 2020 and 2040: what would not be listed would be missed
test.each(goldenFiles.map((path) => [basename(path), path]))(
	'khal reads %s as ical.js does',
	async (_name, path) => {
		const khal = khalIn(place.path);
		await khal.importFile(path);
		const shown = await khal.shown('2020-01-01', 7305);
		const expected = readWithIcalJs(path).map(([uid, title, start]) => `${uid}|${wallOf(start)}|${title}|`);
		expect(expected.length).toBeGreaterThan(0);
		expect(shown.map((line) => line.replace(/[^|]*$/, ''))).toEqual(expected.toSorted());
	}
);

/** `20270201T140000Z` as khal writes it in UTC. */
const wallOf = (stamp: string): string =>
	stamp.replace(
		/^(\d{4})(\d\d)(\d\d)(?:T(\d\d)(\d\d)00Z)?$/,
		(_all, year: string, month: string, day: string, hours?: string, minutes?: string) =>
			`${year}-${month}-${day}${hours === undefined ? '' : ` ${hours}:${minutes}`}`
	);
