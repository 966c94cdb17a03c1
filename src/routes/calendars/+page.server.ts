import { leftOutSentences } from '$lib/calendar';
import { currentStore, listFeeds, openRuns } from '$lib/server';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async () => {
	const [feeds, runs] = [await listFeeds(currentStore()), await openRuns(currentStore())];
	const tanks = runs.map(({ document }) => (document.tank as { name?: unknown } | undefined)?.name);
	return {
		feeds: feeds.map(({ leftOut, ...feed }) => ({
			...feed,
			leftOut: leftOut ? leftOutSentences(leftOut) : []
		})),
		runs: runs.map(({ id, name }) => ({ id, name })),
		tanks: [...new Set(tanks.filter((name): name is string => typeof name === 'string' && name !== ''))]
	};
};
