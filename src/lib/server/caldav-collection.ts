import { createObject, davRequest, deleteObject, updateObject, type DAVResponse } from 'tsdav';
import { DavTrouble } from './caldav-fetch.ts';

/** A collection on a calendar server, over a fetch that knows its login. */
export interface Collection {
	/** its absolute address, ending in a slash */
	url: string;
	fetch: typeof fetch;
}

/** What changed since a token. `token` null: the server gives none, so each look lists everything. */
export interface Changes {
	changed: { href: string; etag: string }[];
	gone: string[];
	/** every resource was listed: what is known and not in `changed` is gone */
	full: boolean;
	token: string | null;
}

/** A resource as it is now; null when it is gone. */
export type Resource = { href: string; etag: string | null; body: string };

/** What a write met. `kept` holds the new tag, null when the server does not say it. */
export type Written =
	{ kind: 'kept'; etag: string | null } | { kind: 'changed' } | { kind: 'refused'; status: number };

const spaces = { 'xmlns:d': 'DAV:', 'xmlns:c': 'urn:ietf:params:xml:ns:caldav' };

const hrefOf = (collection: Collection, href: unknown): string =>
	new URL(String(href), collection.url).pathname;

const isObject = (collection: Collection, href: string): boolean =>
	href !== new URL(collection.url).pathname && !href.endsWith('/');

async function ask(
	collection: Collection,
	method: 'REPORT' | 'PROPFIND',
	depth: '0' | '1',
	body: object
): Promise<DAVResponse[]> {
	const { url } = collection;
	const fetch = wholeAnswers(collection);
	return davRequest({ url, init: { method, headers: { depth }, body, namespace: 'd' }, fetch });
}

/** The library reads a multistatus that broke off as a shorter one, and a shorter list looks like deletions. */
const wholeAnswers =
	(collection: Collection): typeof fetch =>
	async (input, init) => {
		const response = await collection.fetch(input, init);
		if (response.status !== 207) return response;
		if (!/<\/([\w.-]+:)?multistatus\s*>\s*$/.test(await response.clone().text()))
			throw unreadable(collection);
		return response;
	};

/** A 207 that the library could not read as one is no WebDAV answer. */
function multistatus(collection: Collection, responses: DAVResponse[]): DAVResponse[] {
	const raw = responses[0]?.raw as { multistatus?: unknown } | string | undefined;
	if (typeof raw === 'object' && raw.multistatus !== undefined) return responses;
	throw unreadable(collection);
}

const unreadable = (collection: Collection) =>
	new DavTrouble(
		'odd',
		`${new URL(collection.url).host} answered something that is no calendar data: check the address.`
	);

/** What changed since the token, or a full list where the token has expired or tokens are not spoken. */
export async function changesSince(collection: Collection, token: string | null): Promise<Changes> {
	return (token === null ? null : await syncReport(collection, token)) ?? fullList(collection);
}

/** RFC 6578. Null: the server refuses the token, cuts the answer short, or does not know the report. */
async function syncReport(collection: Collection, token: string): Promise<Changes | null> {
	const responses = await ask(collection, 'REPORT', '1', {
		'sync-collection': {
			_attributes: spaces,
			'd:sync-token': token,
			'd:sync-level': 1,
			'd:prop': { 'd:getetag': {} }
		}
	}).catch((error: unknown) => {
		// some servers stumble over a token they no longer know instead of refusing it
		if (error instanceof DavTrouble && error.status === 500) return null;
		throw error;
	});
	if (responses === null) return null;
	if (!isMultistatus(responses)) {
		if (responses[0]?.ok) throw unreadable(collection);
		return null;
	}
	const next = tokenIn(responses);
	const own = responses.filter(({ href }) => href !== undefined);
	if (next === null || own.some(({ status }) => status === 507)) return null;
	const listed = own
		.map(({ href, status, props }) => ({
			href: hrefOf(collection, href),
			status,
			etag: String(props?.getetag ?? '')
		}))
		.filter(({ href }) => isObject(collection, href));
	return {
		changed: listed.filter(({ status }) => status !== 404).map(({ href, etag }) => ({ href, etag })),
		gone: listed.filter(({ status }) => status === 404).map(({ href }) => href),
		full: false,
		token: next
	};
}

