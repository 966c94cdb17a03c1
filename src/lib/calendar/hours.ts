import type { Chip } from './chip.ts';
import type { Week } from './weeks.ts';

/** One hour of a week: seven lists of jobs, one a day. */
export interface HourRow {
	hour: number;
	/** `08:00`, how a drop on this row is meant */
	time: string;
	/** a service of the run begins in this hour */
	service: boolean;
	days: { day: string; chips: Chip[] }[];
}

/** A keeper's day where no job says else: judgment, no source. */
const dayBegins = 7;
const dayEnds = 21;

const hourOf = (time: string) => Number(time.slice(0, 2));

/** The hours of a week from the first that is worth drawing to the last, each with the jobs that begin in it. */
export function hoursOf(week: Week, services: readonly string[]): HourRow[] {
	const chips = week.days.flatMap((day) => day.chips);
	const busy = [...services, ...chips.map(({ time }) => time)].map(hourOf);
	const first = Math.min(dayBegins, ...busy);
	const last = Math.max(dayEnds, ...busy);
	const served = new Set(services.map(hourOf));
	return Array.from({ length: last - first + 1 }, (_, at) => {
		const hour = first + at;
		return {
			hour,
			time: services.find((time) => hourOf(time) === hour) ?? `${String(hour).padStart(2, '0')}:00`,
			service: served.has(hour),
			days: week.days.map(({ day, chips: all }) => ({
				day,
				chips: all.filter(({ time }) => hourOf(time) === hour)
			}))
		};
	});
}
