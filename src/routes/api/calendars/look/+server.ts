import { currentServers, endpoint, loginSchema, readBody } from '$lib/server';
import type { RequestEvent } from './$types';

/** `POST { server, user, password }`: which collections that server shows this user. Nothing is stored. */
export const POST = endpoint(async ({ request }: RequestEvent) => {
	const read = await readBody(request, loginSchema);
	return read.ok ? currentServers.find(read.value) : read.response;
});
