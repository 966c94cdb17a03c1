import { dayNumber, type Day } from '../../run/index.ts';
import type { Plan } from '../plan.ts';

/**
 * What a repair costs, in the order a keeper minds it: cautions it brings, days that release moves back, litres of
 * new water, doses, other jobs. Two repairs are compared by the first of these that differs; less is never a cost.
 */
export interface Cost {
	/** rules of cautions that were not there before */
	cautions: string[];
	/** days; negative: sooner. 0 where the repaired plan has no release, or the plan before had none */
	releaseDays: number;
	/** the day of release that the plan did not have before; the other figures mean nothing then */
	firstRelease: Day | null;
	waterL: number;
	doses: number;
	jobs: number;
}

export function costOf(was: Plan, now: Plan, cautions: readonly string[]): Cost {
	const count = ({ tasks }: Plan, dose: boolean) =>
		tasks.filter(({ kind }) => (kind === 'dose') === dose).length;
	return {
		cautions: [...new Set(cautions)],
		releaseDays: was.release && now.release ? dayNumber(now.release) - dayNumber(was.release) : 0,
		firstRelease: was.release ? null : now.release,
		waterL: Math.round(now.supplies.waterL - was.supplies.waterL),
		doses: count(now, true) - count(was, true),
		jobs: count(now, false) - count(was, false)
	};
}

/** Negative when `a` disturbs less than `b`. */
export function cheaper(a: Cost, b: Cost): number {
	const [one, other] = [a, b].map(({ cautions, releaseDays, firstRelease, waterL, doses, jobs }) =>
		[cautions.length, firstRelease ? dayNumber(firstRelease) : releaseDays, waterL, doses, jobs].map((cost) =>
			Math.max(0, cost)
		)
	);
	const first = one?.findIndex((cost, i) => cost !== other?.[i]) ?? -1;
	return first < 0 ? 0 : (one?.[first] ?? 0) - (other?.[first] ?? 0);
}

/** Such as `release +1 day, 34 L more water`. */
export function costText({ cautions, releaseDays, firstRelease, waterL, doses, jobs }: Cost): string {
	if (firstRelease) return [`release on ${firstRelease}`, ...cautions.map(brings)].join(', ');
	const parts = [
		...(releaseDays === 0
			? []
			: [`release ${releaseDays > 0 ? '+' : '−'}${plural(Math.abs(releaseDays), 'day')}`]),
		...(waterL === 0 ? [] : [`${Math.abs(waterL)} L ${waterL > 0 ? 'more' : 'less'} water`]),
		...(doses === 0 ? [] : [`${plural(Math.abs(doses), 'dose')} ${doses > 0 ? 'more' : 'fewer'}`]),
		...(jobs === 0 ? [] : [`${plural(Math.abs(jobs), 'other job')} ${jobs > 0 ? 'more' : 'fewer'}`]),
		...cautions.map(brings)
	];
	return parts.length > 0 ? parts.join(', ') : 'nothing else moves';
}

const brings = (rule: string) => `brings a caution: ${rule.replaceAll('-', ' ')}`;
const plural = (count: number, noun: string) => `${count} ${noun}${count === 1 ? '' : 's'}`;
