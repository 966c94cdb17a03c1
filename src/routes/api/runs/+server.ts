import { z } from 'zod';
import { createRun, currentStore, endpoint, idSchema, listRuns, readBody, refusal } from '$lib/server';
import type { RequestEvent } from './$types';

/** `GET`: the runs. `?deleted` asks for the deleted ones. */
export const GET = endpoint(async ({ url }: RequestEvent) =>
	Response.json({
		runs: await listRuns(currentStore(), url.searchParams.has('deleted') ? 'deleted' : 'kept')
	})
);

const body = z.strictObject({ id: idSchema, document: z.json() });

/** `POST { id, document }`: a new run; the same id again answers with what is there. */
export const POST = endpoint(async ({ request, locals }: RequestEvent) => {
	const read = await readBody(request, body);
	if (!read.ok) return read.response;
	const created = await createRun(currentStore(), { ...read.value, who: locals.who });
	if (!created.ok) return refusal(422, 'not-understood', created.sentence);
	return Response.json({ run: created.run }, { status: created.made ? 201 : 200 });
});
