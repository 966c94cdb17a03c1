/// <reference types="@sveltejs/kit" />
/// <reference no-default-lib="true"/>
/// <reference lib="esnext" />
/// <reference lib="webworker" />
import { build, files, version } from '$service-worker';

/**
 * Keeps the page of the day for times without network: its code when it is installed, the page itself each time it
 * is loaded. Everything else goes to the network as if this were not here. What was logged is kept by the page.
 */
const worker = globalThis as unknown as ServiceWorkerGlobalScope;
const shell = `lazaret-shell-${version}`;
const kept = 'lazaret-kept';
/** older fonts are for browsers without service workers */
const assets = [...build, ...files].filter((path) => !path.endsWith('.woff') && !path.endsWith('.map'));
const known = new Set(assets);

worker.addEventListener('install', (event) => {
	event.waitUntil(
		caches
			.open(shell)
			.then((cache) => cache.addAll(assets))
			.then(() => worker.skipWaiting())
	);
});

worker.addEventListener('activate', (event) => {
	event.waitUntil(
		caches
			.keys()
			.then((names) =>
				Promise.all(
					names
						.filter((name) => name.startsWith('lazaret-shell-') && name !== shell)
						.map((name) => caches.delete(name))
				)
			)
			.then(() => worker.clients.claim())
	);
});

/** The page asks for itself to be kept: its first visit was over before this worker was there. */
worker.addEventListener('message', (event) => {
	if (event.data === 'keep') event.waitUntil(fresh(new Request('/today')).catch(() => undefined));
});

worker.addEventListener('fetch', (event) => {
	const { request } = event;
	const url = new URL(request.url);
	if (request.method !== 'GET' || url.origin !== worker.location.origin) return;
	if (known.has(url.pathname)) event.respondWith(fromShell(request, url.pathname));
	else if (isToday(request, url)) event.respondWith(fresh(request).catch(() => keptOf(request)));
});

/** The page, its data, and the bare address that leads to it. */
const isToday = (request: Request, { pathname }: URL): boolean =>
	pathname === '/today/__data.json' ||
	(request.mode === 'navigate' && (pathname === '/today' || pathname === '/'));

async function fromShell(request: Request, path: string): Promise<Response> {
	return (await (await caches.open(shell)).match(path)) ?? fetch(request);
}

/** From the network, and kept where it is the page of the day itself. */
async function fresh(request: Request): Promise<Response> {
	const response = await fetch(request);
	const path = new URL(response.url || request.url).pathname;
	// somebody has to enter first: what was kept for the one before is not for them
	if (path === '/enter') await caches.delete(kept);
	if (response.ok && !response.redirected && path.startsWith('/today')) {
		const cache = await caches.open(kept);
		await cache.put(path, response.clone());
	}
	return response;
}

async function keptOf(request: Request): Promise<Response> {
	const { pathname } = new URL(request.url);
	const found = await (await caches.open(kept)).match(pathname === '/' ? '/today' : pathname);
	return found ?? Response.error();
}
