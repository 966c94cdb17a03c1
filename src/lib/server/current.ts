import { openStore, storeOptions, type Store } from './store.ts';

let current: Store | null = null;

/** Opens the store the environment names, once at the app's start. Throws one plain sentence when it cannot. */
export async function openCurrent(env: Record<string, string | undefined>): Promise<Store> {
	current ??= await openStore(storeOptions(env));
	return current;
}

/** The store of this process. */
export function currentStore(): Store {
	if (!current) throw new Error('the store was asked for before the app had started');
	return current;
}

/** Closes it; the app is going down. */
export async function closeCurrent(): Promise<void> {
	const closing = current;
	current = null;
	await closing?.close();
}
