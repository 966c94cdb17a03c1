import { z } from 'zod';
import { currentStore, endpoint, importAll, readBody, refusal } from '$lib/server';
import type { RequestEvent } from './$types';

const mostBytes = 200_000_000;

/** `POST` an export of everything: takes in what is new, all of it or nothing. */
export const POST = endpoint(async ({ request, locals }: RequestEvent) => {
	const read = await readBody(request, z.unknown(), mostBytes);
	if (!read.ok) return read.response;
	const done = await importAll(currentStore(), read.value, locals.who);
	return done.ok ? Response.json(done.value) : refusal(422, 'not-understood', done.sentence);
});
