import { newsOf, readObject, type News, type Received } from '../calendar/index.ts';
import { momentOf } from '../planner/index.ts';
import { bodiesOf, changesSince, type Changes, type Resource } from './caldav-collection.ts';
import { keepItem, type Item } from './caldav-items.ts';
import { note, tasksOf, type Look } from './caldav-look.ts';
import { judgeMove } from './caldav-move.ts';
import { propose } from './caldav-proposals.ts';
import { complete } from './caldav-tick.ts';

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
	else if (item.goneAt !== null && now.done) await complete(look, kept, now);
	look.items.set(kept.uid, kept);
	// after what it says was taken in: a look that breaks off hears it again
	await keepItem(look.store, look.account.id, kept);
}

const isForeign = ({ moved, reopened, changed, done }: News): boolean =>
	moved !== null || reopened || done || changed.length > 0;

async function hear(look: Look, item: Item, news: News, now: Received): Promise<void> {
	if (news.done) await complete(look, item, now);
	else if (news.moved !== null && item.goneAt === null) await wish(look, item, now, news.moved);
	if (news.reopened)
		note(look, 'refused', `${now.title} was opened again there: it is logged here, so it stays done.`);
	if (news.changed.length)
		note(
			look,
			'refused',
			`${now.title}: its ${news.changed.join(' and ')} was changed there and is put back.`
		);
}

/** A day as it stands, an instant as day and local time: `2026-12-05T18:30`. */
function placeText(zone: string, to: string): string {
	if (!to.includes('T')) return to;
	const { date, time } = momentOf(zone, Date.parse(to));
	return `${date}T${time}`;
}

/** The same in a sentence: `2026-12-05 at 18:30`. */
const placeWords = (place: string): string => place.replace('T', ' at ');

/** A time moved on the phone: kept as a proposal if the plan could follow, else refused; shown as planned until then. */
async function wish(look: Look, item: Item, now: Received, to: string): Promise<void> {
	const zone = look.planned.get(item.run)?.run.timeZone ?? 'UTC';
	const day = placeText(zone, to);
	const tasks = item.jobs.map(({ task }) => task);
	const judged = await judgeMove(look.store, { run: item.run, tasks, day }, look.now);
	if (!judged.allowed) {
		note(
			look,
			'refused',
			`${now.title} was moved to ${placeWords(day)} there and is put back. ${judged.sentence}`
		);
		return;
	}
	const [first] = tasksOf(look, item);
	const was = first && (day.includes('T') ? `${first.date}T${first.time}` : first.date);
	const { run, task } = item;
	await propose(look.store, {
		account: look.account.id,
		run,
		task,
		title: now.title,
		was: was ?? '',
		day
	});
	note(
		look,
		'asked',
		`${now.title} was moved from ${was === undefined ? 'no day' : placeWords(was)} to ${placeWords(day)} there: accept or refuse it. Until then it shows its planned time.`
	);
}

/** Deleted there: what is still planned is written again, what was done or dropped stays away. */
async function missing(look: Look, item: Item): Promise<void> {
	const due = tasksOf(look, item).find(({ state }) => state === 'planned' || state === 'open');
	if (due && item.goneAt === null)
		note(
			look,
			'refused',
			`${readObject(item.body ?? '', 'UTC')?.title ?? due.text}, ${due.date}, was deleted there: it is still planned, so it is written again.`
		);
	const kept = { ...item, etag: null, body: null, stale: due !== undefined };
	look.items.set(kept.uid, kept);
	await keepItem(look.store, look.account.id, kept);
}
