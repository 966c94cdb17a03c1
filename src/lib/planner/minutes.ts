import type { Task, TaskKind } from './plan.ts';

/** How long a job takes, in minutes, set-up and wiping down included. Judgment, no source. */
const minutesOf: Record<TaskKind, number> = {
	observe: 5,
	topoff: 5,
	test: 10,
	equipment: 5,
	change: 30,
	washout: 45,
	salinity: 20,
	dose: 10,
	dip: 30,
	transfer: 45,
	supply: 15,
	release: 30,
	acclimate: 60,
	feed: 5,
	clean: 15
};

/** Estimated minutes of a task; a timed bath lasts its own time and a quarter of an hour around it. */
export const minutesFor = (task: Pick<Task, 'kind' | 'minutes'>): number =>
	task.minutes === undefined ? minutesOf[task.kind] : Math.ceil(task.minutes) + 15;

export const taskKinds = Object.keys(minutesOf) as TaskKind[];
