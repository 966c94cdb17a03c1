import { logWriters, readLog, type Entry } from './log.ts';
import { getRun } from './runs.ts';
import type { Store } from './store.ts';
import type { Document } from './document.ts';

/** A run with its facts and who sent them. */
export interface RunRecord {
	id: string;
	version: number;
	document: Document;
	log: Entry[];
	writers: { id: string; who: string }[];
}

/** A run as its ledger and its log show it; null when there is none, or it was deleted. */
export async function openRecord(store: Store, id: string): Promise<RunRecord | null> {
	const run = await getRun(store, id);
	if (!run || run.deleted !== null) return null;
	const [log, writers] = [await readLog(store, id), await logWriters(store, id)];
	return { id, version: run.version, document: run.document, log, writers };
}
