import { currentFeeds } from '$lib/server';
import type { RequestEvent } from './$types';

/** `GET`: a subscribed calendar. Never an error and never a page: some calendars give up after one. */
export async function GET({ params, request }: RequestEvent): Promise<Response> {
	const { status, headers, body } = await currentFeeds()(params.secret, {
		ifNoneMatch: request.headers.get('if-none-match'),
		ifModifiedSince: request.headers.get('if-modified-since'),
		acceptEncoding: request.headers.get('accept-encoding')
	});
	return new Response(body, { status, headers });
}
