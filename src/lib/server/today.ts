import { glyphOf, medicineHues, type Glyph, type Hue } from '../calendar/index.ts';
import { taskKinds, type TaskKind } from '../planner/index.ts';
import { todayOf, type Today } from '../today/index.ts';
import { plannedRuns, type PlannedRun } from './planned.ts';
import type { Store } from './store.ts';

/** The round of the day, how its jobs are drawn, and the colour of each medicine by run and id. */
export interface DayRound extends Today {
	hues: Record<string, Record<string, Hue>>;
	glyphs: Record<TaskKind, Glyph>;
}

const glyphs = Object.fromEntries(taskKinds.map((kind) => [kind, glyphOf(kind)])) as DayRound['glyphs'];

const rounds = new WeakMap<readonly PlannedRun[], DayRound>();

/** Every open run's jobs of today in working order; made once for the same plans, since many people ask at once. */
export async function dayRound(store: Store): Promise<DayRound> {
	const now = store.now();
	const planned = await plannedRuns(store, now);
	const made = rounds.get(planned) ?? {
		...todayOf(planned, now),
		hues: Object.fromEntries(planned.map(({ run }) => [run.id, medicineHues(run.medicines)])),
		glyphs
	};
	rounds.set(planned, made);
	return made;
}
