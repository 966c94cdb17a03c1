import { setTimeout as sleep } from 'node:timers/promises';

/** What the server has acknowledged; nothing here may ever be missing afterwards. */
export interface Acknowledged {
	entries: Set<string>;
	/** cell name to its last acknowledged value */
	cells: Map<string, number>;
	writes: number;
}

export const nothing = (): Acknowledged => ({ entries: new Set(), cells: new Map(), writes: 0 });

const json = { 'content-type': 'application/json' };

/** The server went away, which is what the storm waits for; any other answer than a success is a fault. */
class Gone extends Error {}

/** Sends the same write until it is taken: a server whose database is away says 503 and asks to try again. */
async function post(url: string, body: unknown): Promise<{ version?: number }> {
	for (let tries = 0; ; tries++) {
		const { status, text } = await send(url, body);
		if (status < 300) return JSON.parse(text) as { version?: number };
		if (status !== 503 || !text.includes('database-away') || tries > 8) throw new Error(`${status} ${text}`);
		await pause(250);
	}
}

async function send(url: string, body: unknown): Promise<{ status: number; text: string }> {
	try {
		const answer = await fetch(url, { method: 'POST', headers: json, body: JSON.stringify(body) });
		return { status: answer.status, text: await answer.text() };
	} catch (error) {
		throw new Gone(String(error));
	}
}

export const makeRun = (url: string, id: string): Promise<unknown> =>
	post(`${url}/api/runs`, { id, document: { format: 'lazaret-plan/1', name: 'Storm', phases: [] } });

interface Target {
	url: string;
	run: string;
	/** milliseconds since 1970 */
	endAt: number;
	/** most pairs of writes */
	rounds: number;
}

/**
 * One client: logs an entry, then types a number into a cell of its own, as fast as answers come, until the server
 * is gone, the time is up or enough was written.
 */
async function client(to: Target, name: string, seen: Acknowledged): Promise<void> {
	const { url, run, endAt, rounds } = to;
	let base = 1;
	for (let n = 0; n < rounds && Date.now() < endAt; n++) {
		const id = `${name}-${n}`;
		try {
			const entry = { id, at: '2026-11-30T08:00:00Z', kind: 'topoff', litres: '1 L' };
			await post(`${url}/api/runs/${run}/log`, { entries: [entry] });
			seen.entries.add(id);
			const edits = [{ path: [name], to: n }];
			const saved = await post(`${url}/api/runs/${run}/edits`, { id, base, edits });
			base = saved.version ?? base;
			seen.cells.set(name, n);
			seen.writes += 2;
		} catch (error) {
			if (!(error instanceof Gone)) throw error;
			return;
		}
	}
}

/**
 * Eight clients for at most `ms`, each at most `rounds` pairs of writes; `round` keeps their ids apart from those of
 * other storms.
 */
export async function storm(
	url: string,
	run: string,
	round: number,
	ms: number,
	seen: Acknowledged,
	rounds = Infinity
): Promise<void> {
	const to = { url, run, endAt: Date.now() + ms, rounds };
	const names = Array.from({ length: 8 }, (_, i) => `c${round}x${i}`);
	await Promise.all(names.map((name) => client(to, name, seen)));
}

interface Seen {
	run: { version: number; document: Record<string, unknown> };
	log: { id: string }[];
}

/** What is missing of the acknowledged, and whether the history still leads to the document. */
export async function missing(url: string, run: string, seen: Acknowledged): Promise<string[]> {
	const stored = (await (await fetch(`${url}/api/runs/${run}`)).json()) as Seen;
	const logged = new Set(stored.log.map((entry) => entry.id));
	const lost = [...seen.entries].filter((id) => !logged.has(id)).map((id) => `entry ${id}`);
	for (const [cell, value] of seen.cells) {
		// the write after the last acknowledged one may have reached the disk before the kill
		const now = Number(stored.run.document[cell]);
		if (!(now === value || now === value + 1)) lost.push(`cell ${cell}: ${now} instead of ${value}`);
	}
	const replayed = await fetch(`${url}/api/runs/${run}/versions/${stored.run.version}`);
	const { document } = (await replayed.json()) as { document: unknown };
	if (JSON.stringify(document) !== JSON.stringify(stored.run.document))
		lost.push('the history leads elsewhere');
	return lost;
}

export const pause = (ms: number): Promise<void> => sleep(ms);
