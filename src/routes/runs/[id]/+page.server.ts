import { error } from '@sveltejs/kit';
import { currentStore, getRun, readLog } from '$lib/server';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async ({ params }) => {
	const run = await getRun(currentStore(), params.id);
	if (!run || run.deleted !== null) error(404, 'There is no such run.');
	return {
		id: run.id,
		version: run.version,
		document: run.document,
		log: await readLog(currentStore(), run.id)
	};
};
