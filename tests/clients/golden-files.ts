import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ICAL from 'ical.js';
import type { Seen } from './program.ts';

/** Files with every form an export has, and the calendars of whole runs. */
export const goldenFiles = ['golden', '../golden/results']
	.map((folder) => join(import.meta.dirname, folder))
	.flatMap((folder) => readdirSync(folder).map((name) => join(folder, name)))
	.filter((path) => path.endsWith('.ics'));

/** A file as ical.js reads it, in process. */
export function readWithIcalJs(path: string): Exclude<Seen, string> {
	const root = ICAL.parse(readFileSync(path, 'utf8')) as ConstructorParameters<typeof ICAL.Component>[0];
	return new ICAL.Component(root).getAllSubcomponents('vevent').map((event) => {
		const start = event.getFirstPropertyValue('dtstart') as ICAL.Time;
		const text = (name: string) => String(event.getFirstPropertyValue(name) ?? '');
		return [text('uid'), text('summary'), start.toICALString(), text('description')];
	});
}
