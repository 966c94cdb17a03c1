import { logLines } from '$lib/ledger';
import { currentStore, logWriters, plannedRuns } from '$lib/server';
import type { PageServerLoad } from './$types';

/** What fits a page that is read; older entries stand in the log of each run. */
const most = 600;

/** The latest facts of every run that is kept. */
export const load: PageServerLoad = async () => {
	const store = currentStore();
	const planned = await plannedRuns(store, new Date().toISOString());
	const each = planned.map(async ({ stored: { id }, log, run, plan }) => {
		const lines = logLines({ run, plan }, log.slice(), await logWriters(store, id));
		return lines.map((line) => ({ ...line, run: { id, name: run.name || 'Unnamed run' } }));
	});
	const lines = (await Promise.all(each)).flat().sort((a, b) => b.atMs - a.atMs);
	return { lines: lines.slice(0, most), left: Math.max(0, lines.length - most) };
};
