import { dayText, readLog, type Day, type Fact, type Phase, type Run } from '../../run/index.ts';
import { bottlesOf, type Bottle } from '../bottle.ts';
import { dayOfInstant } from '../clock.ts';
import type { March } from '../march.ts';
import type { Plan, Sample, Severity, Task } from '../plan.ts';

/** What a check may look at: the run, its plan, and the walk behind it (null when nothing could be placed). */
export interface Seen {
	run: Run;
	plan: Plan;
	walked: March | null;
	nowMs: number;
}

/** A finding before its rule and source are put on it. */
export interface Draft {
	/** absent: the check's own */
	severity?: Severity;
	/** null: the whole run */
	date: Day | null;
	phase: string | null;
	cell?: string;
	task?: string;
	message: string;
	because: string;
	/** absent: the check's own */
	source?: string;
}

/** Something that may mend a finding: it is tried before anyone sees it. */
export interface Candidate {
	/** imperative, one line */
	title: string;
	/** new texts for cells of the plan document by place (`phases.copper.change`); null clears one */
	cells?: Record<string, unknown>;
	/** a new row of the sheet, behind the row named; it is put in before the cells are written */
	insert?: { after: string; row: Record<string, unknown> & { id: string } };
}

/** One rule: what it looks for, how grave it is, where it comes from. */
export interface Check {
	rule: string;
	/** the gravest it gives; a finding may say less */
	severity: Severity;
	appliesTo: 'run' | 'tank' | 'fish' | 'medicine' | 'phase' | 'task' | 'log';
	about: string;
	source: string;
	find(seen: Seen): Draft[];
	/** what may mend it, the least disruptive first */
	repairs?(draft: Draft, seen: Seen): Candidate[];
}

/** Slack for comparing computed levels. */
export const NEAR = 1e-9;
export const MS_PER_HOUR = 3_600_000;

export const phaseOf = ({ run }: Seen, id: string | null): Phase | undefined =>
	run.phases.find((phase) => phase.id === id);

const bottlesByRun = new WeakMap<Run, Bottle[]>();

/** All medicines of the run, with their rows; also where no day could be placed. */
export function bottlesIn({ run, walked }: Seen): readonly Bottle[] {
	const known = walked?.walk.bottles ?? bottlesByRun.get(run) ?? bottlesOf(run);
	bottlesByRun.set(run, known);
	return known;
}

export const bottleOf = (seen: Seen, id: string | null | undefined): Bottle | undefined =>
	bottlesIn(seen).find((bottle) => bottle.id === id);

/** A phase that has a medicine, with its days. */
export interface Given {
	phase: Phase;
	bottle: Bottle;
	from: Day;
	/** null: it never ends */
	to: Day | null;
}

const intoTheWater = ['hold', 'pulse', 'daily'];

/** Phases that put a medicine into the tank's water, with their bottle and span. */
export const dosing = (seen: Seen): Given[] =>
	giving(seen).filter(({ phase }) => intoTheWater.includes(phase.kind));

/** Phases whose medicine reaches the fish: in the water, in a bath, in the food. */
export function giving(seen: Seen): Given[] {
	return seen.run.phases.flatMap((phase) => {
		const bottle = bottleOf(seen, phase.medicine);
		const span = seen.plan.phases.find(({ id }) => id === phase.id);
		if (!bottle || !span?.from || ![...intoTheWater, 'dip', 'feed'].includes(phase.kind)) return [];
		return [{ phase, bottle, from: span.from, to: span.to }];
	});
}

/** Is the day inside the phase's span? */
export const during = (day: Day, { from, to }: Pick<Given, 'from' | 'to'>): boolean =>
	day >= from && (to === null || day <= to);

/** Name of a medicine inside a sentence. */
export const called = ({ row }: Bottle): string => row.name.charAt(0).toLowerCase() + row.name.slice(1);

/** The local calendar day of an instant. */
export const dayAt = ({ run }: Pick<Seen, 'run'>, at: string | number): Day =>
	dayText(dayOfInstant(run.timeZone, typeof at === 'number' ? at : Date.parse(at)));

export interface ServiceWater {
	day: Day;
	before: Sample;
	after: Sample;
}

const watersByPlan = new WeakMap<Sample[], ServiceWater[]>();

/** The water as each service finds and leaves it. */
export function servicesIn({ plan: { levels } }: Seen): readonly ServiceWater[] {
	const known = watersByPlan.get(levels);
	if (known) return known;
	const waters: ServiceWater[] = [];
	for (const [i, before] of levels.entries()) {
		if (before.when !== 'before') continue;
		const after = levels.slice(i + 1).find(({ when }) => when !== 'between');
		waters.push({ day: before.date, before, after: after?.when === 'after' ? after : before });
	}
	watersByPlan.set(levels, waters);
	return waters;
}

export const levelIn = (sample: Sample, bottle: Bottle): number => sample.medicinesMgPerL[bottle.id] ?? 0;

/** Why later doses of a medicine have no amount for now; null: they have one. What follows from that is no fault of the plan. */
export function withheld({ walked }: Seen, bottle: Bottle | undefined): string | null {
	const doubt = bottle && walked?.walk.doubts[bottle.index];
	if (doubt?.unanswered)
		return `nobody answered for the dose of ${walked?.walk.due.get(doubt.unanswered)?.service.date ?? 'an earlier day'}`;
	return doubt?.implausible ?? null;
}

/** The log up to now, corrections folded in. */
export const logOf = ({ run, nowMs }: Pick<Seen, 'run' | 'nowMs'>): Fact[] =>
	readLog(run.log).filter(({ atMs }) => atMs <= nowMs);

/** Signs of disease in an entry or on a lot; `none` is no sign. */
export const sick = (signs: readonly string[]): string[] => signs.filter((sign) => sign !== 'none');

/** Jobs still to come. */
export const ahead = ({ plan, nowMs }: Seen): Task[] =>
	plan.tasks.filter(({ at }) => Date.parse(at) >= nowMs);

/** An id no row of the sheet has yet. */
export function freeId({ run }: Seen, wish: string): string {
	const taken = new Set(run.phases.map(({ id }) => id));
	for (let n = 1; ; n++) {
		const id = n === 1 ? wish : `${wish}-${n}`;
		if (!taken.has(id)) return id;
	}
}

/** The first item per key: one word about a thing that repeats. */
export function firstPer<T>(items: readonly T[], key: (item: T) => string): T[] {
	const seen = new Set<string>();
	return items.filter((item) => !seen.has(key(item)) && seen.add(key(item)));
}

/** A level older than this says nothing about now. */
const FRESH_MS = 24 * 3_600_000;

/** The water as it stands; undefined where nothing tells of the last day. */
export function sampleNow({ plan, nowMs }: Pick<Seen, 'plan' | 'nowMs'>): Sample | undefined {
	const last = plan.levels.findLast(({ at }) => Date.parse(at) <= nowMs);
	return last && nowMs - Date.parse(last.at) <= FRESH_MS ? last : undefined;
}
