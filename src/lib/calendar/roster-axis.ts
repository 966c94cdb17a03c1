import { dayNumber, dayText, weekday, type Day } from '../run/index.ts';

/** A week's first day on the axis; `named` where there is room to write it. */
export interface AxisWeek {
	day: Day;
	start: number;
	named: boolean;
}

/** Idle days that are left out, as a share of the axis from `start`. */
export interface AxisFold {
	start: number;
	width: number;
	/** the days it leaves out, both inclusive */
	from: Day;
	to: Day;
}

/** The days that several runs share as a scale from 0 to 1. Long stretches without any run are folded. */
export interface Axis {
	/** the days drawn, ascending */
	days: Day[];
	folds: AxisFold[];
	/** where a day begins; outside the axis below 0 or from 1 on */
	share: (day: Day) => number;
}

/** A gap longer than this between runs is folded (judgment, no source). */
const MOST_IDLE_DAYS = 28;
/** What a fold takes of the axis. */
const FOLD_SHARE = 0.04;
/** A written date needs about this share of the axis. */
const NAME_SHARE = 0.12;

interface Stretch {
	first: number;
	last: number;
}

/** An axis over stretches of days, first and last inclusive, in any order. */
export function axisOf(stretches: readonly { from: Day; to: Day }[]): Axis {
	const busy = joined(stretches.map(({ from, to }) => ({ first: dayNumber(from), last: dayNumber(to) })));
	const count = busy.reduce((sum, { first, last }) => sum + last - first + 1, 0);
	const foldUnits = (FOLD_SHARE * count) / Math.max(0.2, 1 - FOLD_SHARE * (busy.length - 1));
	const units = count + foldUnits * Math.max(0, busy.length - 1);
	let begins = 0;
	const placed = busy.map((stretch) => {
		const at = begins;
		begins += stretch.last - stretch.first + 1 + foldUnits;
		return { ...stretch, at };
	});
	const unitOf = (day: number): number => {
		const block = placed.findLast(({ first }) => first <= day);
		if (!block) return day - (placed[0]?.first ?? 0);
		const behind = day - block.last;
		const next = placed[placed.indexOf(block) + 1];
		const end = block.at + block.last - block.first;
		if (behind <= 0 || !next) return end + behind;
		return end + 1 + (foldUnits * (behind - 1)) / (next.first - block.last - 1);
	};
	return {
		days: placed.flatMap(({ first, last }) =>
			Array.from({ length: last - first + 1 }, (_, at) => dayText(first + at))
		),
		folds: placed.slice(1).map(({ first, at }, index) => ({
			start: (at - foldUnits) / units,
			width: foldUnits / units,
			from: dayText((placed[index]?.last ?? first) + 1),
			to: dayText(first - 1)
		})),
		share: (day) => unitOf(dayNumber(day)) / (units || 1)
	};
}

function joined(stretches: readonly Stretch[]): Stretch[] {
	const result: Stretch[] = [];
	for (const { first, last } of stretches.toSorted((a, b) => a.first - b.first)) {
		const before = result.at(-1);
		if (before && first - before.last - 1 <= MOST_IDLE_DAYS) before.last = Math.max(before.last, last);
		else result.push({ first, last });
	}
	return result;
}

/** Where weeks begin, and which of them can be written without touching the one before or leaving the axis. */
export function weeksOf({ days, share }: Axis, firstWeekday: number): AxisWeek[] {
	let free = 0;
	return days
		.filter((day) => weekday(dayNumber(day)) === firstWeekday)
		.map((day) => {
			const start = share(day);
			const named = start >= free && start <= 1 - NAME_SHARE;
			if (named) free = start + NAME_SHARE;
			return { day, start, named };
		});
}
