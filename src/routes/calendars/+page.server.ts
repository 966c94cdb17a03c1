import { kindNames, leftOutSentences, taskKinds } from '$lib/calendar';
import {
	currentStore,
	listAccounts,
	listFeeds,
	openProposals,
	openRuns,
	readNotes,
	type FeedScope
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
	for (const { id, server, name, kind, looked, next, trouble, question } of await listAccounts(store)) {
		const notes = await readNotes(store, id, 60);
		accounts.push({ id, server, name, kind, looked, next, trouble, question, notes });
	}
	const tanks = runs.map(({ document }) => (document.tank as { name?: unknown } | undefined)?.name);
	return {
		accounts,
		proposals,
		feeds: feeds.map(({ leftOut, scope, ...feed }) => ({
			...feed,
			what: wordsOf(scope, runs),
			leftOut: leftOut ? leftOutSentences(leftOut) : []
		})),
		runs: runs.map(({ id, name }) => ({ id, name })),
		tanks: [...new Set(tanks.filter((name): name is string => typeof name === 'string' && name !== ''))]
	};
};

/** What a subscription shows, in a line. */
function wordsOf({ run, tank, kinds, per, allDay }: FeedScope, runs: { id: string; name: string }[]): string {
	const missing = kinds ? taskKinds.filter((kind) => !kinds.includes(kind)) : [];
	const shown =
		missing.length === 0
			? 'all kinds'
			: missing.length < 4
				? `without ${missing.map((kind) => kindNames[kind].toLowerCase()).join(', ')}`
				: (kinds ?? []).map((kind) => kindNames[kind].toLowerCase()).join(', ');
	const where = run ? (runs.find(({ id }) => id === run)?.name ?? 'a run that is gone') : 'every run';
	return [
		where,
		...(tank ? [tank] : []),
		shown,
		...(per === 'service' ? ['per service'] : []),
		...(allDay ? ['whole days'] : [])
	].join(' · ');
}
