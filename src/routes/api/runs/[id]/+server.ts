import { z } from 'zod';
import { currentStore, endpoint, getRun, idSchema, noRun, readBody, readLog, setDeleted } from '$lib/server';
import type { RequestEvent } from './$types';

/** `GET`: the run with its document and its log. */
export const GET = endpoint(async ({ params }: RequestEvent) => {
	const run = await getRun(currentStore(), params.id);
	return run ? Response.json({ run, log: await readLog(currentStore(), params.id) }) : noRun(params.id);
});

const body = z.strictObject({ id: idSchema, deleted: z.boolean() });

/** `PATCH { id, deleted }`: takes the run off the lists, or puts it back. */
export const PATCH = endpoint(async ({ params, request, locals }: RequestEvent) => {
	const read = await readBody(request, body);
	if (!read.ok) return read.response;
	const by = { id: read.value.id, who: locals.who };
	const done = await setDeleted(currentStore(), params.id, read.value.deleted, by);
	return done ? Response.json({ deleted: read.value.deleted }) : noRun(params.id);
});
