import {
	error,
	redirect,
	type Handle,
	type HandleServerError,
	type RequestEvent,
	type ServerInit
} from '@sveltejs/kit';
import {
	addressOf,
	askerOf,
	closeCurrent,
	currentStore,
	deedFor,
	faultOf,
	isOwnHost,
	isOwnOrigin,
	isPassedOn,
	isWide,
	leastFor,
	localeOf,
	mayDo,
	openCurrent,
	refusal,
	scheduleBackups,
	scheduleCalendars,
	securityHeaders,
	sharedAnswer,
	tokenOf,
	unlockedSentence,
	wideTrouble,
	writeDeed,
	type Asker,
	type Least
} from '$lib/server';

export const init: ServerInit = async () => {
	const store = await openCurrent(process.env);
	const trouble = await wideTrouble(store, process.env);
	if (trouble !== null) {
		await closeCurrent();
		throw new Error(trouble);
	}
	const stopBackups = scheduleBackups(store, process.env);
	const stopCalendars = scheduleCalendars(store);
	process.once('sveltekit:shutdown' as 'exit', () => {
		stopBackups();
		stopCalendars();
		void closeCurrent();
	});
};

const reads = new Set(['GET', 'HEAD', 'OPTIONS']);

export const handle: Handle = async ({ event, resolve }) => {
	const { request, url } = event;
	const env = process.env;
	if (!isOwnHost(url.hostname, env.LAZARET_HOSTS, isWide(env))) {
		return refusal(421, 'foreign-host', `this app does not answer to the name ${url.hostname}`);
	}
	if (!reads.has(request.method) && !isOwnOrigin(request, url.origin)) {
		return refusal(403, 'foreign-origin', 'a write has to come from a page of this app');
	}
	const answer =
		(await turnedAway(event)) ??
		(await answered(event, async (take) => resolve(event, { transformPageChunk: ({ html }) => take(html) })));
	for (const [name, value] of Object.entries(securityHeaders)) answer.headers.set(name, value);
	if (url.pathname.startsWith('/api/') || event.locals.actor?.session)
		answer.headers.set('cache-control', 'no-store');
	await writeDown(event, answer);
	return answer;
};

/** What everybody has open all day: the same for all who may see it, but for their name, role and language. */
const sharedRoutes = new Set<string | null>(['/today', '/api/today']);

async function answered(
	event: RequestEvent,
	make: (take: (html: string) => string) => Promise<Response>
): Promise<Response> {
	const { request, url, route, isDataRequest, locals } = event;
	const isShared = sharedRoutes.has(route.id) && request.method === 'GET' && !isDataRequest && !url.search;
	if (!isShared || !locals.actor) return make((html) => html);
	const { name, role, person, session } = locals.actor;
	const asker = [name, role, person, session !== null];
	try {
		const alike = JSON.stringify([route.id, url.origin, localeOf(request), ...asker]);
		return await sharedAnswer({ store: currentStore(), request, alike }, make);
	} catch (thrown) {
		const fault = faultOf(thrown);
		if (!fault) throw thrown;
		return refuse(event, 503, fault.code, fault.sentence);
	}
}

/** Finds out who asks and whether they may; the answer to somebody who may not. */
async function turnedAway(event: RequestEvent): Promise<Response | null> {
	const least = leastFor(event.route.id, event.request.method);
	event.locals.actor = null;
	event.locals.who = 'nobody';
	const token = tokenOf(event);
	// a calendar program has no token, and must get its last good body while the store is away
	if (least === 'open' && token === undefined) return null;
	let asker: Asker;
	try {
		asker = await askerOf(currentStore(), process.env, token, isPassedOn(event.request));
	} catch (thrown) {
		const fault = faultOf(thrown);
		if (!fault) throw thrown;
		return refuse(event, 503, fault.code, fault.sentence);
	}
	if (asker.kind === 'actor') {
		event.locals.actor = asker.actor;
		event.locals.who = asker.actor.name;
	}
	return answerTo(event, asker, least);
}

function answerTo(event: RequestEvent, asker: Asker, least: Least): Response | null {
	if (least === 'open') return null;
	if (asker.kind === 'unlocked') return refuse(event, 403, 'unlocked', unlockedSentence);
	if (asker.kind === 'nobody') {
		if (!wantsPage(event))
			return refusal(401, 'enter-first', 'nobody has entered on this device, or no more');
		redirect(303, `/enter?to=${encodeURIComponent(event.url.pathname + event.url.search)}`);
	}
	if (mayDo(asker.actor.role, least)) return null;
	return refuse(event, 403, 'not-allowed', `a ${asker.actor.role} may not do this: it needs a ${least}`);
}

const wantsPage = ({ request, isDataRequest }: RequestEvent) =>
	isDataRequest || (request.headers.get('accept') ?? '').includes('text/html');

function refuse(event: RequestEvent, status: number, code: string, sentence: string): Response {
	if (!wantsPage(event)) return refusal(status, code, sentence);
	error(status, `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}`);
}

/** The audit of writes; where nobody has to enter there is only one who could have done it. */
async function writeDown(event: RequestEvent, answer: Response): Promise<void> {
	const { actor, deed } = event.locals;
	const { method } = event.request;
	if (!actor?.session || reads.has(method) || answer.status >= 400) return;
	const said = deed ?? { what: deedFor(event.route.id, method), about: event.params.id ?? '' };
	try {
		await writeDeed(currentStore(), { who: actor.name, ...said, address: addressOf(event) });
	} catch (thrown) {
		console.error('lazaret: the audit was not written:', faultOf(thrown)?.sentence ?? thrown);
	}
}

export const handleError: HandleServerError = ({ error: thrown, event, status, message }) => {
	if (status < 500) return { message };
	const fault = faultOf(thrown);
	// the path may hold a secret (a feed's address), so only the route's pattern is written down
	console.error(
		`lazaret: ${event.request.method} ${event.route.id ?? 'no route'}:`,
		fault?.sentence ?? thrown
	);
	return {
		message: fault?.sentence ?? 'Something in the app itself went wrong. Nothing you typed was changed.'
	};
};
