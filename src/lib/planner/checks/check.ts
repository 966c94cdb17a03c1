import type { Day, Phase, Run } from '../../run/index.ts';
import type { Bottle } from '../bottle.ts';
import type { March } from '../march.ts';
import type { Plan, Severity } from '../plan.ts';

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

/** New texts for cells of the plan document by place (`phases.copper.change`); null clears one. */
export interface Candidate {
	title: string;
	cells: Record<string, unknown>;
}

/** One rule: what it looks for, how grave it is, where it comes from. */
export interface Check {
	rule: string;
	severity: Severity;
	about: string;
	source: string;
	find(seen: Seen): Draft[];
	/** edits that may mend it, the least disruptive first; each is tried before it is offered */
	repairs?(draft: Draft, seen: Seen): Candidate[];
}

export const practice = 'common practice, no source';
export const judgment = 'judgment, no source';
export const memory = 'from memory';

export const phaseOf = ({ run }: Seen, id: string | null): Phase | undefined =>
	run.phases.find((phase) => phase.id === id);

export const bottleOf = ({ walked }: Seen, id: string | null | undefined): Bottle | undefined =>
	walked?.walk.bottles.find((bottle) => bottle.id === id);

/** Phases that put a medicine into the tank's water, with their bottle and span. */
export function dosing(seen: Seen): { phase: Phase; bottle: Bottle; from: Day; to: Day | null }[] {
	return seen.run.phases.flatMap((phase) => {
		const bottle = bottleOf(seen, phase.medicine);
		const span = seen.plan.phases.find(({ id }) => id === phase.id);
		if (!bottle || !span?.from || !['hold', 'pulse', 'daily'].includes(phase.kind)) return [];
		return [{ phase, bottle, from: span.from, to: span.to }];
	});
}

/** The first draft per key: one word about a thing that repeats. */
export function firstPer<T>(items: readonly T[], key: (item: T) => string): T[] {
	const seen = new Set<string>();
	return items.filter((item) => !seen.has(key(item)) && seen.add(key(item)));
}
