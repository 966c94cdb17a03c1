import { currentStore, endpoint, openDemo } from '$lib/server';
import type { RequestEvent } from './$types';

/** `POST`: opens the invented runs, making them at the first asking. They keep the time zone of this machine. */
export const POST = endpoint(async ({ locals }: RequestEvent) => {
	const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
	return Response.json({ run: await openDemo(currentStore(), timeZone, locals.who) });
});
