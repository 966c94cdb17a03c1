import { sessionDays } from './sessions.ts';

/** What the door needs of a request; Kit's event has it. */
interface Visit {
	url: URL;
	cookies: {
		get: (name: string) => string | undefined;
		set: (name: string, value: string, options: CookieOptions) => void;
		delete: (name: string, options: { path: string; secure: boolean }) => void;
	};
	getClientAddress: () => string;
}

interface CookieOptions {
	path: string;
	httpOnly: boolean;
	sameSite: 'lax';
	secure: boolean;
	maxAge: number;
}

const isSecure = ({ url }: Visit) => url.protocol === 'https:';
/** The prefix makes a browser hold the cookie to this host and https (RFC 6265bis 4.1.3.2). */
const nameFor = (visit: Visit) => (isSecure(visit) ? '__Host-lazaret' : 'lazaret');

/** The token of somebody who has entered; nothing that cannot be one is looked up. */
export function tokenOf(visit: Visit): string | undefined {
	const token = visit.cookies.get(nameFor(visit));
	return token !== undefined && /^[\w-]{43}$/.test(token) ? token : undefined;
}

/**
 * Gives the device its token. Lax, not strict: the links in calendar entries come from elsewhere and only lead to
 * pages; each write is held to its origin besides.
 */
export function giveToken(visit: Visit, token: string): void {
	const maxAge = sessionDays.most * 86_400;
	const options = { path: '/', httpOnly: true, sameSite: 'lax', secure: isSecure(visit), maxAge } as const;
	visit.cookies.set(nameFor(visit), token, options);
}

/** Takes it away. */
export function dropToken(visit: Visit): void {
	visit.cookies.delete(nameFor(visit), { path: '/', secure: isSecure(visit) });
}

/** Where a request comes from. */
export function addressOf(visit: Visit): string {
	try {
		return visit.getClientAddress();
	} catch {
		return 'unknown';
	}
}

/** A path within the app to go on to after entering; anything that could lead elsewhere becomes the first page. */
export const safePath = (path: string | null): string =>
	path !== null && /^\/(?![/\\])[^\\\p{Cc}]*$/u.test(path) && path.length <= 500 ? path : '/';
