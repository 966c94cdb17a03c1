import type { Choice } from '../run/index.ts';
import { momentOf, type Service } from './clock.ts';
import type { Bench, Chosen } from './phase-kind.ts';
import { idOf, list, take, taskOf } from './serve.ts';
import type { Active, Due, Walk } from './walk.ts';

/** Where a choice falls: the service that comes next, null when none does, and whether it is still to come. */
export interface Turning {
	next: Service | null;
	/** nothing has passed since the choice: what it asks for counts as done, like the jobs of the latest service */
	current: boolean;
	/** an entry after the choice says what became of the job */
	answered: boolean;
}

/**
 * What the keeper chose about an open or missed job. Given now, it is due at the moment of the choice, figured on the
 * water it finds; the rest of its series keeps its days, or moves by as many. Given up, it was not done. Begun anew,
 * everything of its series that was not done is given up, and the series or the credit begins at the next service.
 * A job that was done, or whose giving up was chosen before, is left alone.
 */
export function choose(walk: Walk, entry: Choice, bench: Bench, turning: Turning): void {
	const { task, taken } = entry;
	const due = walk.due.get(task);
	const active = walk.begun.get(task.slice(0, task.indexOf('/')));
	if (!due || done(due) || due.settled) return;
	const chosen = chosenOf(walk, entry, turning);
	if (taken === 'now' || taken === 'now-shift') giveNow(walk, due, entry, turning);
	else giveUp(walk, task);
	const series = active?.machine.chosen?.(chosen, bench) ?? false;
	if (!active) return;
	if (series && taken === 'now-shift') later(walk, task).forEach((other) => take(walk, other.task.id));
	if (series && taken === 'restart') open(walk, task).forEach((other) => giveUp(walk, other.task.id));
	if (turning.next && (taken === 'restart' || (series && taken !== 'now')))
		reopen(walk, active, turning.next, bench);
}

const done = ({ task: { state } }: Due) => state === 'done' || state === 'late' || state === 'partly';

function chosenOf(walk: Walk, { task, taken, atMs }: Choice, { next }: Turning): Chosen {
	const [phase, kind, n] = task.split('/');
	const { day } = momentOf(walk.run.timeZone, atMs);
	return {
		kind: kind as Chosen['kind'],
		n: Number.parseInt(n ?? '', 10),
		taken,
		day,
		nextDay: next ? next.day + (next.slot > 0 ? 1 : 0) : day + 1,
		settled: (other) => {
			const due = walk.due.get(`${phase}/${kind}/${other}`);
			return due !== undefined && due.task.state !== 'open';
		}
	};
}

/** The job is due at the moment of the choice; nothing left to give is an answer, too. */
function giveNow(walk: Walk, due: Due, { atMs, task }: Choice, { current, answered }: Turning): void {
	const service = momentOf(walk.run.timeZone, atMs);
	walk.answer(task);
	const deed = due.job.act(walk.forecast, walk.newWater());
	if (!deed) return giveUp(walk, task);
	take(walk, task);
	const listed = taskOf(walk, due.job, deed, service, 'open');
	const moved: Due = { job: due.job, deed, service, task: listed, chosen: true };
	walk.due.set(task, moved);
	list(walk, moved.task);
	if (current && !answered) walk.open.unshift({ job: due.job, service, chosen: true });
	else if (!answered) walk.doubt(moved);
}

/** It was not done, and that is an answer. */
function giveUp(walk: Walk, task: string): void {
	walk.answer(task);
	walk.open = walk.open.filter(({ job }) => idOf(job) !== task);
	const due = walk.due.get(task);
	if (!due) return;
	due.task.state = 'missed';
	due.settled = true;
}

/** Open jobs of the same series. */
function open(walk: Walk, task: string): Due[] {
	const series = task.slice(0, task.lastIndexOf('/') + 1);
	return [...walk.due.values()].filter(
		(due) => due.task.state === 'open' && due.task.id !== task && due.task.id.startsWith(series)
	);
}

const numberOf = (task: string) => Number.parseInt(task.slice(task.lastIndexOf('/') + 1), 10);

/** Of these, the ones that come after it. */
const later = (walk: Walk, task: string): Due[] =>
	open(walk, task).filter((due) => numberOf(due.task.id) > numberOf(task));

/** A phase that seemed over goes on, if it now has something to do. */
function reopen(walk: Walk, active: Active, next: Service, bench: Bench): void {
	const span = walk.spans.get(active.phase.id);
	if (!span || span.to === null || walk.active.includes(active)) return;
	if (active.machine.endsWith({ ...next, day: next.day - 1 }, bench)) return;
	walk.lingering = walk.lingering.filter((one) => one !== active);
	walk.active.push(active);
	walk.spans.set(active.phase.id, { ...span, to: null });
}
