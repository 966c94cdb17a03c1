import type { Save } from '$lib/sheet';

/** Every save after a version, in order, whoever made it, and the document it led to. */
export interface News {
	version: number;
	document: unknown;
	saves: Save[];
}

const POLL_MS = 8000;

/** What was saved after `version`; null when nothing was, or the app cannot be reached. */
export async function newsSince(run: string, version: number): Promise<News | null> {
	const path = `/api/runs/${encodeURIComponent(run)}/edits?since=${version}`;
	const answer = await fetch(path).catch(() => null);
	return answer?.status === 200 ? ((await answer.json()) as News) : null;
}

/**
 * Calls `look` when something may have been saved elsewhere: at once when another page of this browser says so, when
 * the page comes back into view, and every few seconds while it is seen.
 */
export function listen(run: string, look: () => void): { tell: () => void; stop: () => void } {
	const channel = new BroadcastChannel(`lazaret-run-${run}`);
	const seen = () => document.hidden || look();
	channel.addEventListener('message', look);
	document.addEventListener('visibilitychange', seen);
	const timer = setInterval(seen, POLL_MS);
	return {
		tell: () => channel.postMessage('saved'),
		stop: () => {
			clearInterval(timer);
			channel.close();
			document.removeEventListener('visibilitychange', seen);
		}
	};
}
