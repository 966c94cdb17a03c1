import { dayNumber, type Phase } from '../../run/index.ts';

/** Last day of a phase that lasts a stated time; one day where nothing is stated (a finding says so). */
export function lastDay(phase: Phase, from: number): number {
	const lasts = phase.lasts;
	if (lasts && 'days' in lasts) return from + Math.max(1, Math.round(lasts.days)) - 1;
	if (lasts && 'until' in lasts) return Math.max(from, dayNumber(lasts.until));
	return from;
}
