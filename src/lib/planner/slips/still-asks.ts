import { dayNumber, readLog, type Run } from '../../run/index.ts';
import { dayOfInstant } from '../clock.ts';
import type { Plan, Task } from '../plan.ts';
import { overdue } from './overdue.ts';
import type { Use } from './slip.ts';
import { useOf } from './way-title.ts';

interface Planned {
	run: Run;
	plan: Plan;
	nowMs: number;
}

/** Skipped jobs that still ask how to go on. */
export const skippedOpen = (seen: Planned): Task[] =>
	seen.plan.tasks.filter((task) => task.state === 'missed' && slipOf(seen, task) !== null);

/** The use of a job that is a slip now; null where it is none. */
export function slipOf(seen: Planned, task: Task): Use | null {
	const use = useOf(seen.run, task);
	const atMs = Date.parse(task.at);
	if (!use || atMs >= seen.nowMs) return null;
	// while an older dose had no answer a hold figured none: there was nothing to miss
	if (use === 'hold' && task.amount === null) return null;
	if (task.state === 'open') return overdue(seen.run, seen.nowMs)(task) ? use : null;
	return task.state === 'missed' && matters(seen, task, use) ? use : null;
}

/** A missed job still asks for a choice: none was made, nothing done later covers it, and its phase is not history. */
function matters(seen: Planned, task: Task, use: Use): boolean {
	const { run, plan, nowMs } = seen;
	const chosen = readLog(run.log).some(
		(entry) => entry.kind === 'choice' && entry.task === task.id && entry.atMs <= nowMs
	);
	// a daily course owes the dose all the same
	if (chosen || (use !== 'daily' && covered(seen, task))) return false;
	const span = plan.phases.find(({ id }) => id === task.phase);
	const running = !span?.to || dayNumber(span.to) >= dayOfInstant(run.timeZone, nowMs);
	const released = plan.tasks.some(({ kind, at }) => kind === 'release' && Date.parse(at) < nowMs);
	return (
		running || (!released && (use === 'pulse' || use === 'daily' || use === 'dip' || use === 'transfer'))
	);
}

/** A later job of the kind was done since. */
export function covered({ plan }: Planned, task: Task): boolean {
	return plan.tasks.some(
		(other) =>
			other.kind === task.kind &&
			other.at > task.at &&
			(task.kind === 'test'
				? task.what?.every((what) => other.what?.includes(what)) === true
				: other.phase === task.phase) &&
			(other.state === 'done' || other.state === 'late' || other.state === 'partly')
	);
}
