import type { SheetAct } from '$lib/sheet';
import type { News } from './news';

/** What a save came to. */
export type Answer =
	| { kind: 'saved'; version: number; news: News | null }
	| { kind: 'clash'; sentence: string; news: News }
	| { kind: 'refused'; sentence: string }
	| { kind: 'away'; sentence: string };

const awaySentence = 'The app cannot be reached. What you typed is kept on this device and sent again.';

type Told = { version: number; news: News | null; error?: News & { message: string } };

/** Sends one act to the store. Trouble is an answer, never an exception. */
export async function send(run: string, base: number, act: SheetAct): Promise<Answer> {
	try {
		const response = await fetch(`/api/runs/${encodeURIComponent(run)}/edits`, {
			method: 'POST',
			headers: { 'content-type': 'application/json' },
			body: JSON.stringify({ ...act, base }),
			keepalive: true
		});
		const { error, version, news } = (await response.json()) as Told;
		if (response.ok) return { kind: 'saved', version, news };
		const sentence = error?.message ?? awaySentence;
		if (error && response.status === 409) return { kind: 'clash', sentence, news: error };
		// whoever has to enter again loses nothing of what they typed
		const passing = response.status >= 500 || response.status === 401 || response.status === 429;
		return { kind: passing ? 'away' : 'refused', sentence };
	} catch {
		return { kind: 'away', sentence: awaySentence };
	}
}
