import { currentStore } from './current.ts';
import { openFeeds } from './feed-answer.ts';
import { plannedRuns } from './planned.ts';
import type { Store } from './store.ts';

let current: { store: Store; answer: ReturnType<typeof openFeeds> } | null = null;

/** The feeds of this process's store. */
export function currentFeeds(): ReturnType<typeof openFeeds> {
	const store = currentStore();
	if (current?.store !== store) {
		const plansOf = (now: string) => plannedRuns(store, now);
		// the error alone: an address would hold the secret
		current = {
			store,
			answer: openFeeds({ store, plansOf, report: (error) => console.error('lazaret: feed:', error) })
		};
	}
	return current.answer;
}
