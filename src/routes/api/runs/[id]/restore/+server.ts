import { z } from 'zod';
import { currentStore, endpoint, idSchema, readBody, refusal, restoreVersion } from '$lib/server';
import type { RequestEvent } from './$types';

const body = z.strictObject({ id: idSchema, version: z.int().min(1) });

/** `POST { id, version }`: makes that version the newest again; what came between stays in the history. */
export const POST = endpoint(async ({ params, request, locals }: RequestEvent) => {
	const read = await readBody(request, body);
	if (!read.ok) return read.response;
	const { id, version } = read.value;
	const saved = await restoreVersion(currentStore(), params.id, version, { id, who: locals.who });
	if (saved.kind !== 'saved') return refusal(404, 'no-version', `run ${params.id} has no version ${version}`);
	return Response.json({ version: saved.version });
});
