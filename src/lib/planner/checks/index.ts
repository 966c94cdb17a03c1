import type { Run } from '../../run/index.ts';
import type { March } from '../march.ts';
import type { Finding, Plan } from '../plan.ts';

/** What a check may look at: the run, its plan, and the walk behind it (null when nothing could be placed). */
export interface Seen {
	run: Run;
	plan: Plan;
	walked: March | null;
	nowMs: number;
}

/** One rule: looks at a plan and says what should not be followed. */
export interface Check {
	rule: string;
	find(seen: Seen): Finding[];
}

/** Every check the planner knows; a new one is a file beside this one and a row here. */
export const checks: readonly Check[] = [];

/** All findings, by date (the whole run first), severity, phase, rule. */
export function findingsOf(seen: Seen): Finding[] {
	return checks.flatMap((check) => check.find(seen));
}
