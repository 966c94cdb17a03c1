import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Planned } from '../calendar/index.ts';
import { dayIn, plan } from '../planner/index.ts';
import { readRun, type Day } from '../run/index.ts';
import { contentMark } from './feeds.ts';
import { readLogs, type Entry } from './log.ts';
import { openRuns, type StoredRun } from './runs.ts';
import type { Store } from './store.ts';

/** A run that was not deleted, with its facts and its plan; `today` is the day in its own zone. */
export interface PlannedRun extends Planned {
	stored: StoredRun;
	log: readonly Entry[];
	today: Day;
}

interface Kept {
	/** all of them, by what the store held and the minute */
	all: { mark: string; plans: Promise<PlannedRun[]> } | null;
	/** each, by its version, its facts and the minute */
	each: Map<string, { mark: string; made: PlannedRun }>;
}

const keptByStore = new WeakMap<Store, Kept>();

/** A device's clock may run ahead of this one: what it logged a moment ago is not in the future. */
const AHEAD_MS = 10 * 60_000;

/**
 * Every run that was not deleted with its plan as of `now`, the same ones to everybody who asks within a minute while
 * nothing changes; a run whose own document and log stayed as they were is not planned again. A run takes the id it is
 * stored under, so that two copies of one file keep their calendars apart.
 */
export async function plannedRuns(store: Store, now: string): Promise<PlannedRun[]> {
	const kept = keptByStore.get(store) ?? { all: null, each: new Map() };
	keptByStore.set(store, kept);
	const mark = `${await contentMark(store)} ${now.slice(0, 16)}`;
	if (kept.all?.mark === mark) return kept.all.plans;
	const plans = planAll(store, kept, now);
	const all = { mark, plans };
	kept.all = all;
	plans.catch(() => kept.all === all && (kept.all = null));
	return plans;
}

async function planAll(store: Store, kept: Kept, now: string): Promise<PlannedRun[]> {
	const [stored, logs] = await Promise.all([openRuns(store), readLogs(store)]);
	for (const id of kept.each.keys()) if (!stored.some((run) => run.id === id)) kept.each.delete(id);
	const planned: PlannedRun[] = [];
	for (const run of stored) {
		const before = kept.each.get(run.id)?.made;
		const made = plannedRun(kept, run, logs.get(run.id) ?? [], now);
		planned.push(made);
		// whoever asks for something else meanwhile waits for one plan, not for all
		if (made !== before) await nextTurn();
	}
	return planned;
}

function plannedRun(kept: Kept, stored: StoredRun, log: readonly Entry[], now: string): PlannedRun {
	const { id, version, document } = stored;
	const mark = `${version}/${log.length} ${now.slice(0, 16)}`;
	const known = kept.each.get(id);
	if (known?.mark === mark) return known.made;
	const today = dayIn(String(document.timeZone), now);
	const run = readRun({ ...document, id, log }, { today });
	const made = { stored, log, today, run, plan: plan(run, latest(now, log)) };
	kept.each.set(id, { mark, made });
	return made;
}

/** Now, or the last entry's own moment where that is a little ahead of it. */
function latest(now: string, log: readonly Entry[]): string {
	const nowMs = Date.parse(now);
	const lastMs = Date.parse(log.at(-1)?.at ?? now);
	return lastMs > nowMs && lastMs - nowMs < AHEAD_MS ? new Date(lastMs).toISOString() : now;
}
