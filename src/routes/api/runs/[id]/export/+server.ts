import { calendarDownload, currentStore, download, endpoint, noRun, planFileOf } from '$lib/server';
import type { RequestEvent } from './$types';

/**
 * `GET`: the run as a plan file, log included, for the command line or another copy of the app. `?as=ics`: as a
 * calendar file, with the choices of its form.
 */
export const GET = endpoint(async ({ params, url }: RequestEvent) => {
	if (url.searchParams.get('as') === 'ics') return calendarDownload(url, params.id);
	const file = await planFileOf(currentStore(), params.id);
	if (!file) return noRun(params.id);
	return download(`${JSON.stringify(file, null, '\t')}\n`, 'application/json', `${params.id}.json`);
});
