import { listAccounts } from './caldav-accounts.ts';
import { syncAccount } from './caldav-sync.ts';
import { faultOf } from './fault.ts';
import type { Store } from './store.ts';

/** Looks at every account that is due, one after the other. Trouble with a server stands on its account. */
export async function syncDue(store: Store): Promise<void> {
	for (const { id, next } of await listAccounts(store))
		if (next !== null && next <= store.now()) await syncAccount(store, id);
}

/** Looks each minute whether an account is due. Answers how to end it. */
export function scheduleCalendars(store: Store): () => void {
	let busy = false;
	const timer = setInterval(() => {
		if (busy) return;
		busy = true;
		syncDue(store)
			.catch((error: unknown) => {
				// the error alone: a row would hold the keeper's name
				console.error('lazaret: calendar server:', faultOf(error)?.sentence ?? error);
			})
			.finally(() => (busy = false));
	}, 60_000);
	timer.unref();
	return () => clearInterval(timer);
}
