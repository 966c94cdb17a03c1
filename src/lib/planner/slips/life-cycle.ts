import { gapBounds, type GapBounds } from '../../formulary/index.ts';
import type { Run } from '../../run/index.ts';
import { bottlesOf } from '../bottle.ts';
import { targetOf } from '../phases/pulse.ts';
import type { Task } from '../plan.ts';

/** When the next dose of a pulse may fall at this temperature; null where no timetable is known. */
export function lifeCycleOf(run: Run, task: Task): GapBounds | null {
	const phase = run.phases.find(({ id }) => id === task.phase);
	const bottle = bottlesOf(run).find(({ id }) => id === phase?.medicine);
	const target = phase && bottle ? targetOf(phase, bottle) : null;
	if (!target || run.tank.temperatureC === null) return null;
	const bounds = gapBounds(target, run.tank.temperatureC);
	return bounds.ok ? bounds.value : null;
}
