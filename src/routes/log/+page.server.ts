import { logLines } from '$lib/ledger';
import { plan } from '$lib/planner';
import { readRun } from '$lib/run';
import { currentStore, logWriters, openRuns, readLogs } from '$lib/server';
import type { PageServerLoad } from './$types';

/** What fits a page that is read; older entries stand in the log of each run. */
const most = 600;

/** The latest facts of every run that is kept. */
export const load: PageServerLoad = async () => {
	const store = currentStore();
	const [stored, logs] = await Promise.all([openRuns(store), readLogs(store)]);
	const now = new Date().toISOString();
	const each = stored.map(async ({ id, document }) => {
		const raws = logs.get(id) ?? [];
		const run = readRun({ ...document, id, log: raws }, { today: now.slice(0, 10) });
		const lines = logLines({ run, plan: plan(run, now) }, raws, await logWriters(store, id));
		return lines.map((line) => ({ ...line, run: { id, name: run.name || 'Unnamed run' } }));
	});
	const lines = (await Promise.all(each)).flat().sort((a, b) => b.atMs - a.atMs);
	return { lines: lines.slice(0, most), left: Math.max(0, lines.length - most) };
};
