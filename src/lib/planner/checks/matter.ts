import type { Finding } from '../plan.ts';
import { checks } from './index.ts';

/** What a finding is about: its rule and place, whatever day it falls on; or its day and job, for rules about days. */
export function matter({ rule, phase, cell, date, task }: Finding): string {
	const byDay = checks.find((check) => check.rule === rule)?.byDay;
	return byDay ? `${rule} ${date ?? ''} ${task ?? ''}` : `${rule} ${phase ?? ''} ${cell ?? ''}`;
}
