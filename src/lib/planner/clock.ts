import { Temporal } from '#temporal';
import { dayText, type Day } from '../run/index.ts';

const MS_PER_MINUTE = 60_000;
const MINUTES_PER_DAY = 1440;

/** One moment a keeper looks after a tank: a day, a wall-clock time, and the instant that makes. */
export interface Service {
	/** days since 1970-01-01, local calendar */
	day: number;
	/** the same as `YYYY-MM-DD` */
	date: string;
	/** which of the day's services, 0 first; an hour beside them counts on */
	slot: number;
	/** the time as the run or a move writes it, `HH:MM` */
	written: string;
	/** no service of the run: an hour somebody put a job at */
	beside: boolean;
	/** wall-clock time as the keeper wrote it, `HH:MM`, or moved forward out of a gap */
	time: string;
	atMs: number;
	/** the same as `YYYY-MM-DDTHH:MM:SSZ` */
	at: string;
	/** local wall-clock time in days: credit and the age of a test are counted on the keeper's clock */
	wall: number;
	/** the written time does not exist on this day */
	gap: boolean;
}

const minuteOf = (time: string) => Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5));

interface Placed {
	date: string;
	atMs: number;
	at: string;
	time: string;
	gap: boolean;
}

/** Placing is pure, so what was placed once stays; one small table per zone, emptied when it grows past reason. */
const placedByZone = new Map<string, Map<number, Placed>>();
const MOST_PLACED = 20_000;

function place(zone: string, day: number, minute: number): Placed {
	let table = placedByZone.get(zone);
	if (!table || table.size > MOST_PLACED) placedByZone.set(zone, (table = new Map()));
	const key = day * MINUTES_PER_DAY + minute;
	const known = table.get(key);
	if (known) return known;
	const wished = new Date(key * MS_PER_MINUTE).toISOString().slice(0, 16);
	const zoned = Temporal.PlainDateTime.from(wished).toZonedDateTime(zone, { disambiguation: 'compatible' });
	const time = zoned.toPlainTime().toString().slice(0, 5);
	const atMs = zoned.epochMilliseconds;
	const placed = {
		date: wished.slice(0, 10),
		atMs,
		at: instantText(atMs),
		time,
		gap: time !== wished.slice(11)
	};
	table.set(key, placed);
	return placed;
}

/**
 * The services of one day, ascending, with the hours beside them at which jobs were put. A wall-clock time that a clock
 * change skips moves forward by the gap.
 */
export function servicesOf(
	zone: string,
	day: number,
	times: readonly string[],
	beside: readonly string[] = []
): Service[] {
	const at = (written: string, slot: number): Service => {
		const placed = place(zone, day, minuteOf(written));
		const wall = day + minuteOf(placed.time) / MINUTES_PER_DAY;
		return { ...placed, day, slot, written, beside: slot >= times.length, wall };
	};
	const services = times.map(at);
	if (beside.length === 0) return services;
	return [...services, ...beside.map((time, i) => at(time, times.length + i))].sort(
		(a, b) => a.atMs - b.atMs || a.slot - b.slot
	);
}

/**
 * A number for every moment at which a change can be planned: the day for its first service, between this day and the
 * next for all others.
 */
export const momentKey = ({ day, slot, written }: Service): number =>
	slot === 0 ? day : day + (minuteOf(written) + 1) / (MINUTES_PER_DAY + 2);

/** The local calendar day of an instant, in days since 1970-01-01. */
export function dayOfInstant(zone: string, atMs: number): number {
	const local = Temporal.Instant.fromEpochMilliseconds(atMs).toZonedDateTimeISO(zone);
	return Date.UTC(local.year, local.month - 1, local.day) / (MINUTES_PER_DAY * MS_PER_MINUTE);
}

/** Local wall-clock time of an instant in days, comparable with {@link Service.wall}. */
export function wallOfInstant(zone: string, atMs: number): number {
	const local = Temporal.Instant.fromEpochMilliseconds(atMs).toZonedDateTimeISO(zone);
	return (
		Date.UTC(local.year, local.month - 1, local.day, local.hour, local.minute, local.second) /
		(MINUTES_PER_DAY * MS_PER_MINUTE)
	);
}

/** Any moment, as if it were a service: what is done outside the written times. */
export function momentOf(zone: string, atMs: number): Service {
	const local = Temporal.Instant.fromEpochMilliseconds(atMs).toZonedDateTimeISO(zone);
	return {
		day: dayOfInstant(zone, atMs),
		date: local.toPlainDate().toString(),
		slot: 0,
		written: local.toPlainTime().toString().slice(0, 5),
		beside: false,
		time: local.toPlainTime().toString().slice(0, 5),
		atMs,
		at: instantText(atMs),
		wall: wallOfInstant(zone, atMs),
		gap: false
	};
}

/** `YYYY-MM-DDTHH:MM:SSZ` */
export const instantText = (atMs: number): string => `${new Date(atMs).toISOString().slice(0, 19)}Z`;

/** The calendar day of an instant in a zone; the day in UTC where the zone is not known. */
export function dayIn(zone: string, now: string): Day {
	try {
		return dayText(dayOfInstant(zone, Date.parse(now)));
	} catch {
		return now.slice(0, 10);
	}
}
