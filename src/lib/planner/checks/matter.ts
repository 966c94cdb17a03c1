import type { Finding } from '../plan.ts';

/**
 * Rules whose findings are told apart by their day, not by their place in the plan. Named here and not on the checks, so
 * that whoever compares two plans needs no check.
 */
export const rulesByDay: ReadonlySet<string> = new Set(['away-on-task', 'test-after-dose', 'time-moved']);

/** What a finding is about: its rule and place, whatever day it falls on; or its day and job, for rules about days. */
export const matter = ({ rule, phase, cell, date, task }: Finding): string =>
	rulesByDay.has(rule) ? `${rule} ${date ?? ''} ${task ?? ''}` : `${rule} ${phase ?? ''} ${cell ?? ''}`;
