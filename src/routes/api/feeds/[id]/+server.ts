import { currentStore, endpoint, refusal, renewFeed, revokeFeed } from '$lib/server';
import type { RequestEvent } from './$types';

const noFeed = (id: string) => refusal(404, 'no-feed', `there is no feed ${id}`);

/** `POST`: a new secret in place of the old one. */
export const POST = endpoint(async ({ params }: RequestEvent) => {
	const secret = await renewFeed(currentStore(), params.id);
	return secret === null ? noFeed(params.id) : Response.json({ secret });
});

/** `DELETE`: ends the feed; its address answers 404 from then on. */
export const DELETE = endpoint(async ({ params }: RequestEvent) =>
	(await revokeFeed(currentStore(), params.id)) ? Response.json({ revoked: params.id }) : noFeed(params.id)
);
