import type { Run, Taken } from '../../run/index.ts';
import type { Plan, Task } from '../plan.ts';
import { slipRules } from './rules.ts';
import type { Use } from './slip.ts';

type Job = Pick<Task, 'phase' | 'kind'>;
type Planned = { run: Pick<Run, 'phases'>; plan: Pick<Plan, 'tasks'> };

export function useOf({ phases }: Pick<Run, 'phases'>, { kind, phase }: Job): Use | null {
	if (kind === 'test' || kind === 'dip' || kind === 'transfer') return kind;
	if (kind === 'change' || kind === 'washout') return 'change';
	const of = phases.find(({ id }) => id === phase)?.kind;
	return kind === 'dose' && (of === 'hold' || of === 'pulse' || of === 'daily') ? of : null;
}

/** Is anything of its series still to come? */
export const hasLater = ({ tasks }: Pick<Plan, 'tasks'>, task: Task): boolean =>
	tasks.some(
		({ phase, kind, at, state }) =>
			phase === task.phase && kind === task.kind && at > task.at && (state === 'planned' || state === 'open')
	);

/** What a way is called where it is offered; `last`: nothing of its series is left to speak of. */
export function titleOf(use: Use, taken: Taken, last: boolean): string | null {
	const title = slipRules[use].ways[taken]?.title ?? null;
	return title !== null && taken === 'now' && last ? (title.split(',')[0] ?? '') : title;
}

/** What a way that was taken is called, wherever it is told: as it was offered. The plan may no longer have its job. */
export function wayTitle({ run, plan }: Planned, id: string, taken: Taken): string {
	const task = plan.tasks.find((one) => one.id === id);
	const [phase = '', kind = ''] = id.split('/');
	const use = useOf(run, task ?? { phase, kind: kind as Task['kind'] });
	const title = use && titleOf(use, taken, !task || !hasLater(plan, task));
	return title ?? plain[taken];
}

const plain: Readonly<Record<Taken, string>> = {
	now: 'Do it now',
	'now-shift': 'Do it now, the rest as much later',
	skip: 'Skip it and go on',
	restart: 'Begin again'
};
