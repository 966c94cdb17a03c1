import { createAccount, fetchCalendars, makeCalendar, type DAVAccount } from 'tsdav';
import type { ObjectKind } from '../calendar/index.ts';
import { boundedFetch, DavTrouble, serverAddress, type Login } from './caldav-fetch.ts';

/** A collection as it is offered to the keeper. */
export interface OfferedCollection {
	url: string;
	name: string;
	/** what it holds; both where the server does not say */
	takes: ObjectKind[];
}

/** A server that was found and let the keeper in. */
export interface FoundServer {
	/** where collections are made */
	home: string;
	collections: OfferedCollection[];
}

/** Finds a user's calendars from the typed address. Throws `DavTrouble` with the sentence for the keeper. */
export async function findServer(typed: string, login: Login): Promise<FoundServer> {
	const server = serverAddress(typed);
	const account = await accountOn(server, login);
	const fetch = boundedFetch(server, login);
	const calendars = await fetchCalendars({ account, fetch }).catch((error: unknown) => {
		throw troubleOf(error, server);
	});
	const collections = calendars.map(({ url, displayName, components = [] }) => ({
		url,
		name: nameOf(displayName, url),
		takes: kindsOf(components)
	}));
	return { home: account.homeUrl ?? server.href, collections };
}

async function accountOn(server: URL, login: Login): Promise<DAVAccount> {
	const account: DAVAccount = { accountType: 'caldav', serverUrl: server.href };
	let first: unknown;
	// the library swallows what goes wrong on its first tries and tells of the last
	const fetch: typeof globalThis.fetch = async (input, init) => {
		try {
			return await bounded(input, init);
		} catch (error) {
			first ??= error;
			throw error;
		}
	};
	const bounded = boundedFetch(server, login);
	try {
		return await createAccount({ account, fetch });
	} catch (error) {
		throw troubleOf(first ?? error, server);
	}
}

function troubleOf(error: unknown, server: URL): DavTrouble {
	if (error instanceof DavTrouble) return error;
	return new DavTrouble(
		'odd',
		`${server.host} shows no calendars at this address: check the part after the name.`
	);
}

const nameOf = (shown: unknown, url: string): string =>
	(typeof shown === 'string' || typeof shown === 'number') && shown !== ''
		? String(shown)
		: decodeURIComponent(new URL(url).pathname.split('/').findLast(Boolean) ?? url);

const kindsOf = (components: readonly (string | undefined)[]): ObjectKind[] => {
	const kinds = (['VTODO', 'VEVENT'] as const).filter((kind) => components.includes(kind));
	return kinds.length || components.length ? kinds : ['VTODO', 'VEVENT'];
};

/**
 * Makes a collection for the first of `kinds` that the server agrees to, by default to-dos, else events; looks at what
 * it became. Throws `DavTrouble` where the server makes none.
 */
export async function makeCollection(
	typed: string,
	login: Login,
	name: string,
	part: string,
	kinds: readonly ObjectKind[] = ['VTODO', 'VEVENT']
): Promise<OfferedCollection> {
	const server = serverAddress(typed);
	const { home } = await findServer(typed, login);
	const url = new URL(`${part}/`, home.endsWith('/') ? home : `${home}/`).href;
	const fetch = boundedFetch(server, login);
	for (const kind of kinds) {
		const [answer] = await makeCalendar({
			url,
			props: {
				'd:displayname': name,
				'c:supported-calendar-component-set': { 'c:comp': { _attributes: { name: kind } } }
			},
			fetch
		});
		if (answer?.ok) {
			const made = (await findServer(typed, login)).collections.find((one) => one.url === url);
			return made ?? { url, name, takes: [kind] };
		}
	}
	throw new DavTrouble(
		'odd',
		`${server.host} makes no new calendars this way: make one there and choose it here.`
	);
}
