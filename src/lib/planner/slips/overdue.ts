import { dayNumber, type Run } from '../../run/index.ts';
import { dayOfInstant, servicesOf } from '../clock.ts';
import type { Task } from '../plan.ts';

/**
 * Whether the time of a job has passed: a later service of the run has come, or its day is over in the run's zone.
 * Until then it is the work of today, however late in the day it is done.
 */
export function overdue(
	{ timeZone, services }: Run,
	nowMs: number
): (task: Pick<Task, 'at' | 'date'>) => boolean {
	const today = dayOfInstant(timeZone, nowMs);
	const latestMs =
		servicesOf(timeZone, today, services).findLast(({ atMs }) => atMs <= nowMs)?.atMs ?? -Infinity;
	return ({ at, date }) => dayNumber(date) < today || Date.parse(at) < latestMs;
}
