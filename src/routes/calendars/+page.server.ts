import { leftOutSentences } from '$lib/calendar';
import {
	currentStore,
	listAccounts,
	listFeeds,
	openProposals,
	openRuns,
	readNotes,
	scopeWords
} from '$lib/server';
import type { PageServerLoad } from './$types';

export const load: PageServerLoad = async () => {
	const store = currentStore();
	const [feeds, runs, proposals] = [
		await listFeeds(store),
		await openRuns(store),
		await openProposals(store)
	];
	const accounts = [];
	for (const { scope, collection: _collection, user: _user, every: _every, ...account } of await listAccounts(
		store
	)) {
		const notes = await readNotes(store, account.id, 60);
		accounts.push({ ...account, what: scopeWords(scope, runs), notes });
	}
	const tanks = runs.map(({ document }) => (document.tank as { name?: unknown } | undefined)?.name);
	return {
		accounts,
		proposals,
		feeds: feeds.map(({ leftOut, scope, ...feed }) => ({
			...feed,
			what: scopeWords(scope, runs),
			leftOut: leftOut ? leftOutSentences(leftOut) : []
		})),
		runs: runs.map(({ id, name }) => ({ id, name })),
		tanks: [...new Set(tanks.filter((name): name is string => typeof name === 'string' && name !== ''))]
	};
};
