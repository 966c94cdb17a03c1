import { rosterOf } from '$lib/calendar';
import { dayIn } from '$lib/planner';
import { currentStore, plannedRuns } from '$lib/server';
import type { PageServerLoad } from './$types';

/** Every run that is kept, planned to now. */
export const load: PageServerLoad = async ({ parent }) => {
	const { now, firstWeekday } = await parent();
	const planned = await plannedRuns(currentStore(), now);
	const runs = planned.map(({ stored, run, plan, today }) => ({ id: stored.id, run, plan, today }));
	return { roster: rosterOf(runs, firstWeekday), today: runs[0]?.today ?? dayIn('UTC', now) };
};
