import { error } from '@sveltejs/kit';
import { currentStore, slipsOf } from '$lib/server';
import type { PageServerLoad } from './$types';

/** The ways to go on are worked out for the moment the page is opened: what they write says that moment. */
export const load: PageServerLoad = async ({ params }) => {
	const store = currentStore();
	return { opened: (await slipsOf(store, params.id, store.now())) ?? error(404, 'There is no such run.') };
};
