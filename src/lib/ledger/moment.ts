import { servicesOf } from '../planner/index.ts';
import { dayNumber, type Day } from '../run/index.ts';

/** Where the hands of the keeper's clock stand. */
export interface WallClock {
	day: Day;
	/** `HH:MM` */
	time: string;
}

const formats = new Map<string, Intl.DateTimeFormat>();

function formatOf(zone: string): Intl.DateTimeFormat {
	const known = formats.get(zone);
	if (known) return known;
	const made = new Intl.DateTimeFormat('en-GB', {
		timeZone: zone,
		year: 'numeric',
		month: '2-digit',
		day: '2-digit',
		hour: '2-digit',
		minute: '2-digit',
		hourCycle: 'h23'
	});
	formats.set(zone, made);
	return made;
}

/** Day and time of an instant (ms since 1970-01-01T00:00Z) in a time zone. */
export function wallClock(zone: string, atMs: number): WallClock {
	const parts = Object.fromEntries(
		formatOf(zone)
			.formatToParts(atMs)
			.map(({ type, value }) => [type, value])
	);
	return { day: `${parts.year}-${parts.month}-${parts.day}`, time: `${parts.hour}:${parts.minute}` };
}

/**
 * The instant of a day and time in a zone as the log writes it, with its offset: `2026-12-03T08:05:00-06:00`. A time
 * that a clock change skips moves forward by the gap. `day` must exist and `time` be `HH:MM`.
 */
export function instantIn(zone: string, day: Day, time: string): { at: string; atMs: number } {
	const [placed] = servicesOf(zone, dayNumber(day), [time]);
	if (!placed) throw new Error(`no instant for ${day} ${time}`);
	const wallMs = Date.parse(`${placed.date}T${placed.time}:00Z`);
	const offset = Math.round((wallMs - placed.atMs) / 60_000);
	return { at: `${placed.date}T${placed.time}:00${offsetText(offset)}`, atMs: placed.atMs };
}

function offsetText(minutes: number): string {
	if (minutes === 0) return 'Z';
	const [hours, rest] = [Math.floor(Math.abs(minutes) / 60), Math.abs(minutes) % 60];
	return `${minutes < 0 ? '-' : '+'}${String(hours).padStart(2, '0')}:${String(rest).padStart(2, '0')}`;
}
