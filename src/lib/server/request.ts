import { isIP } from 'node:net';
import type { z } from 'zod';
import { firstIssue } from './document.ts';
import { isLoopback } from './place.ts';

/** An answer to a request that cannot be followed: `{ "error": { "code", "message" } }`. */
export function refusal(status: number, code: string, message: string, more: object = {}): Response {
	return Response.json(
		{ error: { code, message, ...more } },
		{ status, headers: { 'cache-control': 'no-store' } }
	);
}

/** The body of a request as JSON that fits the schema, or the answer that says why not. */
export async function readBody<T>(
	request: Request,
	schema: z.ZodType<T>,
	mostBytes = 1_500_000
): Promise<{ ok: true; value: T } | { ok: false; response: Response }> {
	const no = (status: number, code: string, message: string) => ({
		ok: false as const,
		response: refusal(status, code, message)
	});
	const type = request.headers.get('content-type') ?? 'none';
	if (!/^application\/json\b/i.test(type))
		return no(415, 'not-json', `saw content type ${type.slice(0, 60)}, expected application/json`);
	const bytes = await readSome(request, mostBytes);
	const text = bytes && bytes.toString('utf8');
	if (text === null) return no(413, 'too-large', `saw more than ${mostBytes} bytes, expected fewer`);
	let json: unknown;
	try {
		json = JSON.parse(text);
	} catch {
		return no(400, 'not-json', 'saw text that is not JSON, expected JSON');
	}
	if (nestsBeyond(text, 64)) return no(400, 'too-deep', 'saw more than 64 levels of nesting, expected fewer');
	const read = schema.safeParse(json);
	return read.success ? { ok: true, value: read.data } : no(422, 'not-understood', firstIssue(read.error));
}

/** The bytes of a request, or the answer that says there are too many. */
export async function readBytes(
	request: Request,
	mostBytes: number
): Promise<{ ok: true; value: Buffer } | { ok: false; response: Response }> {
	const bytes = await readSome(request, mostBytes);
	if (bytes) return { ok: true, value: bytes };
	const message = `saw more than ${mostBytes} bytes, expected fewer`;
	return { ok: false, response: refusal(413, 'too-large', message) };
}

/**
 * The bytes of a body, null when it is longer than that. The rest of a longer one is read and dropped: the answer
 * would not arrive while the client is still sending.
 */
async function readSome(request: Request, mostBytes: number): Promise<Buffer | null> {
	let chunks: Uint8Array[] = [];
	let bytes = 0;
	try {
		for await (const chunk of request.body ?? []) {
			bytes += chunk.byteLength;
			if (bytes > mostBytes) chunks = [];
			else chunks.push(chunk);
		}
	} catch (error) {
		// the adapter's own limit, or a client that went away in mid-sentence
		if ((error as { status?: number }).status === 413) return null;
		return Buffer.alloc(0);
	}
	return bytes > mostBytes ? null : Buffer.concat(chunks);
}

/** True when lists and objects of a JSON text nest deeper than that. */
export function nestsBeyond(json: string, levels: number): boolean {
	let depth = 0;
	let quoted = false;
	for (let i = 0; i < json.length; i++) {
		const character = json[i];
		if (quoted) {
			if (character === '\\') i++;
			else if (character === '"') quoted = false;
		} else if (character === '"') quoted = true;
		else if (character === '[' || character === '{') {
			if (++depth > levels) return true;
		} else if (character === ']' || character === '}') depth--;
	}
	return false;
}

/**
 * True when a write comes from a page of this app. Browsers name the page's origin on every write to elsewhere;
 * a request that names none at all comes from no browser, and carries nobody's rights but its own.
 */
export function isOwnOrigin(request: Request, origin: string): boolean {
	const named = request.headers.get('origin');
	if (named !== null) return named === origin;
	const site = request.headers.get('sec-fetch-site');
	return site === null || site === 'same-origin' || site === 'none';
}

/**
 * True when the app answers to this host name: the loopback's own names, those `LAZARET_HOSTS` lists (separated by
 * commas), and bare addresses where others may reach it. A foreign name that resolves to this machine would let a
 * foreign page read the answers; an address in figures resolves to nothing else.
 */
export function isOwnHost(hostname: string, allowed: string | undefined, wide: boolean): boolean {
	if (isLoopback(hostname)) return true;
	if (wide && isIP(hostname.replace(/^\[|\]$/g, '')) !== 0) return true;
	return (allowed ?? '').split(',').some((name) => name.trim().toLowerCase() === hostname.toLowerCase());
}

/** True when a proxy handed the request on: it may come from anywhere, whatever address it arrives at. */
export const isPassedOn = ({ headers }: Request): boolean =>
	['forwarded', 'x-forwarded-for', 'x-forwarded-host', 'x-real-ip', 'via'].some((name) => headers.has(name));

/** Headers every page and answer carries; the content security policy is Kit's own. */
export const securityHeaders: Record<string, string> = {
	'x-content-type-options': 'nosniff',
	'referrer-policy': 'same-origin',
	'cross-origin-opener-policy': 'same-origin',
	'cross-origin-resource-policy': 'same-origin',
	'x-frame-options': 'DENY',
	'permissions-policy': 'camera=(self), microphone=(), geolocation=(), payment=(), usb=()'
};

/** The answer about a run that is not there. */
export const noRun = (id: string): Response => refusal(404, 'no-run', `there is no run ${id}`);

/** The first language the browser asks for, if it is one that dates can be written in. */
export function localeOf({ headers }: Request): string {
	const wanted = headers.get('accept-language')?.split(/[,;]/)[0]?.trim() || 'en-GB';
	try {
		return Intl.getCanonicalLocales(wanted)[0] ?? 'en-GB';
	} catch {
		return 'en-GB';
	}
}

/** True when an `Accept-Encoding` lets an answer be zipped (RFC 9110 12.5.3). */
export const takesGzip = (acceptEncoding: string): boolean =>
	acceptEncoding
		.split(',')
		.some((coding) => /^\s*(gzip|x-gzip|\*)\s*(;\s*q=(?!0(\.0*)?\s*$).*)?$/i.test(coding));