const isMultistatus = (responses: DAVResponse[]): boolean => {
	const raw = responses[0]?.raw as { multistatus?: unknown } | string | undefined;
	return typeof raw === 'object' && raw.multistatus !== undefined;
};

function tokenIn(responses: DAVResponse[]): string | null {
	const raw = responses[0]?.raw as { multistatus?: { syncToken?: unknown } } | undefined;
	const token = raw?.multistatus?.syncToken;
	return token === undefined || typeof token === 'object' ? null : String(token);
}

async function fullList(collection: Collection): Promise<Changes> {
	const responses = multistatus(
		collection,
		await ask(collection, 'PROPFIND', '1', {
			propfind: { _attributes: spaces, prop: { 'd:getetag': {}, 'd:sync-token': {}, 'd:resourcetype': {} } }
		})
	);
	const rows = responses.map(({ href, props }) => ({ href: hrefOf(collection, href), props }));
	const own = rows.find(({ href }) => !isObject(collection, href))?.props?.syncToken as unknown;
	return {
		changed: rows
			.filter(({ href }) => isObject(collection, href))
			.map(({ href, props }) => ({ href, etag: String(props?.getetag ?? '') })),
		gone: [],
		full: true,
		token: own === undefined || typeof own === 'object' ? null : String(own)
	};
}

const mostAtOnce = 50;

/** The resources at these places, fifty at a time; what has gone meanwhile is left out. */
export async function bodiesOf(collection: Collection, hrefs: readonly string[]): Promise<Resource[]> {
	const found: Resource[] = [];
	for (let from = 0; from < hrefs.length; from += mostAtOnce) {
		const responses = multistatus(
			collection,
			await ask(collection, 'REPORT', '1', {
				'c:calendar-multiget': {
					_attributes: spaces,
					'd:prop': { 'd:getetag': {}, 'c:calendar-data': {} },
					'd:href': hrefs.slice(from, from + mostAtOnce)
				}
			})
		);
		for (const { href, status, props } of responses) {
			const data = props?.calendarData as { _cdata?: string } | string | undefined;
			const body = typeof data === 'object' ? data._cdata : data;
			if (status >= 400 || typeof body !== 'string' || href === undefined) continue;
			found.push({ href: hrefOf(collection, href), etag: String(props?.getetag ?? ''), body });
		}
	}
	return found;
}

const addressOf = (collection: Collection, href: string): string => new URL(href, collection.url).href;

/** One resource by itself; null when it is gone. */
export async function resourceAt(collection: Collection, href: string): Promise<Resource | null> {
	const response = await collection.fetch(addressOf(collection, href));
	if (response.status === 404 || response.status === 410) return null;
	if (!response.ok) throw unreadable(collection);
	return { href, etag: response.headers.get('etag'), body: await response.text() };
}

const calendarText = { 'content-type': 'text/calendar; charset=utf-8' };

/** Writes a resource: a new one only where none is, a known one only as it was when last seen. */
export async function put(
	collection: Collection,
	href: string,
	body: string,
	etag: string | null
): Promise<Written> {
	const target = { url: addressOf(collection, href), data: body, fetch: collection.fetch };
	const response =
		etag === null
			? await createObject({ ...target, headers: { ...calendarText, 'if-none-match': '*' } })
			: await updateObject({ ...target, etag, headers: calendarText });
	return outcome(response);
}

/** Deletes a resource as it was when last seen; one that is gone already counts as deleted. */
export async function remove(collection: Collection, href: string, etag: string): Promise<Written> {
	const { fetch } = collection;
	const response = await deleteObject({ url: addressOf(collection, href), etag, fetch });
	if (response.status === 404 || response.status === 410) return { kind: 'kept', etag: null };
	return outcome(response);
}

/** Some servers wrap a refusal into a 207, which counts as success elsewhere: only these three are. */
function outcome({ status, headers }: Response): Written {
	if (status === 412 || status === 404 || status === 410) return { kind: 'changed' };
	if (status !== 200 && status !== 201 && status !== 204) return { kind: 'refused', status };
	return { kind: 'kept', etag: headers.get('etag') };
}
