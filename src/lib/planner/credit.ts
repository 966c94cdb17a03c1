/** What a day in a course must keep to count. */
export interface CreditRule {
	needDays: number;
	floor: number;
	/** a break that never falls under this, and lasts less than a day, only pauses the course; null: every break restarts it */
	breakFloor: number | null;
	/** oldest test that still vouches for an interval, wall-clock days; null: none is needed */
	testWithinDays: number | null;
}

/** After a short break this many unbroken days must close the course (judgment, no source). */
const UNBROKEN_DAYS = 10;
const ROUNDING_DAYS = 1e-9;
/** Levels are sums of masses: what is filled up to the floor is at the floor. */
const ROUNDING_LEVEL = 1e-9;

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

	const sum = () => earned.reduce((days, e) => days + e.days, 0);
	const broken = (lowest: number, days: number, wall: number) => {
		if (earned.length === 0) return;
		if (rule.breakFloor !== null && lowest >= rule.breakFloor && days < 1) unbrokenSince = wall;
		else {
			earned = [];
			unbrokenSince = null;
		}
	};

	return {
		/** an interval that began at `wall` has passed */
		passed(wall: number, days: number, lowest: number, lastTest: number | null): void {
			if (lowest < rule.floor - ROUNDING_LEVEL) {
				// it may have begun right after the last reading inside, and goes on until an interval is inside again
				brokenFrom ??= Math.max(wall, inside ?? wall);
				// a low reading has judged its own break already
				if (low !== null && low >= wall) return;
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
				inside = wall;
				return;
			}
			low = wall;
			const since = inside ?? -Infinity;
			const out = wall - Math.max(since, earned[0]?.wall ?? wall);
			broken(value, out, wall);
			earned = earned.filter((e) => e.wall + e.days <= since + ROUNDING_DAYS);
		},
		restart(): void {
			earned = [];
			unbrokenSince = null;
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
