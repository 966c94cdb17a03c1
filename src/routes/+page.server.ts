import { redirect } from '@sveltejs/kit';
import { currentStore, listRuns } from '$lib/server';
import type { PageServerLoad } from './$types';

/** The welcome is for the first visit; after that the jobs of the day are what a keeper comes for. */
export const load: PageServerLoad = async () => {
	const runs = await listRuns(currentStore());
	if (runs.length > 0) redirect(307, '/today');
};
