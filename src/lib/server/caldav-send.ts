import { listingsOf, newsOf, readObject, stamp, writeObject, type CalendarEvent } from '../calendar/index.ts';
import type { Task } from '../planner/index.ts';
import { dayNumber, dayText } from '../run/index.ts';
import { DavTrouble } from './caldav-fetch.ts';
import { put, remove, resourceAt, type Written } from './caldav-collection.ts';
import { hrefFor, keepItem, type Item, type Job } from './caldav-items.ts';
import { answersTo, note, type Look } from './caldav-look.ts';
import { receive } from './caldav-receive.ts';
import { taskAddress } from './task-address.ts';

/** Days of a plan that stand on a server: enough to look ahead, few enough for a phone. */
export const serverWindow = { daysBack: 30, daysAhead: 90 };

/** An event of the plan with the run and the tasks it stands for. */
interface Wanted {
	event: CalendarEvent;
	row: Pick<Item, 'sequence' | 'lastModified' | 'timing' | 'content'>;
	run: string;
	task: string;
	jobs: Job[];
	/** when what is done was done */
	doneAt: string | null;
}

/** What is to be on the server, and what has left the plan. */
export interface Errand {
	wanted: Wanted[];
	leaving: Item[];
	/** objects on the server now */
	live: number;
}

/** Compares the plans with what the server is known to hold. */
export function errandOf(look: Look): Errand {
	const wishes = wishesOf(look);
	const items = [...look.items.values()];
	return {
		wanted: wishes.filter(({ event }) => inWindow(event, look.now)),
		leaving: items.filter(({ uid, etag }) => etag !== null && !wishes.some(({ event }) => event.uid === uid)),
		live: items.filter(({ etag }) => etag !== null).length
	};
}

function wishesOf(look: Look): Wanted[] {
	const { kinds, alarms, per, allDay, origin } = look.account.scope;
	const link = origin === undefined ? undefined : taskAddress(origin);
	return [...look.planned.values()].flatMap(({ run, plan }) => {
		const listings = listingsOf(run, plan, { kinds, alarms, per, allDay, link });
		const drafts = listings.map(({ draft }) => draft);
		const known = drafts.flatMap(({ uid }) => look.items.get(uid) ?? []);
		const { rows, events } = stamp(known, drafts, look.now);
		return events.flatMap((event, n) => {
			const [row, tasks] = [rows[n], listings[n]?.tasks];
			if (!row || !tasks) return [];
			const task = event.uid.slice(0, -run.id.length - 1);
			return [
				{ event, row, run: run.id, task, jobs: tasks.map(jobOf), doneAt: doneAtOf(look, run.id, tasks) }
			];
		});
	});
}

const jobOf = ({ id, amount, medicine }: Task): Job => ({
	task: id,
	amount: amount ? `${amount.value} ${amount.unit}` : null,
	medicine: medicine ?? null
});

/** The latest answer to any of them. */
function doneAtOf(look: Look, run: string, tasks: readonly Task[]): string | null {
	const times = tasks.flatMap(({ id }) => answersTo(look, run, id).at(-1)?.atMs ?? []);
	return times.length ? new Date(Math.max(...times)).toISOString().replace(/\.\d+Z$/, 'Z') : null;
}

function inWindow({ when }: CalendarEvent, now: string): boolean {
	const day = ('day' in when ? when.day : when.start).slice(0, 10);
	const today = dayNumber(now.slice(0, 10));
	return day >= dayText(today - serverWindow.daysBack) && day <= dayText(today + serverWindow.daysAhead);
}

/** Refusals in one look after which there is no sense in going on. */
const mostRefused = 3;

/** Writes what differs, one after the other: servers are slow with many at once. */
export async function send(look: Look, { wanted }: Errand): Promise<void> {
	const sent: string[] = [];
	let refused = 0;
	for (const one of wanted) {
		const item = look.items.get(one.event.uid);
		if (!differs(item, one)) continue;
		const written = await write(look, one);
		if (written.kind === 'kept') sent.push(named(one.event));
		if (written.kind !== 'refused') continue;
		note(look, 'refused', refusalOf(look, one, written.status));
		if (++refused >= mostRefused) throw new DavTrouble('odd', refusalOf(look, one, written.status));
	}
	if (sent.length) note(look, 'sent', `Written: ${listed(sent)}.`);
}

function differs(item: Item | undefined, { event, row }: Wanted): boolean {
	if (!item) return true;
	// a finished task that was deleted there stays deleted
	if (item.etag === null) return event.status === null;
	return item.stale || item.timing !== row.timing || item.content !== row.content || item.goneAt !== null;
}

/** Which of many alike: its title and its day, in UTC as the server holds it. */
const named = ({ title, when }: CalendarEvent): string =>
	`${title}, ${('day' in when ? when.day : when.start).slice(0, 10)}`;

const host = (look: Look): string => new URL(look.account.collection).host;

