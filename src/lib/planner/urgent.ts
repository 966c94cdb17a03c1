import type { Task } from './plan.ts';

/** A change that cannot wait goes before the jobs of the service it fell into: a dose before it would come on top of what it takes. */
export const urgentFirst = (tasks: readonly Task[]): Task[] => [
	...tasks.filter(({ urgent }) => urgent),
	...tasks.filter(({ urgent }) => !urgent)
];
