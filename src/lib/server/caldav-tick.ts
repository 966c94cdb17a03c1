import { createHash } from 'node:crypto';
import type { Received } from '../calendar/index.ts';
import type { Task } from '../planner/index.ts';
import type { Item, Job } from './caldav-items.ts';
import { answersTo, note, tasksOf, wallOf, type Look } from './caldav-look.ts';
import { appendLog, type Logged } from './log.ts';

const earlyMs = 12 * 3_600_000;

/** Ticked on the phone: each of its jobs that is still open is logged here once, with its time and the amount it named. */
export async function complete(look: Look, item: Item, now: Received): Promise<void> {
	const at = now.completedAt !== null && now.completedAt < look.now ? now.completedAt : look.now;
	const tasks = tasksOf(look, item);
	const refuse = (sentence: string) => note(look, 'refused', `${now.title} was ticked there${sentence}`);
	if (tasks.some(({ state }) => state === 'missed'))
		refuse(', but is logged as missed here: correct the log if it was done.');
	const open = item.jobs.filter(({ task }) => answersTo(look, item.run, task).length === 0);
	const early = tasks.find((task) => Date.parse(task.at) - Date.parse(at) > earlyMs);
	if (early && open.length) {
		refuse(` before its day, ${early.date}: it stays open. Log it by hand if it was done.`);
		return;
	}
	let added = 0;
	for (const job of open) {
		const logged = await logTick(look, item, job, at);
		if (logged?.ok) added += logged.added;
		else refuse(` and ${job.task} cannot be logged: ${logged?.sentence ?? 'its run is gone'}.`);
		look.logged ||= logged?.ok === true;
	}
	if (added)
		note(
			look,
			'received',
			`${now.title}: done there on ${wallOf(look, item, at)}, logged here.${aftermath(open, tasks)}`
		);
}

function aftermath(jobs: readonly Job[], tasks: readonly Task[]): string {
	const planned = tasks.filter(({ id }) => jobs.some(({ task }) => task === id));
	if (planned.length < jobs.length)
		return ' The plan had dropped it meanwhile: what was done counts all the same, look at the plan.';
	return planned.some(({ kind }) => kind === 'test') ? ' Its reading is still to be typed.' : '';
}

/** As the task done; where the plan has dropped its whole row, as the work itself, which moved the water all the same. */
async function logTick(look: Look, item: Item, job: Job, at: string): Promise<Logged | null> {
	const { task, amount } = job;
	const mark = createHash('sha256').update(`${look.account.id} ${item.uid} ${at}`).digest('hex');
	// the log goes by time, then by id: a dose after a change has to stay after it
	const place = item.jobs.length > 1 ? `-${String(item.jobs.indexOf(job)).padStart(2, '0')}` : '';
	const head = { id: `phone-${mark.slice(0, 24)}${place}`, at, note: 'ticked in the calendar' };
	const done = { ...head, kind: 'done', task, ...(amount === null ? {} : { amount }) };
	const logged = await appendLog(look.store, item.run, [done], 'calendar');
	const work = workOf(job);
	if (logged === null || logged.ok || work === null) return logged;
	return appendLog(look.store, item.run, [{ ...head, ...work }], 'calendar');
}

/** What was done to the water, said without the task. */
function workOf({ task, amount, medicine }: Job): ({ kind: string } & Record<string, string>) | null {
	const kind = task.split('/')[1];
	if (amount === null) return null;
	if (kind === 'dose' && medicine !== null) return { kind: 'dose', medicine, amount };
	if (kind === 'change' || kind === 'washout') return { kind: 'change', litres: amount, source: 'source' };
	return kind === 'topoff' ? { kind: 'topoff', litres: amount } : null;
}
