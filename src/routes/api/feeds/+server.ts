import { createFeed, currentStore, endpoint, listFeeds, newFeedSchema, readBody } from '$lib/server';
import type { RequestEvent } from './$types';

/** `GET`: the feeds, without their secrets. */
export const GET = endpoint(async () => Response.json({ feeds: await listFeeds(currentStore()) }));

/** `POST { name, scope }`: a new feed. Its secret is in this answer only. */
export const POST = endpoint(async ({ request, url }: RequestEvent) => {
	const read = await readBody(request, newFeedSchema);
	if (!read.ok) return read.response;
	const { name, scope } = read.value;
	const made = await createFeed(currentStore(), { name, scope: { ...scope, origin: url.origin } });
	return Response.json(made, { status: 201 });
});
