import { dayIn } from '$lib/components/almanac';
import { offerRepairs } from '$lib/planner';
import { currentStore, endpoint, getRun, noRun, readLog } from '$lib/server';
import type { RequestEvent } from './$types';

/** `GET`: the findings of the run as of now, each with the repairs that were proved to work. */
export const GET = endpoint(async ({ params }: RequestEvent) => {
	const run = await getRun(currentStore(), params.id);
	if (!run) return noRun(params.id);
	const { id, version, document } = run;
	const now = new Date().toISOString();
	const log = await readLog(currentStore(), id);
	const { findings } = offerRepairs({ ...document, id, log }, now, dayIn(String(document.timeZone), now));
	return Response.json({ version, findings });
});
