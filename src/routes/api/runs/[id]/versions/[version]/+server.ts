import { currentStore, documentAt, endpoint, refusal } from '$lib/server';
import type { RequestEvent } from './$types';

/** `GET`: the document as it was at that version. */
export const GET = endpoint(async ({ params }: RequestEvent) => {
	const version = /^\d{1,9}$/.test(params.version) ? Number(params.version) : 0;
	const document = await documentAt(currentStore(), params.id, version);
	if (!document) return refusal(404, 'no-version', `run ${params.id} has no version ${params.version}`);
	return Response.json({ version, document });
});
