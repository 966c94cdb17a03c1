import { Temporal } from '#temporal';
import { dayText, type Day } from '../run/index.ts';

const MS_PER_MINUTE = 60_000;
const MINUTES_PER_DAY = 1440;
const MS_PER_DAY = 86_400_000;

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

/** An instant on the keeper's clock. */
type Local = Pick<Service, 'day' | 'date' | 'time' | 'wall'>;

/** The marches of one plan ask for the same instants over and over; as with places, what was read once stays true. */
const localByZone = new Map<string, Map<number, Local>>();
const MOST_LOCAL = 5_000;
const MOST_ZONES = 50;

function localOf(zone: string, atMs: number): Local {
	const known = localByZone.get(zone)?.get(atMs);
	if (known) return known;
	const at = Temporal.Instant.fromEpochMilliseconds(atMs).toZonedDateTimeISO(zone);
	const local = {
		day: Date.UTC(at.year, at.month - 1, at.day) / MS_PER_DAY,
		date: at.toPlainDate().toString(),
		time: at.toPlainTime().toString().slice(0, 5),
		wall: Date.UTC(at.year, at.month - 1, at.day, at.hour, at.minute, at.second) / MS_PER_DAY
	};
	if (localByZone.size > MOST_ZONES) localByZone.clear();
	let table = localByZone.get(zone);
	if (!table || table.size > MOST_LOCAL) localByZone.set(zone, (table = new Map()));
	table.set(atMs, local);
	return local;
}

/** The local calendar day of an instant, in days since 1970-01-01. */
export const dayOfInstant = (zone: string, atMs: number): number => localOf(zone, atMs).day;

/** Local wall-clock time of an instant in days, comparable with {@link Service.wall}. */
export const wallOfInstant = (zone: string, atMs: number): number => localOf(zone, atMs).wall;

/** The instant of a whole minute of local wall-clock time in days; one that a clock change skips moves forward by the gap. */
export function instantOfWall(zone: string, wall: number): number {
	const day = Math.floor(wall + 1e-9);
	return place(zone, day, Math.round((wall - day) * MINUTES_PER_DAY)).atMs;
}

/** Any moment, as if it were a service: what is done outside the written times. */
export function momentOf(zone: string, atMs: number): Service {
	const local = localOf(zone, atMs);
	const own = { slot: 0, written: local.time, beside: false, gap: false };
	return { ...local, ...own, atMs, at: instantText(atMs) };
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
