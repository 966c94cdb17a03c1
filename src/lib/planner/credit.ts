/** What a day in a course must keep to count. */
export interface CreditRule {
	needDays: number;
	floor: number;
	/** a break that never falls under this, and is over soon enough, only pauses the course; null: every break restarts it */
	breakFloor: number | null;
	/** oldest test that still vouches for an interval, wall-clock days; null: none is needed */
	testWithinDays: number | null;
}

/** After a short break this many unbroken days must close the course (judgment, no source). */
const UNBROKEN_DAYS = 10;
/**
 * A break that is over by then only pauses a course: a day after the last reading inside, and two hours since the daily
 * round is not punctual and a test done later than yesterday's may not cost the course by itself (judgment, no source).
 */
export const PAUSE_MINUTES = 26 * 60;
const MINUTES_PER_DAY = 1440;
const ROUNDING_DAYS = 1e-9;
const ROUNDING_MINUTES = 1e-6;
/** Levels are sums of masses: what is filled up to the floor is at the floor. */
const ROUNDING_LEVEL = 1e-9;

/** Clock minutes, since an hour that is said has no seconds. */
const minuteOf = (wall: number): number => Math.floor(wall * MINUTES_PER_DAY + ROUNDING_MINUTES);
const lastMinute = (since: number): number => minuteOf(since) + PAUSE_MINUTES;
/** Until when a level that may have been out since then must be back. */
const backBy = (since: number): number => lastMinute(since) / MINUTES_PER_DAY;
/** Is a break over soon enough, whose beginning only the last reading inside bounds? */
const isShort = (from: number, to: number): boolean => minuteOf(to) <= lastMinute(from);
/** And one that is known from its first hour on: one of a whole day is none (judgment, no source). */
const isShortKnown = (from: number, to: number): boolean => to - from < 1 - ROUNDING_DAYS;

interface Earned {
	wall: number;
	days: number;
}

/** A level that was read as low and is not back: `by` when it must be so that the course only pauses, or why it begins again. */
export type Outage =
	{ is: 'pause'; by: number } | { is: 'late'; since: number } | { is: 'deep'; under: number };

/**
 * The credit of a course: intervals at or above the floor, vouched for by a test. A reading below the floor
 * withdraws credit back to the last reading inside. Above the ceiling is another matter, and keeps credit.
 */
export function creditLedger(rule: CreditRule) {
	let earned: Earned[] = [];
	let inside: number | null = null;
	let unbrokenSince: number | null = null;
	let low: number | null = null;
	let brokenFrom: number | null = null;
	/** since when the level that was read as low may have been out, until it is back */
	let outSince: number | null = null;
	/** what this outage has taken the whole course for */
	let lost: Exclude<Outage, { is: 'pause' }> | null = null;

	/** under this no break is a pause */
	const deepUnder = rule.breakFloor ?? rule.floor;

	const sum = () => earned.reduce((days, e) => days + e.days, 0);
	const begunAgain = (why: typeof lost) => {
		if (earned.length > 0) lost = why;
		earned = [];
		unbrokenSince = null;
	};
	const broken = (lowest: number, from: number, to: number, short: boolean) => {
		if (earned.length === 0) return;
		if (lowest < deepUnder) begunAgain({ is: 'deep', under: deepUnder });
		else if (!short) begunAgain({ is: 'late', since: from });
		else unbrokenSince = to;
	};
	const back = (wall: number) => {
		if (outSince !== null && !isShort(outSince, wall)) begunAgain(null);
		outSince = null;
		lost = null;
	};
	/** what was earned by a reading inside stays when a low one comes after it */
	const before = (since: number) => earned.filter((e) => e.wall + e.days <= since + ROUNDING_DAYS);
	/** since when the level may be out, where it is read as low at `wall` */
	const outFrom = (wall: number) => Math.max(inside ?? -Infinity, earned[0]?.wall ?? wall);

	return {
		/** an interval that began at `wall` has passed */
		passed(wall: number, days: number, lowest: number, lastTest: number | null): void {
			if (lowest < rule.floor - ROUNDING_LEVEL) {
				// it may have begun right after the last reading inside, and goes on until an interval is inside again
				brokenFrom ??= outSince ?? Math.max(wall, inside ?? wall);
				// a low reading has judged its own break already, if the level came back after it
				if (low !== null && low >= wall && outSince === null) return;
				const to = wall + days;
				if (outSince === null) return broken(lowest, brokenFrom, to, isShortKnown(brokenFrom, to));
				// how deep it is was read, and is seen again when something is done: what the hours may take since is not
				return broken(deepUnder, brokenFrom, to, isShort(brokenFrom, to));
			}
			brokenFrom = null;
			const vouched =
				rule.testWithinDays === null ||
				(lastTest !== null && wall - lastTest <= rule.testWithinDays + ROUNDING_DAYS);
			if (vouched) earned.push({ wall, days });
		},
		reading(value: number, wall: number): void {
			if (value >= rule.floor) {
				back(wall);
				inside = wall;
				return;
			}
			low = wall;
			const from = outFrom(wall);
			broken(value, from, wall, isShort(from, wall));
			outSince ??= from;
			earned = before(inside ?? -Infinity);
		},
		/** what was given or changed has brought the water to this level */
		levelled(level: number, wall: number): void {
			if (level >= rule.floor - ROUNDING_LEVEL) back(wall);
			else if (outSince !== null && level < deepUnder - ROUNDING_LEVEL) broken(level, outSince, wall, false);
		},
		/** what hangs on a level that was read as low, for what is done about it at `wall`; null: nothing */
		outage(wall: number): Outage | null {
			if (outSince === null) return null;
			if (lost || earned.length === 0) return lost;
			return isShort(outSince, wall)
				? { is: 'pause', by: backBy(outSince) }
				: { is: 'late', since: outSince };
		},
		/** until when a level must be back inside that is read as low from now on; null: it has nothing to pause */
		pausesUntil(): number | null {
			const since = outSince ?? inside;
			return rule.breakFloor === null || since === null || before(since).length === 0 ? null : backBy(since);
		},
		restart(): void {
			earned = [];
			unbrokenSince = null;
			outSince = null;
			lost = null;
		},
		days: sum,
		full(): boolean {
			if (sum() < rule.needDays - ROUNDING_DAYS) return false;
			const since = unbrokenSince;
			if (since === null) return true;
			const unbroken = earned.filter((e) => e.wall >= since).reduce((days, e) => days + e.days, 0);
			return unbroken >= Math.min(UNBROKEN_DAYS, rule.needDays) - ROUNDING_DAYS;
		}
	};
}
