import { currentStore, endpoint, noRun, planFileOf } from '$lib/server';
import type { RequestEvent } from './$types';

/** `GET`: the run as a plan file, log included, for the command line or another copy of the app. */
export const GET = endpoint(async ({ params }: RequestEvent) => {
	const file = await planFileOf(currentStore(), params.id);
	if (!file) return noRun(params.id);
	return new Response(`${JSON.stringify(file, null, '\t')}\n`, {
		headers: {
			'content-type': 'application/json; charset=utf-8',
			'content-disposition': `attachment; filename="${params.id.replace(/[^\w-]/g, '_')}.json"`
		}
	});
});
