import type { Plan, Task } from '../planner/index.ts';
import { dayNumber, type Run } from '../run/index.ts';

/**
 * Ids of services that outlive replanning: `phase/service/n`, n being the day of the phase (1 on its first day)
 * and the phase the first of the sheet that holds that day; `n-2` is the second service of a day. Like a task
 * id it counts within its phase, so a phase put in front moves the service instead of renaming it.
 */
export function serviceIds(run: Run, plan: Plan): (task: Task) => string {
	return (task) => {
		const span = plan.phases.find(
			({ from, to }) => from !== null && from <= task.date && (to === null || task.date <= to)
		);
		const place = span?.from
			? `${span.id}/service/${dayNumber(task.date) - dayNumber(span.from) + 1}`
			: `${task.id}/service`;
		return place + slotOf(run, task.time);
	};
}

/** Empty for the first service of a day, `-2` for the second; a time that is no service stands by itself. */
function slotOf(run: Run, time: string): string {
	const slot = run.services.indexOf(time);
	if (slot < 0) return `-${time.replace(':', '')}`;
	return slot ? `-${slot + 1}` : '';
}
