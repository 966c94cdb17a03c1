import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Planned } from '../calendar/index.ts';
import { dayIn, plan } from '../planner/index.ts';
import { readRun, type Day } from '../run/index.ts';
import { readLogs, type Entry } from './log.ts';
import { marksOf, type Marks } from './marks.ts';
import { openRuns, type StoredRun } from './runs.ts';
import type { Store } from './store.ts';

/** A run that was not deleted, with its facts and its plan; `today` is the day in its own zone. */
export interface PlannedRun extends Planned {
	stored: StoredRun;
	log: readonly Entry[];
	today: Day;
}

interface Kept {
	/** all of them, by what the store held, and the first moment at which one of them is due again */
	all: { mark: string; fromMs: number; untilMs: number; plans: Promise<PlannedRun[]> } | null;
	each: Map<string, KeptRun>;
}

/** A run as it was read under a mark, and its latest plan. */
interface KeptRun {
	mark: string;
	stored: StoredRun;
	log: readonly Entry[];
	/** which of its own minutes the plan is of */
	minute: number;
	made: PlannedRun | null;
}

const keptByStore = new WeakMap<Store, Kept>();

/** A device's clock may run ahead of this one: what it logged a moment ago is not in the future. */
const AHEAD_MS = 10 * 60_000;

const MINUTE_MS = 60_000;

/**
 * Every run that was not deleted with its plan as of `now` or less than a minute before, the same ones to everybody
 * while nothing changes. Each run's minute begins at a second of its own, so that no second has all of them planned
 * anew; a run whose own document and log stayed as they were is neither read nor planned again. A run takes
 * the id it is stored under, so that two copies of one file keep their calendars apart.
 */
export async function plannedRuns(store: Store, now: string): Promise<PlannedRun[]> {
	const kept = keptByStore.get(store) ?? { all: null, each: new Map() };
	keptByStore.set(store, kept);
	const marks = await marksOf(store);
	const nowMs = Date.parse(now);
	const before = kept.all;
	if (before?.mark === marks.all && before.fromMs <= nowMs && nowMs < before.untilMs) return before.plans;
	const untilMs = Math.min(...[...marks.each.keys()].map((id) => minuteEndMs(id, nowMs)));
	const plans = planAll(store, kept, marks.each, now);
	const all = { mark: marks.all, fromMs: nowMs, untilMs, plans };
	kept.all = all;
	plans.catch(() => kept.all === all && (kept.all = null));
	return plans;
}

/** Which of a run's own minutes a moment is in. */
const minuteOf = (id: string, atMs: number): number => Math.floor((atMs - secondOf(id)) / MINUTE_MS);
const minuteEndMs = (id: string, atMs: number): number => (minuteOf(id, atMs) + 1) * MINUTE_MS + secondOf(id);

/** Milliseconds into the minute, spread over the runs by their ids. */
function secondOf(id: string): number {
	let sum = 0;
	for (let at = 0; at < id.length; at++) sum = (sum * 31 + id.charCodeAt(at)) % MINUTE_MS;
	// a prime, so that ids that differ by one sign lie seconds apart
	return (sum * 7919) % MINUTE_MS;
}

async function planAll(store: Store, kept: Kept, marks: Marks['each'], now: string): Promise<PlannedRun[]> {
	await readAgain(store, kept, marks);
	const planned: PlannedRun[] = [];
	for (const id of marks.keys()) {
		const run = kept.each.get(id);
		if (!run) continue;
		const before = run.made;
		const made = plannedRun(run, now);
		planned.push(made);
		// whoever asks for something else meanwhile waits for one plan, not for all
		if (made !== before) await nextTurn();
	}
	return planned;
}

/** Reads what changed; what was deleted meanwhile is not there any more. */
async function readAgain(store: Store, { each }: Kept, marks: Marks['each']): Promise<void> {
	for (const id of each.keys()) if (!marks.has(id)) each.delete(id);
	const changed = [...marks].flatMap(([id, mark]) => (each.get(id)?.mark === mark ? [] : [id]));
	if (changed.length === 0) return;
	const [stored, logs] = await Promise.all([openRuns(store, changed), readLogs(store, changed)]);
	for (const id of changed) each.delete(id);
	for (const run of stored) {
		const mark = marks.get(run.id) ?? '';
		each.set(run.id, { mark, stored: run, log: logs.get(run.id) ?? [], minute: Number.NaN, made: null });
	}
}

function plannedRun(kept: KeptRun, now: string): PlannedRun {
	const { stored, log } = kept;
	const { id, document } = stored;
	const minute = minuteOf(id, Date.parse(now));
	if (kept.made && kept.minute === minute) return kept.made;
	const today = dayIn(String(document.timeZone), now);
	const run = kept.made?.today === today ? kept.made.run : readRun({ ...document, id, log }, { today });
	kept.made = { stored, log, today, run, plan: plan(run, latest(now, log)) };
	kept.minute = minute;
	return kept.made;
}

/** Now, or the last entry's own moment where that is a little ahead of it. */
function latest(now: string, log: readonly Entry[]): string {
	const nowMs = Date.parse(now);
	const lastMs = Date.parse(log.at(-1)?.at ?? now);
	return lastMs > nowMs && lastMs - nowMs < AHEAD_MS ? new Date(lastMs).toISOString() : now;
}
