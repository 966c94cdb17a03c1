/** What went wrong with a calendar server; the message is one sentence for the keeper. */
export class DavTrouble extends Error {
	readonly kind: DavTroubleKind;
	/** what the server answered; 0: nothing, or nothing to do with it */
	readonly status: number;

	constructor(kind: DavTroubleKind, sentence: string, status = 0) {
		super(sentence);
		this.kind = kind;
		this.status = status;
	}
}

/**
 * `password`: refused, asking again would not help. `away`: no answer, or a server in trouble; later perhaps.
 * `odd`: an answer that cannot be followed.
 */
export type DavTroubleKind = 'password' | 'away' | 'odd';

/** The typed address of a server; throws a sentence for anything but http and https. */
export function serverAddress(typed: string): URL {
	const text = typed.trim();
	const url = URL.canParse(text) ? new URL(text) : null;
	if (!url || !/^https?:$/.test(url.protocol) || url.hostname === '')
		throw new DavTrouble(
			'odd',
			`Saw “${text.slice(0, 80)}”, expected an address that begins with https:// or http://.`
		);
	if (url.username || url.password)
		throw new DavTrouble(
			'odd',
			'Saw a name or password inside the address, expected them in their own fields.'
		);
	url.hash = url.search = '';
	return url;
}

const bounds = { ms: 20_000, octets: 8_000_000, redirects: 5 };

export interface Login {
	user: string;
	password: string;
}

/**
 * A `fetch` that only speaks to the typed server: same origin, also after redirects; the login on every request;
 * an answer within 20 s and 8 MB. Trouble is thrown as `DavTrouble`.
 */
export function boundedFetch(server: URL, login: Login, limits: Partial<typeof bounds> = {}): typeof fetch {
	const { ms, octets, redirects } = { ...bounds, ...limits };
	const authorization = `Basic ${Buffer.from(`${login.user}:${login.password}`).toString('base64')}`;
	return async (input, init) => {
		let url = new URL(input instanceof Request ? input.url : input);
		for (let hop = 0; hop <= redirects; hop++) {
			sameServer(server, url);
			const response = await asked(url, { ...init, authorization, ms });
			const to = response.headers.get('location');
			// who asks for redirects as they are reads where they lead
			if (response.status < 300 || response.status > 399 || to === null || init?.redirect === 'manual') {
				refuseHopeless(response, server);
				return whole(response, server, octets);
			}
			await response.body?.cancel();
			url = new URL(to, url);
		}
		throw new DavTrouble('odd', `${server.host} sends the app in circles: check the address.`);
	};
}

function sameServer(server: URL, url: URL): void {
	if (url.origin === server.origin) return;
	throw new DavTrouble(
		'odd',
		`${server.host} points to another address, ${url.origin}. If you trust it, type that one instead.`
	);
}

async function asked(
	url: URL,
	{ authorization, ms, ...init }: RequestInit & { authorization: string; ms: number }
): Promise<Response> {
	const headers = new Headers(init.headers);
	headers.set('authorization', authorization);
	try {
		return await fetch(url, { ...init, headers, redirect: 'manual', signal: AbortSignal.timeout(ms) });
	} catch (error) {
		throw away(url, error);
	}
}

function away(url: URL, error: unknown): DavTrouble {
	const { name = '', cause } = error as { name?: string; cause?: { code?: string } };
	if (name === 'TimeoutError') return new DavTrouble('away', `${url.host} did not answer in time.`);
	return new DavTrouble('away', `${url.host} cannot be reached (${cause?.code ?? 'no connection'}).`);
}

function refuseHopeless(response: Response, server: URL): void {
	if (response.status === 401)
		throw new DavTrouble('password', `${server.host} refuses this user or password.`);
	if (
		response.status === 429 ||
		(response.status >= 500 && response.status !== 507 && response.status !== 501)
	)
		throw new DavTrouble(
			'away',
			`${server.host} is in trouble (it answered ${response.status}).`,
			response.status
		);
}

/** The answer with its body read, so that no slow or endless one can hold the app. */
async function whole(response: Response, server: URL, octets: number): Promise<Response> {
	const chunks: Uint8Array[] = [];
	let size = 0;
	try {
		for await (const chunk of response.body ?? []) {
			size += chunk.byteLength;
			if (size > octets) break;
			chunks.push(chunk);
		}
	} catch (error) {
		throw away(server, error);
	}
	if (size > octets)
		throw new DavTrouble('odd', `${server.host} answered with more than ${octets / 1e6} MB.`);
	const { status, statusText, headers } = response;
	const empty = status === 204 || status === 205 || status === 304;
	return new Response(empty ? null : Buffer.concat(chunks), { status, statusText, headers });
}
