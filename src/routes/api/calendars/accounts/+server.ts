import { currentServers, endpoint, newAccountSchema, readBody } from '$lib/server';
import type { RequestEvent } from './$types';

/** `POST`: an account that follows the plans from now on, in a collection that is there or one to make. */
export const POST = endpoint(async ({ request, url }: RequestEvent) => {
	const read = await readBody(request, newAccountSchema);
	return read.ok ? currentServers.add(read.value, url.origin) : read.response;
});
