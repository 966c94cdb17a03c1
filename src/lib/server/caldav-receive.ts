import { createHash } from 'node:crypto';
import { newsOf, readObject, type News, type Received } from '../calendar/index.ts';
import { dayOfInstant, type Task } from '../planner/index.ts';
import { dayText } from '../run/index.ts';
import { bodiesOf, changesSince, type Changes, type Resource } from './caldav-collection.ts';
import { keepItem, type Item } from './caldav-items.ts';
import { answersTo, note, taskOf, wallOf, type Look } from './caldav-look.ts';
import { judgeMove } from './caldav-move.ts';
import { propose } from './caldav-proposals.ts';
import { appendLog, type Logged } from './log.ts';

/** What a look at the server brought: the token to go on from; `asks` when most of it was deleted there. */
export type Pulled = { token: string | null; asks: null } | { asks: { count: number; of: number } };

/** Takes in what changed on the server: completions are logged, moves proposed, deletions and the rest noted. */
export async function pull(look: Look): Promise<Pulled> {
	const changes = await changesSince(look.collection, look.account.token);
	const byHref = new Map([...look.items.values()].map((item) => [item.href, item]));
	const fresh = changes.changed.filter(({ href, etag }) => byHref.get(href)?.etag !== etag || etag === '');
	for (const resource of await bodiesOf(
		look.collection,
		fresh.map(({ href }) => href)
	))
		await receive(look, resource);
	const gone = goneItems(look, changes);
	const live = [...look.items.values()].filter(({ etag }) => etag !== null).length;
	const asked = gone.filter((item) => item.goneAt === null).length;
	if (asked * 2 > live && asked > 1 && look.agreed !== 'restore') return { asks: { count: asked, of: live } };
	for (const item of gone) await missing(look, item);
	return { token: changes.token, asks: null };
}

function goneItems(look: Look, { gone, full, changed }: Changes): Item[] {
	const there = new Set(changed.map(({ href }) => href));
	const away = new Set(gone);
	return [...look.items.values()].filter(
		({ etag, href }) => etag !== null && (full ? !there.has(href) : away.has(href))
	);
}

/** One resource as the server holds it now. What is not ours stays untouched. */
export async function receive(look: Look, { href, etag, body }: Resource): Promise<void> {
	const uid = readObject(body, 'UTC')?.uid;
	const item = uid === undefined ? undefined : look.items.get(uid);
	if (!item) return;
	const zone = look.planned.get(item.run)?.run.timeZone ?? 'UTC';
	const now = readObject(body, zone);
	const was = item.body === null ? null : readObject(item.body, zone);
	if (!now) return;
	const news = was && newsOf(was, now);
	const stale = item.stale || (news !== null && isForeign(news)) || item.goneAt !== null;
	const sequence = Math.max(item.sequence, now.sequence);
	const kept = { ...item, href, etag, body, stale, sequence };
	if (was && news) await hear(look, kept, news, { ...now, title: was.title });
	// a copy that outlived its task: another program kept it, and it may have been ticked since
	else if (item.goneAt !== null && now.done) await complete(look, kept, taskOf(look, kept), now);
	look.items.set(kept.uid, kept);
	// after what it says was taken in: a look that breaks off hears it again
	await keepItem(look.store, look.account.id, kept);
}

const isForeign = ({ moved, reopened, changed, done }: News): boolean =>
	moved !== null || reopened || done || changed.length > 0;

async function hear(look: Look, item: Item, news: News, now: Received): Promise<void> {
	const task = taskOf(look, item);
	if (news.done) await complete(look, item, task, now);
	else if (news.moved !== null && item.goneAt === null) await wish(look, item, task, now, news.moved);
	if (news.reopened)
		note(look, 'refused', `${now.title} was opened again there: it is logged here, so it stays done.`);
	if (news.changed.length)
		note(
			look,
			'refused',
			`${now.title}: its ${news.changed.join(' and ')} was changed there and is put back.`
		);
}

const earlyMs = 12 * 3_600_000;

