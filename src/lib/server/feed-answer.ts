import { createHash } from 'node:crypto';
import { gzipSync } from 'node:zlib';
import { eventsToIcs, feedOf, type Planned } from '../calendar/index.ts';
import { feedIdOf, hashOf, keepFeed, readFeed, type FeedScope, type StoredFeed } from './feeds.ts';
import { marksOf } from './marks.ts';
import { takesGzip } from './request.ts';
import type { Store } from './store.ts';
import { taskAddress } from './task-address.ts';

/** A run that is open, with its plan as of an instant; `run.id` is the stored run's. */
export type PlansOf = (now: string) => Promise<Planned[]>;

export interface FeedsOptions {
	store: Store;
	plansOf: PlansOf;
	/** hears of trouble that a subscriber must not see */
	report: (error: unknown) => void;
}

/** What was asked: the request's headers that matter. */
export interface Asked {
	ifNoneMatch?: string | null;
	ifModifiedSince?: string | null;
	acceptEncoding?: string | null;
}

export interface FeedAnswer {
	status: 200 | 304 | 404;
	headers: Record<string, string>;
	body: Uint8Array<ArrayBuffer> | null;
}

/** A body ready to be sent. */
interface Page {
	feed: string;
	plain: Uint8Array<ArrayBuffer>;
	gzip: Uint8Array<ArrayBuffer>;
	etag: string;
	changed: string;
	/** what the content was when it was made, and until when the clock alone cannot change it */
	mark: string;
	until: string;
}

/**
 * The feeds of a store, as the web asks for them. Never an error to a subscriber, since some give up a calendar
 * after one: trouble is reported and the last good body is served. An unknown secret is a plain 404.
 */
export function openFeeds(options: FeedsOptions) {
	const pages = new Map<string, Page>();
	const underway = new Map<string, Promise<Page>>();

	async function current(secretHash: string, id: string): Promise<Page> {
		const { store } = options;
		const mark = (await marksOf(store)).all;
		const page = pages.get(secretHash);
		if (page && page.feed === id && page.mark === mark && store.now() < page.until) return page;
		// two polls at once share one rendering
		const key = `${id} ${mark}`;
		const making = underway.get(key) ?? render(options, id, mark).finally(() => underway.delete(key));
		underway.set(key, making);
		const made = await making;
		pages.set(secretHash, made);
		return made;
	}

	return async function answer(secret: string, asked: Asked): Promise<FeedAnswer> {
		const secretHash = hashOf(secret);
		try {
			const id = await feedIdOf(options.store, secretHash);
			if (id === null) {
				pages.delete(secretHash);
				return notFound;
			}
			try {
				return conditional(await current(secretHash, id), asked);
			} catch (error) {
				options.report(error);
				return conditional(pages.get(secretHash) ?? (await lastGood(options.store, id)), asked);
			}
		} catch (error) {
			// the store is away: who has been here before gets what they got
			options.report(error);
			const page = pages.get(secretHash);
			return page ? conditional(page, asked) : notFound;
		}
	};
}

async function render({ store, plansOf }: FeedsOptions, id: string, mark: string): Promise<Page> {
	const feed = await readFeed(store, id);
	const now = wholeSecond(store.now());
	const planned = (await plansOf(now)).filter(inScope(feed.scope));
	const { per, allDay, kinds, alarms, origin } = feed.scope;
	const link = origin === undefined ? undefined : taskAddress(origin);
	const shown = { per, allDay, kinds, alarms, link };
	const made = feedOf(planned, { now, name: feed.name, previous: feed.identity, ...shown });
	const etag = etagOf(made.body);
	const changed = etag === feed.etag && feed.changed !== null ? feed.changed : now;
	if (etag !== feed.etag || JSON.stringify(made.rows) !== JSON.stringify(feed.identity)) {
		await keepFeed(store, id, { identity: made.rows, body: made.body, etag, changed, leftOut: made.leftOut });
	}
	return pageOf(id, made.body, changed, mark, nextTurn(planned, now));
}

const inScope =
	({ run: id, tank }: FeedScope) =>
	({ run }: Planned): boolean =>
		(id === undefined || run.id === id) && (tank === undefined || run.tank.name === tank);

const wholeSecond = (instant: string): string => `${instant.slice(0, 19)}Z`;

/** The next moment at which the clock alone may change the body: a service passes, or the window slides at midnight. */
function nextTurn(planned: readonly Planned[], now: string): string {
	const midnight = `${new Date(Date.parse(now) + 86_400_000).toISOString().slice(0, 10)}T00:00:00Z`;
	const services = planned.flatMap(({ plan }) => plan.tasks.map(({ at }) => at)).filter((at) => at > now);
	return services.reduce((first, at) => (at < first ? at : first), midnight);
}

function pageOf(feed: string, body: string, changed: string, mark: string, until: string): Page {
	const plain = new TextEncoder().encode(body);
	return { feed, plain, gzip: new Uint8Array(gzipSync(plain)), etag: etagOf(body), changed, mark, until };
}

/** Weak, because the plain and the gzip form share it. */
const etagOf = (body: string): string =>
	`W/"${createHash('sha256').update(body).digest('base64url').slice(0, 27)}"`;

async function lastGood(store: Store, id: string): Promise<Page> {
	const feed: StoredFeed = await readFeed(store, id);
	const body = feed.body ?? eventsToIcs([], feed.name);
	return pageOf(id, body, feed.changed ?? feed.created, '', '');
}

function conditional(page: Page, asked: Asked): FeedAnswer {
	const headers: Record<string, string> = {
		etag: page.etag,
		'last-modified': new Date(page.changed).toUTCString(),
		'cache-control': 'private, no-cache',
		vary: 'accept-encoding',
		'x-robots-tag': 'noindex'
	};
	if (unchanged(page, asked)) return { status: 304, headers, body: null };
	headers['content-type'] = 'text/calendar; charset=utf-8';
	headers['content-disposition'] = 'inline; filename="lazaret.ics"';
	const zipped = takesGzip(asked.acceptEncoding ?? '');
	if (zipped) headers['content-encoding'] = 'gzip';
	const body = zipped ? page.gzip : page.plain;
	headers['content-length'] = String(body.byteLength);
	return { status: 200, headers, body };
}

/** RFC 9110 13.1: If-None-Match by weak comparison, and only without it If-Modified-Since. */
function unchanged(page: Page, { ifNoneMatch, ifModifiedSince }: Asked): boolean {
	if (ifNoneMatch) {
		const tags = ifNoneMatch.split(',').map((tag) => tag.trim().replace(/^W\//, ''));
		return tags.includes('*') || tags.includes(page.etag.slice(2));
	}
	const since = Date.parse(ifModifiedSince ?? '');
	return !Number.isNaN(since) && Math.floor(Date.parse(page.changed) / 1000) * 1000 <= since;
}

const notFound: FeedAnswer = {
	status: 404,
	headers: {
		'content-type': 'text/plain; charset=utf-8',
		'cache-control': 'no-store',
		'x-robots-tag': 'noindex'
	},
	body: new TextEncoder().encode('There is no calendar at this address.\n')
};
