import { utc } from './dates.ts';
import type { Line } from './lines.ts';
import type { Band, CourseDay, CourseJob } from './paper-course.ts';
import { raiseOf, whyOf, wordsOf } from './paper-because.ts';
import { minutesFor } from './paper-job.ts';
import type { Outlook } from './paper-outlook.ts';
import type { Rows } from './paper-rows.ts';
import { between, line, says, type Said } from './says.ts';
import type { Part } from './sweep.ts';

const words: Record<CourseJob['kind'], { key: string; minutes: number }> = {
	look: { key: 'observe', minutes: minutesFor.look },
	test: { key: 'test', minutes: minutesFor.test },
	change: { key: 'change', minutes: minutesFor.change },
	wash: { key: 'washout', minutes: minutesFor.washOut },
	copper: { key: 'dose', minutes: minutesFor.dose },
	fluke: { key: 'dose', minutes: minutesFor.dose },
	move: { key: 'acclimate', minutes: minutesFor.takeIn },
	equipment: { key: 'equipment', minutes: minutesFor.equipment },
	release: { key: 'release', minutes: minutesFor.release },
	clean: { key: 'clean', minutes: minutesFor.strip }
};

/** The name of a job in the plan: its row, its kind, and the day of the row; doses against flukes are counted. */
export function keyOf({ row, kind }: CourseJob, day: number, rows: Rows): string {
	const n = row === 'flukes' ? rows.flukes.indexOf(day) + 1 : day - rows[row][0] + 1;
	return `${row}/${words[kind].key}/${n}`;
}

/** A moment as iCalendar writes it (RFC 5545, 3.3.5), minutes after the service of a day. */
const stamp = (day: number, minutes = 0) => utc(day, 8 * 60 + minutes).replaceAll(/[-:]/g, '');

/** What an entry of the calendar file says of a job. */
function eventPart(job: CourseJob, day: CourseDay, rows: Rows, done: boolean): Part {
	const text = wordsOf(job);
	const raise = raiseOf(job, day);
	const amount = text.text.match(/^(?:Change|Wash out|Ionic copper|Praziquantel) (.*)$/);
	const mL = job.mL ?? [0, 0];
	const own: Said[] = amount
		? [
				mL[0] === mL[1]
					? says`Amount: ${amount[1] ?? ''}.`
					: line('Amount: ', between(mL[0], mL[1], 1), ' mL.')
			]
		: [];
	if (job.kind === 'change' || job.kind === 'wash')
		own.push(says`${(day.waterL / 120) * 100} % of the water.`);
	if (raise) own.push(says`Raises ${fourDigits(raise.from)} to ${fourDigits(raise.to)} mg/L.`);
	return {
		where: keyOf(job, day.day, rows),
		says: [
			{
				text: `Bay 4: ${text.text}`,
				fits: (seen) => seen.startsWith(head(done)) && text.fits(seen.slice(head(done).length))
			},
			says`DTSTART ${stamp(day.day)}`,
			says`DTEND ${stamp(day.day, words[job.kind].minutes)}`,
			...whyOf(job, day, rows),
			...own
		]
	};
}

/** Four digits that count, of a level under 10 mg/L. */
const fourDigits = (band: Band) => between(...band, band[1] >= 1 ? 3 : 4);

const head = (done: boolean) => (done ? '✓ Bay 4: ' : 'Bay 4: ');

/** Everything the calendar file of the run has to say from a day on; up to today everything is done. */
export const fileParts = ({ days, rows, today }: Outlook, since = 0): Part[] => [
	...days
		.filter(({ day }) => day >= since)
		.flatMap((day) => day.jobs.map((job) => eventPart(job, day, rows, day.day <= today))),
	{ where: 'file', says: [says`Banded cardinalfish, Bay 4`] }
];

const unescaped = (value: string) => value.replaceAll(/\\([,;\\])/g, '$1');

/** What of an entry is not for people to read: names, stamps, numbers of versions (RFC 5545). */
const machines =
	/^(?:UID|URL|DTSTAMP|LAST-MODIFIED|CREATED|SEQUENCE|PRODID|VERSION|X-PUBLISHED-TTL|REFRESH-INTERVAL)/;

/** The lines of a calendar file that hold a figure, unfolded, and in the entry of which job they stand; those of older days, and what is called off since an older file, are left out. */
export function fileLines(text: string, keys: readonly string[], since = 0): Line[] {
	const lines = text.replaceAll(/\r\n[ \t]/g, '').split('\r\n');
	return lines.flatMap((raw, n) => {
		const [name = '', value = ''] = [raw.slice(0, raw.indexOf(':')), raw.slice(raw.indexOf(':') + 1)];
		if (machines.test(name)) return [];
		const { key, begins, off } = entryAt(lines, n);
		if (off || (begins !== '' && begins < stamp(since))) return [];
		const texts = name.startsWith('DT') ? [`${name} ${value}`] : value.split('\\n').map(unescaped);
		return texts
			.filter((one) => /\d/.test(one) && !one.startsWith('http'))
			.map((one) => ({
				text: one,
				place: `${name} of ${key}`,
				parts: keys.map((known) => (known === key ? 0 : -1)),
				heard: false
			}));
	});
}

/** The job whose entry a line stands in, when that begins, and whether it is called off. */
function entryAt(lines: readonly string[], n: number): { key: string; begins: string; off: boolean } {
	const before = lines.slice(0, n + 1);
	const from = before.lastIndexOf('BEGIN:VEVENT');
	if (from <= before.lastIndexOf('END:VEVENT')) return { key: 'file', begins: '', off: false };
	const own = lines.slice(from, lines.indexOf('END:VEVENT', from));
	const told = (name: string) => own.find((one) => one.startsWith(name)) ?? '';
	return {
		key: told('UID:').slice(4).replace(/@.*$/, ''),
		begins: told('DTSTART').replace(/^.*:/, ''),
		off: told('STATUS:') === 'STATUS:CANCELLED'
	};
}
