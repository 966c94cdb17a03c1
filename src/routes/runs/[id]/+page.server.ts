import { error } from '@sveltejs/kit';
import { dayIn } from '$lib/components/almanac';
import { plan } from '$lib/planner';
import { readRun } from '$lib/run';
import { currentStore, editsSince, getRun, readLog } from '$lib/server';
import { dangles, rowsGone, type SheetDocument } from '$lib/sheet';
import type { PageServerLoad } from './$types';

/** The run, and its plan as of now: the page plans for itself only once somebody goes to write. */
export const load: PageServerLoad = async ({ params, parent }) => {
	const run = await getRun(currentStore(), params.id);
	if (!run || run.deleted !== null) error(404, 'There is no such run.');
	const { id, version, document } = run;
	const log = await readLog(currentStore(), id);
	const { now } = await parent();
	const today = dayIn(String(document.timeZone), now);
	const made = plan(readRun({ ...document, id, log }, { today }), now);
	return {
		id,
		version,
		document,
		log,
		plan: made,
		gone: await goneFrom(id, document as unknown as SheetDocument)
	};
};

/** Read from the history only where it is asked for. */
async function goneFrom(run: string, document: SheetDocument): Promise<Record<string, string>> {
	if (!Array.isArray(document.phases) || !dangles(document)) return {};
	const news = await editsSince(currentStore(), run, 1);
	return rowsGone({ done: news?.saves.map(({ edits }) => edits) ?? [] }, document);
}
