import { z } from 'zod';
import {
	appendLog,
	currentStore,
	endpoint,
	entriesSchema,
	getRun,
	noRun,
	readBody,
	readLog,
	refusal
} from '$lib/server';
import type { RequestEvent } from './$types';

/** `GET`: the log, in the order things happened. */
export const GET = endpoint(async ({ params }: RequestEvent) => {
	const run = await getRun(currentStore(), params.id);
	return run ? Response.json({ log: await readLog(currentStore(), params.id) }) : noRun(params.id);
});

const body = z.strictObject({ entries: entriesSchema });

/** `POST { entries }`: adds what is new; an entry sent again is passed over. */
export const POST = endpoint(async ({ params, request, locals }: RequestEvent) => {
	const read = await readBody(request, body);
	if (!read.ok) return read.response;
	const logged = await appendLog(currentStore(), params.id, read.value.entries, locals.who);
	if (!logged) return noRun(params.id);
	return logged.ok ? Response.json({ added: logged.added }) : refusal(422, 'not-understood', logged.sentence);
});
