import type { Handle, HandleServerError, ServerInit } from '@sveltejs/kit';
import {
	closeCurrent,
	faultOf,
	isOwnHost,
	isOwnOrigin,
	openCurrent,
	refusal,
	scheduleBackups,
	securityHeaders
} from '$lib/server';

export const init: ServerInit = async () => {
	const store = await openCurrent(process.env);
	const stopBackups = scheduleBackups(store, process.env);
	process.once('sveltekit:shutdown' as 'exit', () => {
		stopBackups();
		void closeCurrent();
	});
};

const reads = new Set(['GET', 'HEAD', 'OPTIONS']);

export const handle: Handle = async ({ event, resolve }) => {
	const { request, url } = event;
	if (!isOwnHost(url.hostname, process.env.LAZARET_HOSTS)) {
		return refusal(421, 'foreign-host', `this app does not answer to the name ${url.hostname}`);
	}
	if (!reads.has(request.method) && !isOwnOrigin(request, url.origin)) {
		return refusal(403, 'foreign-origin', 'a write has to come from a page of this app');
	}
	event.locals.who = 'keeper';
	const response = await resolve(event);
	for (const [name, value] of Object.entries(securityHeaders)) response.headers.set(name, value);
	if (url.pathname.startsWith('/api/')) response.headers.set('cache-control', 'no-store');
	return response;
};

export const handleError: HandleServerError = ({ error, event, status, message }) => {
	if (status < 500) return { message };
	const fault = faultOf(error);
	// the path may hold a secret (a feed's address), so only the route's pattern is written down
	console.error(
		`lazaret: ${event.request.method} ${event.route.id ?? 'no route'}:`,
		fault?.sentence ?? error
	);
	return {
		message: fault?.sentence ?? 'Something in the app itself went wrong. Nothing you typed was changed.'
	};
};
