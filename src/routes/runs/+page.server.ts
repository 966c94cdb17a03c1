import { rosterOf } from '$lib/calendar';
import { dayIn } from '$lib/components/almanac';
import { plan } from '$lib/planner';
import { readRun } from '$lib/run';
import { currentStore, openRuns, readLogs } from '$lib/server';
import type { PageServerLoad } from './$types';

/** Every run that is kept, planned to now. */
export const load: PageServerLoad = async () => {
	const store = currentStore();
	const [stored, logs] = await Promise.all([openRuns(store), readLogs(store)]);
	const now = new Date().toISOString();
	const today = dayIn('UTC', now);
	const runs = stored.map(({ id, document }) => {
		const run = readRun({ ...document, id, log: logs.get(id) ?? [] }, { today });
		return { id, run, plan: plan(run, now) };
	});
	return { roster: rosterOf(runs, today) };
};
