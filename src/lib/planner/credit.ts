/** What a day in a course must keep to count. */
export interface CreditRule {
	needDays: number;
	floor: number;
	/** a break that never falls under this, and is over within {@link PAUSE_DAYS}, only pauses the course; null: every break restarts it */
	breakFloor: number | null;
	/** oldest test that still vouches for an interval, wall-clock days; null: none is needed */
	testWithinDays: number | null;
}

/** After a short break this many unbroken days must close the course (judgment, no source). */
const UNBROKEN_DAYS = 10;
/**
 * A break that is over before this only pauses a course: a day, and two hours since the daily round is not punctual to the
 * minute and a test done later than yesterday's may not cost the course by itself (judgment, no source).
 */
export const PAUSE_DAYS = 1 + 2 / 24;
const ROUNDING_DAYS = 1e-9;
/** Levels are sums of masses: what is filled up to the floor is at the floor. */
const ROUNDING_LEVEL = 1e-9;

/** Is a break of so many days over soon enough? */
const isShort = (days: number): boolean => days < PAUSE_DAYS - ROUNDING_DAYS;

interface Earned {
	wall: number;
	days: number;
}

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

	const sum = () => earned.reduce((days, e) => days + e.days, 0);
	const broken = (lowest: number, days: number, wall: number) => {
		if (earned.length === 0) return;
		if (rule.breakFloor !== null && lowest >= rule.breakFloor && isShort(days)) unbrokenSince = wall;
		else {
			earned = [];
			unbrokenSince = null;
		}
	};

	const back = (wall: number) => {
		if (outSince !== null && !isShort(wall - outSince)) {
			earned = [];
			unbrokenSince = null;
		}
		outSince = null;
	};

	return {
		/** an interval that began at `wall` has passed */
		passed(wall: number, days: number, lowest: number, lastTest: number | null): void {
			if (lowest < rule.floor - ROUNDING_LEVEL) {
				// it may have begun right after the last reading inside, and goes on until an interval is inside again
				brokenFrom ??= outSince ?? Math.max(wall, inside ?? wall);
				// a low reading has judged its own break already, if the level came back after it
				if (low !== null && low >= wall && outSince === null) return;
				return broken(lowest, wall + days - brokenFrom, wall + days);
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
			const since = inside ?? -Infinity;
			const out = wall - Math.max(since, earned[0]?.wall ?? wall);
			broken(value, out, wall);
			outSince ??= wall - out;
			earned = earned.filter((e) => e.wall + e.days <= since + ROUNDING_DAYS);
		},
		/** what was given or changed has brought the water to this level */
		levelled(level: number, wall: number): void {
			if (level >= rule.floor - ROUNDING_LEVEL) back(wall);
		},
		/** until when a level that was read as low must be back inside so that the course only pauses; null: nothing hangs on it */
		backBy: (): number | null => (outSince === null || earned.length === 0 ? null : outSince + PAUSE_DAYS),
		restart(): void {
			earned = [];
			unbrokenSince = null;
			outSince = null;
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
