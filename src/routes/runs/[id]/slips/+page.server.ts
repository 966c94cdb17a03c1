import { error } from '@sveltejs/kit';
import { dayIn } from '$lib/components/almanac';
import { currentStore, getRun, slipsOf } from '$lib/server';
import type { PageServerLoad } from './$types';

/** The ways to go on are worked out for the moment the page is opened: what they write says that moment. */
export const load: PageServerLoad = async ({ params }) => {
	const now = new Date().toISOString();
	const run = await getRun(currentStore(), params.id);
	const today = dayIn(String(run?.document.timeZone), now);
	const slips = await slipsOf(currentStore(), params.id, now, today);
	return { opened: { ...(slips ?? error(404, 'There is no such run.')), at: now, today } };
};
