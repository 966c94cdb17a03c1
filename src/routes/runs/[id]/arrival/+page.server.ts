import { error } from '@sveltejs/kit';
import { currentStore, openRecord } from '$lib/server';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params }) => {
	const record = await openRecord(currentStore(), params.id);
	return { record: record ?? error(404, 'There is no such run.') };
};
