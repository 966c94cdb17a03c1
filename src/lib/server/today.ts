import { glyphOf, medicineHues, type Glyph, type Hue } from '../calendar/index.ts';
import { taskKinds, type TaskKind } from '../planner/index.ts';
import { roundOf, tankToday, type TankToday, type Today } from '../today/index.ts';
import { plannedRuns, type PlannedRun } from './planned.ts';
import type { Store } from './store.ts';

/** The round of the day, how its jobs are drawn, and the colour of each medicine by run and id. */
export interface DayRound extends Today {
	hues: Record<string, Record<string, Hue>>;
	glyphs: Record<TaskKind, Glyph>;
	/** another one for each state of a run, by run */
	marks: Record<string, string>;
}

const glyphs = Object.fromEntries(taskKinds.map((kind) => [kind, glyphOf(kind)])) as DayRound['glyphs'];

const rounds = new WeakMap<readonly PlannedRun[], DayRound>();
const parts = new WeakMap<PlannedRun, { tank: TankToday | null; hues: Record<string, Hue> }>();

/**
 * Every open run's jobs of today in working order; made once for the same plans, since many people ask at once, and
 * anew only for the run whose plan is another.
 */
export async function dayRound(store: Store): Promise<DayRound> {
	const now = store.now();
	const planned = await plannedRuns(store, now);
	const made = rounds.get(planned) ?? dayRoundOf(planned, now);
	rounds.set(planned, made);
	return made;
}

function dayRoundOf(planned: readonly PlannedRun[], now: string): DayRound {
	const each = planned.map((one) => {
		const part = parts.get(one) ?? { tank: tankToday(one, now), hues: medicineHues(one.run.medicines) };
		parts.set(one, part);
		return part;
	});
	const tanks = each.flatMap(({ tank }) => tank ?? []);
	const hues = Object.fromEntries(planned.map(({ run }, n) => [run.id, each[n]?.hues ?? {}]));
	const marks = Object.fromEntries(
		planned.map(({ run, stored, log }) => [run.id, `${stored.version}/${log.length}`])
	);
	return { ...roundOf(tanks, now), hues, glyphs, marks };
}
