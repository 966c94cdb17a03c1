import {
	briefSlipsOf,
	currentStore,
	endpoint,
	mayDo,
	noRun,
	readBody,
	refusal,
	takenWaySchema,
	takeWay
} from '$lib/server';
import type { RequestEvent } from './$types';

/** `GET`: the jobs that nobody answered for, each with the ways to go on and the release they lead to. */
export const GET = endpoint(async ({ params }: RequestEvent) => {
	const store = currentStore();
	const found = await briefSlipsOf(store, params.id, store.now());
	return found ? Response.json(found) : noRun(params.id);
});

/** `POST`: takes a way as it was shown, once; 409 and nothing written when it would no longer do that. */
export const POST = endpoint(async ({ params, request, locals }: RequestEvent) => {
	const read = await readBody(request, takenWaySchema);
	if (!read.ok) return read.response;
	const mayChange = mayDo(locals.actor?.role ?? null, 'keeper');
	const took = await takeWay(currentStore(), params.id, read.value, { who: locals.who, mayChange });
	if (took.kind === 'no-run') return noRun(params.id);
	if (took.kind === 'keeper-only')
		return refusal(403, 'not-allowed', 'This way moves days that were written down: it needs a keeper.');
	if (took.kind === 'moved-on')
		return refusal(409, 'moved-on', `The run has changed since this way was shown. ${took.sentence}`);
	if (took.kind === 'refused') return refusal(422, 'not-understood', took.sentence);
	return Response.json({ added: took.added });
});
