import type { Clash, Edit } from '$lib/run';

/** One act on its way to the store; `id` makes a resend harmless. */
export interface Parcel {
	id: string;
	edits: readonly Edit[];
}

/** What a save came to. */
export type Answer =
	| { kind: 'saved'; version: number; others: { document: unknown; edits: Edit[] } | null }
	| { kind: 'clash'; version: number; document: unknown; sentence: string; clashes: Clash[] }
	| { kind: 'refused'; sentence: string }
	| { kind: 'away'; sentence: string };

const awaySentence = 'The app cannot be reached. What you typed is kept on this device and sent again.';

/** Sends one act to the store. Trouble is an answer, never an exception. */
export async function send(run: string, base: number, parcel: Parcel): Promise<Answer> {
	try {
		const response = await fetch(`/api/runs/${encodeURIComponent(run)}/edits`, {
			method: 'POST',
			headers: { 'content-type': 'application/json' },
			body: JSON.stringify({ ...parcel, base }),
			keepalive: true
		});
		const body = (await response.json()) as {
			error?: { message: string; version: number; document: unknown; clashes: Clash[] };
		};
		if (response.ok) return { kind: 'saved', ...(body as unknown as { version: number; others: null }) };
		const { message: sentence = awaySentence, version = base, document, clashes = [] } = body.error ?? {};
		if (response.status === 409) return { kind: 'clash', version, document, sentence, clashes };
		// whoever has to enter again loses nothing of what they typed
		const passing = response.status >= 500 || response.status === 401 || response.status === 429;
		return { kind: passing ? 'away' : 'refused', sentence };
	} catch {
		return { kind: 'away', sentence: awaySentence };
	}
}

const shelfKey = (run: string) => `lazaret-unsent-${run}`;

/** Acts that have not reached the store yet, kept on this device across a reload. */
export interface Unsent {
	base: number;
	parcels: Parcel[];
}

export function keepUnsent(run: string, unsent: Unsent): void {
	try {
		if (unsent.parcels.length) localStorage.setItem(shelfKey(run), JSON.stringify(unsent));
		else localStorage.removeItem(shelfKey(run));
	} catch {
		// a full or forbidden storage: the acts are still in memory and on their way
	}
}

export function readUnsent(run: string): Unsent | null {
	try {
		return JSON.parse(localStorage.getItem(shelfKey(run)) ?? 'null') as Unsent | null;
	} catch {
		return null;
	}
}
