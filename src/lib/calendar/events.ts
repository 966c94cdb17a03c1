import { minutesFor, type Instant, type Plan, type Task, type TaskKind } from '../planner/index.ts';
import type { Run } from '../run/index.ts';
import { clean, cut, trimmed } from './content-line.ts';
import type { Draft, When } from './event.ts';

import { serviceIds } from './service.ts';
import { deference, figuresOf, lowered, markOf, stateSentence, titleText } from './words.ts';

export interface EventOptions {
	/** only these kinds; absent: all */
	kinds?: readonly TaskKind[];
	/** minutes before the start, by kind; a kind that is absent stays silent */
	alarms?: Partial<Record<TaskKind, number>>;
	/** one event per task (the default), or one per service with all its jobs */
	per?: 'task' | 'service';
	/** whole days instead of times */
	allDay?: boolean;
	/** absolute address of a task on the phone; absent: no link */
	link?: (taskId: string, runId: string) => string;
}

/** Longest title and description, UTF-16 units; calendars show far less, and npm `ics` folds in quadratic time. */
const longest = { title: 500, description: 2000 };

/** What a calendar shows, with the tasks it stands for. */
export interface Listing {
	draft: Draft;
	tasks: readonly Task[];
}

/** The tasks of a plan as a calendar shows them, in the plan's order. A logged job keeps its place and falls silent. */
export const eventsOf = (run: Run, plan: Plan, options: EventOptions = {}): Draft[] =>
	listingsOf(run, plan, options).map(({ draft }) => draft);

/** The same, each with its tasks. */
export function listingsOf(run: Run, plan: Plan, options: EventOptions = {}): Listing[] {
	const listed = (id: string, jobs: readonly Task[]): Listing => ({
		draft: draftOf(run, id, jobs, options),
		tasks: jobs
	});
	const tasks = options.kinds ? plan.tasks.filter((task) => options.kinds?.includes(task.kind)) : plan.tasks;
	if (options.per !== 'service') return tasks.map((task) => listed(task.id, [task]));
	const services = new Map<string, Task[]>();
	const idOf = serviceIds(run, plan);
	for (const task of tasks) {
		const id = idOf(task);
		const jobs = services.get(id);
		if (jobs) jobs.push(task);
		else services.set(id, [task]);
	}
	return [...services].map(([id, jobs]) => listed(id, jobs));
}

function draftOf(run: Run, id: string, jobs: readonly Task[], options: EventOptions): Draft {
	const url = linkOf(run, jobs, options);
	return {
		uid: `${id}@${run.id}`,
		when: whenOf(jobs, options),
		title: titleOf(run, jobs),
		description: descriptionOf(jobs, url),
		url: url !== null && plainAddress.test(url) ? url : null,
		categories: [...new Set(jobs.map((task) => task.kind))],
		alarmMinutes: alarmOf(jobs, options),
		status: statusOf(jobs)
	};
}

/** What npm `ics` and every reader take for a URL; another address still stands in the description. */
const plainAddress = /^https?:\/\/[a-z0-9-]+(\.[a-z0-9-]+)*(:\d{2,5})?(\/[!-~]*)?$/;

const linkOf = (run: Run, [first]: readonly Task[], { link }: EventOptions): string | null =>
	first && link ? clean(link(first.id, run.id)) : null;

function whenOf(jobs: readonly Task[], { allDay }: EventOptions): When {
	const first = jobs[0]!;
	if (allDay) return { day: first.date };
	const minutes = jobs.reduce((sum, task) => sum + minutesFor(task), 0);
	return { start: first.at, end: later(first.at, minutes) };
}

const later = (at: Instant, minutes: number): Instant =>
	`${new Date(Date.parse(at) + minutes * 60_000).toISOString().slice(0, 19)}Z`;

function titleOf(run: Run, jobs: readonly Task[]): string {
	const states = new Set(jobs.map((task) => markOf(task.state)));
	const shared = states.size === 1;
	const texts = jobs.map(
		(task, n) => (shared ? '' : markOf(task.state)) + (n ? lowered(titleText(task)) : titleText(task))
	);
	const tank = run.tank.name ? `${run.tank.name}: ` : '';
	return cut(trimmed(clean((shared ? [...states][0] : '') + tank + texts.join(', '))), longest.title);
}

function descriptionOf(jobs: readonly Task[], url: string | null): string {
	const foot = clean(deference + (url ? `\n${url}` : ''));
	const room = longest.description - foot.length - 2;
	const warned = [...new Set(jobs.flatMap((task) => task.cautions))].map((text) => `Caution: ${text}`);
	// hazards and the address are kept whole where the reasons have to be cut
	const cautions = cut(clean(warned.join('\n')), room);
	const body = cut(
		clean(jobs.map((task) => jobText(task, jobs.length > 1)).join('\n\n')),
		room - cautions.length
	);
	return trimmed([body, cautions, foot].filter((part) => part !== '').join('\n'));
}

const jobText = (task: Task, named: boolean): string =>
	[...(named ? [`${task.text}.`] : []), stateSentence(task.state), task.because, ...figuresOf(task)]
		.filter((line) => line !== '')
		.join('\n');

function alarmOf(jobs: readonly Task[], { alarms, allDay }: EventOptions): number | null {
	const due = jobs.filter((task) => markOf(task.state) === '');
	const before = due.flatMap((task) => alarms?.[task.kind] ?? []);
	if (!before.length) return null;
	const minutes = Math.max(...before);
	return allDay ? minutes - minuteOfDay(due[0]!.time) : minutes;
}

function minuteOfDay(time: string): number {
	const [hours = 0, minutes = 0] = time.split(':').map(Number);
	return hours * 60 + minutes;
}

/** A service counts as done once every job of it is answered, and as missed only if all were. */
function statusOf(jobs: readonly Task[]): Draft['status'] {
	if (jobs.some((task) => markOf(task.state) === '')) return null;
	return jobs.every((task) => task.state === 'missed') ? 'CANCELLED' : 'CONFIRMED';
}
