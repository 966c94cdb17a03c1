import { glyphOf, medicineHues, type Glyph, type Hue } from '../calendar/index.ts';
import { plan, taskKinds, type Plan, type TaskKind } from '../planner/index.ts';
import { readRun, type Run } from '../run/index.ts';
import { todayOf, type Today } from '../today/index.ts';
import { contentMark } from './feeds.ts';
import { readLogs, type Entry } from './log.ts';
import { openRuns, type StoredRun } from './runs.ts';
import type { Store } from './store.ts';

/** The round of the day, how its jobs are drawn, and the colour of each medicine by run and id. */
export interface DayRound extends Today {
	hues: Record<string, Record<string, Hue>>;
	glyphs: Record<TaskKind, Glyph>;
}

const glyphs = Object.fromEntries(taskKinds.map((kind) => [kind, glyphOf(kind)])) as DayRound['glyphs'];

interface KeptPlan {
	/** revision and minute it was made for */
	mark: string;
	run: Run;
	plan: Plan;
}

interface Kept {
	rounds: Map<string, Promise<DayRound>>;
	plans: Map<string, KeptPlan>;
}

const keptByStore = new WeakMap<Store, Kept>();

/** A device's clock may run ahead of this one: what it logged a moment ago is not in the future. */
const AHEAD_MS = 10 * 60_000;

/**
 * Every open run's jobs of today in working order. Many people ask for it at once, so it is made once for what the
 * store holds and the minute, and a run whose own document and log stayed as they were is not planned again.
 */
export async function dayRound(store: Store): Promise<DayRound> {
	const kept = keptByStore.get(store) ?? { rounds: new Map(), plans: new Map() };
	keptByStore.set(store, kept);
	const now = store.now();
	const key = `${await contentMark(store)} ${now.slice(0, 16)}`;
	const known = kept.rounds.get(key);
	if (known) return known;
	const making = make(store, kept, now);
	kept.rounds.clear();
	kept.rounds.set(key, making);
	making.catch(() => kept.rounds.delete(key));
	return making;
}

async function make(store: Store, kept: Kept, now: string): Promise<DayRound> {
	const [stored, logs] = await Promise.all([openRuns(store), readLogs(store)]);
	const planned = stored.map((run) => plannedNow(kept, run, logs.get(run.id) ?? [], now));
	for (const id of kept.plans.keys()) if (!stored.some((run) => run.id === id)) kept.plans.delete(id);
	return {
		...todayOf(planned, now),
		hues: Object.fromEntries(planned.map(({ run }) => [run.id, medicineHues(run.medicines)])),
		glyphs
	};
}

function plannedNow(kept: Kept, { id, version, document }: StoredRun, log: Entry[], now: string): KeptPlan {
	const mark = `${version}/${log.length} ${now.slice(0, 16)}`;
	const known = kept.plans.get(id);
	if (known?.mark === mark) return known;
	const run = readRun({ ...document, id, log }, { today: now.slice(0, 10) });
	const made = { mark, run, plan: plan(run, latest(now, log)) };
	kept.plans.set(id, made);
	return made;
}

/** Now, or the last entry's own moment where that is a little ahead of it. */
function latest(now: string, log: readonly Entry[]): string {
	const nowMs = Date.parse(now);
	const lastMs = Date.parse(log.at(-1)?.at ?? now);
	return lastMs > nowMs && lastMs - nowMs < AHEAD_MS ? new Date(lastMs).toISOString() : now;
}
