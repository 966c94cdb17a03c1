import { error } from '@sveltejs/kit';
import { dayIn } from '$lib/components/almanac';
import { plan } from '$lib/planner';
import { readRun } from '$lib/run';
import { currentStore, getRun, readLog } from '$lib/server';
import type { PageServerLoad } from './$types';

/** The run, and its plan as of now: the page plans for itself only once somebody goes to write. */
export const load: PageServerLoad = async ({ params, parent }) => {
	const run = await getRun(currentStore(), params.id);
	if (!run || run.deleted !== null) error(404, 'There is no such run.');
	const { id, version, document } = run;
	const log = await readLog(currentStore(), id);
	const { now } = await parent();
	const today = dayIn(String(document.timeZone), now);
	return { id, version, document, log, plan: plan(readRun({ ...document, id, log }, { today }), now) };
};
