import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { run } from './program.ts';

/** A calendar program of its own in a folder, with one calendar, everything in UTC. */
export function khalIn(folder: string, calendar = join(folder, 'calendar')) {
	const config = join(folder, 'khal.conf');
	writeFileSync(
		config,
		`[calendars]
[[run]]
path = ${calendar}
type = calendar
[locale]
local_timezone = UTC
default_timezone = UTC
timeformat = %H:%M
dateformat = %Y-%m-%d
longdateformat = %Y-%m-%d
datetimeformat = %Y-%m-%d %H:%M
longdatetimeformat = %Y-%m-%d %H:%M
[default]
default_calendar = run
[sqlite]
path = ${join(folder, 'khal.db')}
`
	);
	const khal = (...args: string[]) => run('khal', ['-c', config, ...args]);
	return {
		importFile: (path: string) => khal('import', '--batch', '-a', 'run', path),
		/** `uid|start|title|status` of what it shows in so many days from that day, sorted */
		shown: async (from = '2027-01-01', days = 60) =>
			(await khal('list', '--day-format', '', '--format', '{uid}|{start}|{title}|{status}', from, `${days}d`))
				.split('\n')
				.map((line) => line.trim())
				.filter((line) => line !== '')
				.toSorted()
	};
}
