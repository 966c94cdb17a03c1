import { accountActSchema, currentServers, endpoint, readBody } from '$lib/server';
import type { RequestEvent } from './$types';

/** `POST { act: "sync", agreed? }`: one look now. `{ act: "password", password }`: a new password, then a look. */
export const POST = endpoint(async ({ params, request }: RequestEvent) => {
	const read = await readBody(request, accountActSchema);
	return read.ok ? currentServers.act(params.id, read.value) : read.response;
});

/** `DELETE`: stops following; what stands on the server stays there. */
export const DELETE = endpoint(({ params }: RequestEvent) => currentServers.forget(params.id));
