import { currentServers, decisionSchema, endpoint, readBody } from '$lib/server';
import type { RequestEvent } from './$types';

/** `POST { accept }`: a move made on a phone goes into the plan, or is dropped. */
export const POST = endpoint(async ({ locals, params, request }: RequestEvent) => {
	const read = await readBody(request, decisionSchema);
	return read.ok ? currentServers.decide(params.id, read.value.accept, locals.who) : read.response;
});
