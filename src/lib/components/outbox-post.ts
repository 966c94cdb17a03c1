import type { LogEntry, ShownWayDoes } from './outbox-shelf.ts';

/** What sending came to. `refused` is the store's own word; anything else that went wrong may pass. */
export type PostAnswer =
	{ kind: 'taken' } | { kind: 'refused'; sentence: string } | { kind: 'away'; sentence: string };

export const awaySentence =
	'The app cannot be reached. What you logged is kept on this device and sent later.';

/** Answers that ask to try again, or to sign in first: nothing is wrong with the entry itself. */
export const passing: ReadonlySet<number> = new Set([401, 408, 425, 429]);

/**
 * Sends entries of one run to the store. An answer counts only if it is the store's own: the page of a hotel's
 * network or of a proxy says nothing about an entry.
 */
export const postEntries = (run: string, entries: readonly LogEntry[]): Promise<PostAnswer> =>
	post(run, 'log', { entries });

/** Sends a way that was taken, with what it was shown to do; the store refuses it when it would no longer do that. */
export const postWay = (run: string, entry: LogEntry, { does }: ShownWayDoes): Promise<PostAnswer> => {
	const { id, at, task, taken } = entry;
	return post(run, 'slips', { id, at, task, taken, shown: does });
};

async function post(run: string, what: string, body: object): Promise<PostAnswer> {
	try {
		const response = await fetch(`/api/runs/${encodeURIComponent(run)}/${what}`, {
			method: 'POST',
			headers: { 'content-type': 'application/json' },
			body: JSON.stringify(body),
			redirect: 'manual'
		});
		return answerOf(response.status, await response.json());
	} catch {
		return { kind: 'away', sentence: awaySentence };
	}
}

/** Reads an answer by its status and its body. */
export function answerOf(status: number, body: unknown): PostAnswer {
	const { added, error } = (body ?? {}) as { added?: unknown; error?: { message?: unknown } };
	if (status === 200 && typeof added === 'number') return { kind: 'taken' };
	if (typeof error?.message !== 'string') return { kind: 'away', sentence: awaySentence };
	const final = status >= 400 && status < 500 && !passing.has(status);
	return { kind: final ? 'refused' : 'away', sentence: error.message };
}
