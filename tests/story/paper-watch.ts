import { toxicShare } from './hand-tank.ts';
import { toxicLimit } from './paper-jobs.ts';

/** A change takes a fifth to a half of the water, and none is farther from the last than seven days (common practice, no source). */
const [least, most, longestDays] = [20, 50, 7];

export interface Watch {
	/** mg N at the service of the first day, before anything is done */
	tanMg: number;
	tanMgPerDay: number;
	litres: number;
	/** the first and the last day of the watch, the day of the last change before it */
	from: number;
	to: number;
	changed: number;
}

export interface Change {
	day: number;
	percent: number;
}

/**
 * The changes of a watch, tried one by one: as few as keep the toxic share at the limit or under it at every service up
 * to the release, and no two farther apart than seven days; of those the fewest litres, and of those the latest days.
 */
export function changesOf(watch: Watch): Change[] {
	if (holds(watch, [])) return [];
	const days = Array.from({ length: watch.to - watch.from + 1 }, (_, n) => watch.from + n);
	const ones = days.flatMap((day) => shares.map((percent) => [{ day, percent }]));
	const one = best(ones.filter((changes) => holds(watch, changes)));
	if (one) return one;
	const twos = ones.flatMap(([first]) =>
		ones.flatMap(([second]) => (first && second && first.day < second.day ? [[first, second]] : []))
	);
	const two = best(twos.filter((changes) => holds(watch, changes)));
	if (!two) throw new Error('paper knows no way with two changes');
	return two;
}

const shares = Array.from({ length: most - least + 1 }, (_, n) => least + n);
const percents = (changes: readonly Change[]) => changes.reduce((sum, { percent }) => sum + percent, 0);

const best = (all: Change[][]): Change[] | undefined =>
	all.sort(
		(a, b) =>
			percents(a) - percents(b) ||
			a.map(({ day }, n) => (b[n]?.day ?? 0) - day).find((later) => later !== 0) ||
			0
	)[0];

function holds(
	{ tanMg, tanMgPerDay, litres, from, to, changed }: Watch,
	changes: readonly Change[]
): boolean {
	let last = changed;
	let mg = tanMg;
	for (let day = from; day <= to + 1; day++) {
		if (day > from) mg += tanMgPerDay;
		if ((mg / litres) * toxicShare > toxicLimit || day - last > longestDays) return false;
		const change = changes.find((one) => one.day === day);
		if (!change) continue;
		mg *= 1 - change.percent / 100;
		last = day;
	}
	return true;
}
