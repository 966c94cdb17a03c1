import { dayNumber } from '../../run/index.ts';
import type { Task } from '../plan.ts';
import { logOf, type Seen } from './check.ts';

export const HOURS_PER_DAY = 24;
/** Hands are early or late by this much, and a spring day has 23 hours. */
export const GRACE_HOURS = 2;

/** The doses of a row, without those that only give back what a change took. */
export const dosesOf = ({ plan }: Seen, id: string): Task[] =>
	plan.tasks.filter(
		(task) => task.phase === id && task.kind === 'dose' && !task.id.includes('.') && task.state !== 'missed'
	);

/** Jobs with the one before each, where the two belong to the same round: a series begun anew counts from there. */
export function pairs(seen: Seen, phase: string, jobs: readonly Task[]): [Task, Task][] {
	const anew = logOf(seen).flatMap((entry) =>
		entry.kind === 'choice' && entry.taken === 'restart' && entry.task.startsWith(`${phase}/`)
			? [entry.atMs]
			: []
	);
	return jobs.slice(1).flatMap((job, i): [Task, Task][] => {
		const before = jobs[i];
		if (!before) return [];
		const [from, to] = [Date.parse(before.at), Date.parse(job.at)];
		return anew.some((atMs) => from < atMs && atMs <= to) ? [] : [[before, job]];
	});
}

/** Days by the clock on the wall; work that is early or late by the grace is of the same hour. */
function daysBetween(before: Task, dose: Task): number {
	const days = wallDay(dose) - wallDay(before);
	const whole = Math.round(days);
	return Math.abs(days - whole) * HOURS_PER_DAY <= GRACE_HOURS ? whole : days;
}

const wallDay = ({ date, time }: Task) =>
	dayNumber(date) +
	Number(time.slice(0, 2)) / HOURS_PER_DAY +
	Number(time.slice(3, 5)) / (HOURS_PER_DAY * 60);

/** The first dose of a row that comes so many days after the one before. */
export function wrongGap(doses: readonly [Task, Task][], wrong: (days: number) => boolean) {
	for (const [before, dose] of doses) {
		const days = daysBetween(before, dose);
		if (wrong(days)) return { dose, days };
	}
	return null;
}
