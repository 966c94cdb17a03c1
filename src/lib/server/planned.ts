import type { Planned } from '../calendar/index.ts';
import { plan } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import { readLogs } from './log.ts';
import { openRuns } from './runs.ts';
import type { Store } from './store.ts';

/**
 * Every run that was not deleted with its plan as of `now`. A run takes the id it is stored under, so that two
 * copies of one file keep their calendars apart.
 */
export async function plannedRuns(store: Store, now: string): Promise<Planned[]> {
	const [stored, logs] = [await openRuns(store), await readLogs(store)];
	return stored.map(({ id, document }) => {
		const run = readRun({ ...document, id, log: logs.get(id) ?? [] }, { today: now.slice(0, 10) });
		return { run, plan: plan(run, now) };
	});
}
