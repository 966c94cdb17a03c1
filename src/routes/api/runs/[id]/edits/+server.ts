import { z } from 'zod';
import {
	currentStore,
	editsSchema,
	editsSince,
	endpoint,
	idSchema,
	noRun,
	readBody,
	refusal,
	saveEdits
} from '$lib/server';
import type { RequestEvent } from './$types';

const body = z.strictObject({ id: idSchema, base: z.int().min(1), edits: editsSchema });

/** `GET ?since=VERSION`: what was saved after that version, and the document it led to; 204 when nothing was. */
export const GET = endpoint(async ({ params, url }: RequestEvent) => {
	const since = url.searchParams.get('since') ?? '';
	if (!/^\d{1,9}$/.test(since)) return refusal(400, 'not-understood', 'since: expected a version');
	const news = await editsSince(currentStore(), params.id, Number(since));
	return news ? Response.json(news) : new Response(null, { status: 204 });
});

/** `POST { id, base, edits }`: saves; 409 with both values when someone else changed the same cell. */
export const POST = endpoint(async ({ params, request, locals }: RequestEvent) => {
	const read = await readBody(request, body);
	if (!read.ok) return read.response;
	const saved = await saveEdits(currentStore(), params.id, { ...read.value, who: locals.who });
	if (saved.kind === 'saved') return Response.json({ version: saved.version, news: saved.news });
	if (saved.kind === 'no-run') return noRun(params.id);
	if (saved.kind === 'refused') return refusal(422, 'not-understood', saved.sentence);
	const { news, sentence, clashes } = saved;
	return refusal(409, 'clash', sentence, { ...news, clashes });
});