/** Ticked on the phone: logged here once, with its time and the amount it named. */
async function complete(look: Look, item: Item, task: Task | undefined, now: Received): Promise<void> {
	const at = now.completedAt !== null && now.completedAt < look.now ? now.completedAt : look.now;
	const answered = answersTo(look, item).length > 0;
	if (answered) {
		if (task?.state === 'missed')
			note(
				look,
				'refused',
				`${now.title} was ticked there, but is logged as missed here: correct the log if it was done.`
			);
		return;
	}
	if (task && Date.parse(task.at) - Date.parse(at) > earlyMs) {
		note(
			look,
			'refused',
			`${now.title} was ticked there before its day, ${task.date}: it stays open. Log it by hand if it was done.`
		);
		return;
	}
	const logged = await logTick(look, item, at);
	if (!logged?.ok) {
		note(
			look,
			'refused',
			`${now.title} was ticked there and cannot be logged: ${logged?.sentence ?? 'its run is gone'}.`
		);
		return;
	}
	look.logged = true;
	if (logged.added)
		note(
			look,
			'received',
			`${now.title}: done there on ${wallOf(look, item, at)}, logged here.${aftermath(task)}`
		);
}

function aftermath(task: Task | undefined): string {
	if (!task)
		return ' The plan had dropped it meanwhile: what was done counts all the same, look at the plan.';
	return task.kind === 'test' ? ' Its reading is still to be typed.' : '';
}

/** As the task done; where the plan has dropped its whole row, as the work itself, which moved the water all the same. */
async function logTick(look: Look, item: Item, at: string): Promise<Logged | null> {
	const mark = createHash('sha256').update(`${look.account.id} ${item.uid} ${at}`).digest('hex');
	const head = { id: `phone-${mark.slice(0, 24)}`, at, note: 'ticked in the calendar' };
	const { task, amount } = item;
	const done = { ...head, kind: 'done', task, ...(amount === null ? {} : { amount }) };
	const logged = await appendLog(look.store, item.run, [done], 'calendar');
	const work = workOf(item);
	if (logged === null || logged.ok || work === null) return logged;
	return appendLog(look.store, item.run, [{ ...head, ...work }], 'calendar');
}

/** What was done to the water, said without the task. */
function workOf({ task, amount, medicine }: Item): ({ kind: string } & Record<string, string>) | null {
	const kind = task.split('/')[1];
	if (amount === null) return null;
	if (kind === 'dose' && medicine !== null) return { kind: 'dose', medicine, amount };
	if (kind === 'change' || kind === 'washout') return { kind: 'change', litres: amount, source: 'source' };
	return kind === 'topoff' ? { kind: 'topoff', litres: amount } : null;
}

/** A time moved on the phone: kept as a proposal if the plan could follow, else refused; shown as planned until then. */
async function wish(
	look: Look,
	item: Item,
	task: Task | undefined,
	now: Received,
	to: string
): Promise<void> {
	const zone = look.planned.get(item.run)?.run.timeZone ?? 'UTC';
	const day = to.includes('T') ? dayText(dayOfInstant(zone, Date.parse(to))) : to;
	const judged = await judgeMove(look.store, { run: item.run, task: item.task, day }, look.now);
	if (!judged.allowed) {
		note(look, 'refused', `${now.title} was moved to ${day} there and is put back. ${judged.sentence}`);
		return;
	}
	await propose(look.store, {
		account: look.account.id,
		run: item.run,
		task: item.task,
		title: now.title,
		was: task?.date ?? '',
		day
	});
	note(
		look,
		'asked',
		`${now.title} was moved from ${task?.date ?? 'no day'} to ${day} there: accept or refuse it. Until then it shows its planned time.`
	);
}

/** Deleted there: what is still planned is written again, what was done or dropped stays away. */
async function missing(look: Look, item: Item): Promise<void> {
	const task = taskOf(look, item);
	const due = task !== undefined && (task.state === 'planned' || task.state === 'open');
	if (due && item.goneAt === null)
		note(
			look,
			'refused',
			`${task.text}, ${task.date}, was deleted there: it is still planned, so it is written again.`
		);
	const kept = { ...item, etag: null, body: null, stale: due };
	look.items.set(kept.uid, kept);
	await keepItem(look.store, look.account.id, kept);
}
