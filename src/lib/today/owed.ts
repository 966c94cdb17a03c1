import type { Task } from '../planner/index.ts';
import { readLog, type Fact } from '../run/index.ts';
import type { Ask, Verdict } from './ask.ts';
import type { Asking } from './asked.ts';
import { judge } from './verdict.ts';

/**
 * What a level that was read low, and is believed, still asks for once the dose of its day is given: the plan brings it
 * at the next service only. Null where a dose of this day waits, or came after the reading.
 */
export function owedBy(asking: Asking, task: Task, ask: Ask, facts: readonly Fact[]): Verdict | null {
	const { keep, dose } = ask;
	const last = facts.findLast(
		(fact) => fact.kind === 'reading' && fact.task === task.id && fact.what === ask.what
	);
	if (!keep || !dose || last?.kind !== 'reading' || last.value >= keep.floor) return null;
	const { run, plan, answered } = asking;
	const doses = plan.tasks.filter(({ kind, medicine }) => kind === 'dose' && medicine === dose.medicine);
	if (doses.some(({ id, date }) => date === task.date && !answered.has(id))) return null;
	const given = new Set(doses.map(({ id }) => id));
	const since = readLog(run.log).some(
		(fact) =>
			fact.atMs >= last.atMs &&
			(fact.kind === 'dose' ? fact.medicine === dose.medicine : fact.kind === 'done' && given.has(fact.task))
	);
	if (since) return null;
	const verdict = judge(ask, { value: last.value, earlier: true, atMs: last.atMs });
	return verdict.dose?.now && verdict.dose.now.value > 0 ? verdict : null;
}
