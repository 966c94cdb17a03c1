import { createHash } from 'node:crypto';
import { promisify } from 'node:util';
import { gunzip, gzip } from 'node:zlib';
import { marksOf } from './marks.ts';
import { takesGzip } from './request.ts';
import type { Store } from './store.ts';
import { inTurn, type Turns } from './turns.ts';

/** An answer ready to be given again. */
interface Shared {
	headers: [name: string, value: string][];
	zipped: Uint8Array<ArrayBuffer>;
	tag: string;
}

interface Kept {
	/** what the store held and which minute it was; of another state nothing is kept */
	state: string;
	/** by who is answered alike; null: this one cannot be shared */
	answers: Map<string, Promise<Shared | null>>;
	bytes: number;
}

/** What was asked. */
interface Asking {
	store: Store;
	request: Request;
	/** all that tells askers apart */
	alike: string;
}

/** Answers the request alone. A page is handed to `take` whole, and what `take` gives back is sent in its place. */
type Make = (take: (html: string) => string) => Promise<Response>;

const keptByStore = new WeakMap<Store, Kept>();
const turnsByStore = new WeakMap<Store, Turns>();

/** Beyond it nothing made before is kept: many people with names of their own each have an answer. */
const MOST_BYTES = 16 * 1024 * 1024;

/**
 * An answer that depends on nothing but the runs, the minute, and `alike`. It is made once for those who ask alike,
 * and made anew after every write: whoever asks gets one that was begun with the marks of the store as they were then,
 * or later. Those who ask while an older one is being made wait for it and share the next, however many writes came
 * between, so that a crowd costs one answer at a time.
 */
export async function sharedAnswer(asking: Asking, make: Make): Promise<Response> {
	const { store, alike } = asking;
	let own: (() => Promise<Response>) | null = null;
	const begin = async () => {
		const kept = await keptNow(store);
		const known = kept.answers.get(alike);
		if (known) return known;
		const first = makeFirst(kept, alike, make);
		own = first.answer;
		return first.shared;
	};
	const known = (await keptNow(store)).answers.get(alike);
	const shared = await (known ?? inTurn(turnsOf(store), alike, begin));
	if (shared) return given(shared, asking.request);
	return own ? (own as () => Promise<Response>)() : make((html) => html);
}

async function keptNow(store: Store): Promise<Kept> {
	const state = `${store.now().slice(0, 16)} ${(await marksOf(store)).all}`;
	const before = keptByStore.get(store);
	if (before?.state === state) return before;
	const kept: Kept = { state, answers: new Map(), bytes: 0 };
	keptByStore.set(store, kept);
	return kept;
}

function turnsOf(store: Store): Turns {
	const turns = turnsByStore.get(store) ?? new Map();
	turnsByStore.set(store, turns);
	return turns;
}

function makeFirst(kept: Kept, alike: string, make: Make) {
	let page = '';
	const made = make((html) => ((page += html), '')).then(async (answer) => {
		// a page was taken out of its answer: what is left is nothing, or what comes after it
		const body = page + (await answer.text());
		return { answer, body, shared: await sharedOf(answer, body) };
	});
	const shared = made.then(
		(one) => one.shared,
		() => null
	);
	kept.answers.set(alike, shared);
	void shared.then((one) => keepWithin(kept, alike, one?.zipped.byteLength ?? null));
	return { shared, answer: () => made.then(whole) };
}

/** The answer as it would have been, with its page in it. */
function whole({ answer, body }: { answer: Response; body: string }): Response {
	const { status, headers } = answer;
	headers.delete('content-length');
	return new Response(body || null, { status, headers });
}

function keepWithin(kept: Kept, alike: string, bytes: number | null): void {
	if (bytes === null) kept.answers.delete(alike);
	kept.bytes += bytes ?? 0;
	if (kept.bytes <= MOST_BYTES) return;
	kept.answers.clear();
	kept.bytes = 0;
}

/** Null for what is meant for one alone: trouble, a way elsewhere, a cookie. */
async function sharedOf(answer: Response, text: string): Promise<Shared | null> {
	if (answer.status !== 200 || answer.headers.has('set-cookie')) return null;
	const body = Buffer.from(text);
	const headers = new Headers(answer.headers);
	const policy = headers.get('content-security-policy');
	const sealed = policy && seal(body, policy);
	if (sealed === null && policy !== null) return null;
	if (sealed) headers.set('content-security-policy', sealed);
	headers.delete('content-length');
	headers.append('vary', 'accept-encoding');
	// the third level: as fast as the first, and nearly as small as the sixth
	const zipped = new Uint8Array(await promisify(gzip)(body, { level: 3 }));
	return { headers: [...headers], zipped, tag: hashOf(body) };
}

const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('base64');

/**
 * The policy of a page that lets in the scripts it holds by what they are instead of by a nonce: a nonce given out
 * twice is known beforehand, and would let in whatever names it. In the page the nonce gives way to spaces. Null when
 * it stands on more than scripts. It works on bytes in place: a page is a long text, and each copy of it is dear.
 */
function seal(page: Buffer, policy: string): string | null {
	const nonce = /'nonce-([^']+)'/.exec(policy)?.[1];
	if (nonce === undefined) return policy;
	const opening = `<script nonce="${nonce}">`;
	const hashes: string[] = [];
	for (let at = page.indexOf(nonce); at >= 0; at = page.indexOf(nonce, at)) {
		const from = at - opening.indexOf(nonce);
		const begins = from + opening.length;
		if (from < 0 || page.toString('utf8', from, begins) !== opening) return null;
		hashes.push(`'sha256-${hashOf(page.subarray(begins, page.indexOf('</script>', begins)))}'`);
		page.fill(' ', from + '<script'.length, begins - 1);
	}
	return policy.replaceAll(`'nonce-${nonce}'`, hashes.join(' '));
}

async function given({ headers, zipped, tag }: Shared, request: Request): Promise<Response> {
	const asZipped = takesGzip(request.headers.get('accept-encoding') ?? '');
	const body = asZipped ? zipped : new Uint8Array(await promisify(gunzip)(zipped));
	const answer = new Response(body, { headers });
	answer.headers.set('content-length', String(body.byteLength));
	if (asZipped) answer.headers.set('content-encoding', 'gzip');
	answer.headers.set('etag', `"${tag}${asZipped ? '-gzip' : ''}"`);
	return answer;
}