function refusalOf(look: Look, { event }: Wanted, status: number): string {
	if (status === 507) return `${host(look)} has no room for ${event.title} (it answered 507).`;
	const thing = look.account.kind === 'VTODO' ? 'to-dos' : 'events';
	return `${host(look)} did not take ${event.title} (it answered ${status}): this calendar may take no ${thing}, or you may not write to it.`;
}

/** Shown once per look: the first five by name. */
export const listed = (titles: readonly string[]): string =>
	titles.length <= 5 ? titles.join('; ') : `${titles.slice(0, 5).join('; ')} and ${titles.length - 5} more`;

const mostTries = 4;

/** One object, with If-Match always. Changed there meanwhile: taken in first, then written over with the plan's time. */
async function write(look: Look, one: Wanted): Promise<Written> {
	const { uid } = one.event;
	for (let tries = 0; tries < mostTries; tries++) {
		const item = look.items.get(uid);
		const made = itemOf(look, one, item);
		const written = await put(look.collection, made.href, made.body, item?.etag ?? null);
		if (written.kind === 'refused') return written;
		if (written.kind === 'kept') {
			look.wrote = true;
			const kept = { ...made, ...(written.etag ? { etag: written.etag } : await reread(look, made.href)) };
			look.items.set(uid, kept);
			await keepItem(look.store, look.account.id, kept);
			return written;
		}
		const there = await resourceAt(look.collection, made.href);
		if (!there) look.items.set(uid, { ...(item ?? made), etag: null, body: null, stale: true });
		else if (item?.body == null) await adopt(look, made, there.etag, there.body);
		else await receive(look, { ...there, href: made.href });
		// it was ticked there: the plan has to be made again before anything is written over it
		if (look.logged) return { kind: 'changed' };
	}
	return { kind: 'changed' };
}

/** The server rewrote the object or names no tag: what it holds now is what is compared with from here on. */
async function reread(look: Look, href: string): Promise<Pick<Item, 'etag'> & { body?: string }> {
	const there = await resourceAt(look.collection, href);
	return there ? { etag: there.etag, body: there.body } : { etag: null };
}

/** It is there already, of a look that broke off: taken over as if it had just been written, then heard. */
async function adopt(
	look: Look,
	made: Item & { body: string },
	etag: string | null,
	body: string
): Promise<void> {
	const zone = look.planned.get(made.run)?.run.timeZone ?? 'UTC';
	const [ours, theirs] = [readObject(made.body, zone), readObject(body, zone)];
	look.items.set(made.uid, { ...made, stale: true });
	if (ours && theirs && theirs.uid === made.uid && newsOf(ours, theirs))
		await receive(look, { href: made.href, etag, body });
}

function itemOf(look: Look, one: Wanted, item: Item | undefined): Item & { body: string } {
	const { event, row, run, task, jobs, doneAt } = one;
	const again = item !== undefined && item.stale;
	const sequence = Math.max(row.sequence, item?.sequence ?? 0) + (again ? 1 : 0);
	const lastModified = again ? later(row.lastModified, look.now) : row.lastModified;
	const standing = { ...event, sequence, lastModified };
	return {
		uid: event.uid,
		run,
		task,
		jobs,
		href: item?.href ?? hrefFor(look.account.collection, event.uid),
		etag: item?.etag ?? null,
		body: writeObject(standing, look.account.kind, doneAt, item?.body ?? null),
		sequence,
		lastModified,
		timing: row.timing,
		content: row.content,
		goneAt: null,
		stale: false
	};
}

const later = (a: string, b: string): string => (a > b ? a : b);

/** Takes away what has left the plan; its tombstone stays, so that a copy that comes back is known. */
export async function takeAway(look: Look, leaving: readonly Item[]): Promise<void> {
	const gone: string[] = [];
	for (const { uid } of leaving) {
		for (let tries = 0; tries < mostTries; tries++) {
			const item = look.items.get(uid);
			if (!item || item.etag === null) break;
			const done = await remove(look.collection, item.href, item.etag);
			if (done.kind === 'kept') {
				look.wrote = true;
				gone.push(readObject(item.body ?? '', 'UTC')?.title ?? item.task);
				await bury(look, item);
				break;
			}
			if (done.kind === 'refused') {
				note(
					look,
					'refused',
					`${host(look)} does not let ${item.task} be deleted (it answered ${done.status}).`
				);
				break;
			}
			const there = await resourceAt(look.collection, item.href);
			if (there) await receive(look, { ...there, href: item.href });
			else await bury(look, item);
		}
	}
	if (gone.length) note(look, 'sent', `Taken away, no longer planned: ${listed(gone)}.`);
}

async function bury(look: Look, item: Item): Promise<void> {
	const kept = { ...item, etag: null, body: null, stale: false, goneAt: item.goneAt ?? look.now };
	look.items.set(item.uid, kept);
	await keepItem(look.store, look.account.id, kept);
}
