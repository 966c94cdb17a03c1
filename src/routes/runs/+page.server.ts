import { rosterOf } from '$lib/calendar';
import { dayIn } from '$lib/components/almanac';
import { plan } from '$lib/planner';
import { readRun } from '$lib/run';
import { currentStore, openRuns, readLogs } from '$lib/server';
import type { PageServerLoad } from './$types';

/** Every run that is kept, planned to now. */
export const load: PageServerLoad = async ({ parent }) => {
	const store = currentStore();
	const [stored, logs] = await Promise.all([openRuns(store), readLogs(store)]);
	const { now, firstWeekday } = await parent();
	const runs = stored.map(({ id, document }) => {
		const today = dayIn(String(document.timeZone), now);
		const run = readRun({ ...document, id, log: logs.get(id) ?? [] }, { today });
		return { id, run, plan: plan(run, now), today };
	});
	return { roster: rosterOf(runs, firstWeekday), today: runs[0]?.today ?? dayIn('UTC', now) };
};
