import type { Almanac, Mark } from '$lib/calendar';
import { labels } from '$lib/formulary';
import { dayIn, servicesOf, type Plan } from '$lib/planner';
import { dayNumber, dayText, readLog, type Day, type Run } from '$lib/run';
import type { UnitSystem } from '$lib/units';
import type { DateWords } from './date-words';

export { dayIn };

/** Every day the plan's levels reach, and the one behind, in UTC's count: enough to find every midnight between. */
export function daysOf(plan: Plan): Day[] {
	const numbers = plan.levels.map(({ at }) => Math.floor(Date.parse(at) / 86_400_000));
	const first = numbers[0] ?? 0;
	return Array.from({ length: (numbers.at(-1) ?? first) - first + 2 }, (_, at) => dayText(first + at));
}

/** Readings of the log as marks on the strip: ammonia by the toxic share the forecast gives at that hour. */
function marksOf(run: Run, plan: Plan): Mark[] {
	const byActive = new Map(
		run.medicines.map(({ id, active }) => [active.startsWith('copper') ? 'Cu' : id, id])
	);
	return readLog(run.log).flatMap((fact) => {
		if (fact.kind !== 'reading') return [];
		if (fact.what !== 'NH3') {
			const key = byActive.get(fact.what);
			return key === undefined ? [] : [{ atMs: fact.atMs, key, value: fact.value }];
		}
		const near = plan.levels.findLast(({ at }) => Date.parse(at) <= fact.atMs) ?? plan.levels[0];
		if (!near || near.nh3MgNPerL === null || near.tanMgNPerL === 0) return [];
		return [{ atMs: fact.atMs, key: 'nh3', value: (fact.value * near.nh3MgNPerL) / near.tanMgNPerL }];
	});
}

/** All that the calendar's layout is told beside plan and run. */
export function almanacOf(run: Run, plan: Plan, now: string, words: DateWords, system: UnitSystem): Almanac {
	return {
		today: dayIn(run.timeZone, now),
		nowMs: Date.parse(now),
		firstWeekday: words.firstWeekday,
		startOf: (day) => servicesOf(run.timeZone, dayNumber(day), ['00:00'])[0]?.atMs ?? 0,
		names: Object.fromEntries(run.medicines.map(({ id, active }) => [id, labels[active]])),
		readings: marksOf(run, plan),
		system,
		titleOf: (first, last) => `Forecast from ${words.short(first)} to ${words.short(last)}`
	};
}
