import { Spoiled } from './kept.ts';

/** What a broken disk or database means for the person at the screen. */
export interface Fault {
	code: 'disk-full' | 'disk' | 'read-only' | 'busy' | 'database-away' | 'damaged';
	sentence: string;
}

const full: Fault = {
	code: 'disk-full',
	sentence: 'The disk is full. Nothing was saved; make room and try again.'
};
const readOnly: Fault = {
	code: 'read-only',
	sentence: 'The data folder cannot be written. Nothing was saved.'
};
const busy: Fault = {
	code: 'busy',
	sentence: 'The data is held by another program. Nothing was saved; try again.'
};
const away: Fault = {
	code: 'database-away',
	sentence: 'The database does not answer. Nothing was saved; try again.'
};
const damaged: Fault = {
	code: 'damaged',
	sentence: 'The data is damaged. Nothing was saved; restore a backup.'
};
const failing: Fault = {
	code: 'disk',
	sentence: 'The disk did not take what was written: it may be full or failing. Nothing was saved.'
};

/** By SQLite's primary result code (https://www.sqlite.org/rescode.html). */
const sqliteFaults: Record<number, Fault> = {
	5: busy,
	6: busy,
	8: readOnly,
	10: failing,
	11: damaged,
	13: full,
	14: readOnly,
	26: damaged
};

/** By PostgreSQL's error code (its manual, appendix A) or the system's. */
const codedFaults: Record<string, Fault> = {
	'53100': full,
	ENOSPC: full,
	'25006': readOnly,
	EROFS: readOnly,
	EACCES: readOnly,
	EIO: failing,
	'58030': failing,
	XX001: damaged,
	XX002: damaged
};

const postgresAway = new Set(['57P01', '57P02', '57P03', '08000', '08003', '08006', '08001', '53300']);
const networkAway = new Set(['ECONNREFUSED', 'ECONNRESET', 'EPIPE', 'ETIMEDOUT', 'ENOTFOUND']);

/** Names the trouble of an error thrown by either engine; null when it is none of theirs, and so a bug. */
export function faultOf(error: unknown): Fault | null {
	if (typeof error !== 'object' || error === null) return null;
	const { code = '', errcode = 0 } = error as { code?: string; errcode?: number };
	if (error instanceof Spoiled) return damaged;
	if (isAway(error)) return away;
	// the lowest eight bits of an extended result code are its primary one
	return sqliteFaults[errcode & 255] ?? codedFaults[code] ?? null;
}

/** True when a PostgreSQL connection broke or cannot be made: the same question may succeed in a moment. */
export function isAway(error: unknown): boolean {
	const { code = '', message = '' } = error as { code?: string; message?: string };
	return (
		postgresAway.has(code) ||
		networkAway.has(code) ||
		/connection terminated|timeout exceeded when trying to connect|not queryable/i.test(message)
	);
}

/**
 * Asks again while the database is away, up to about eight seconds. Only for what may be done twice: reads, and
 * writes that carry an id of the client's.
 */
export async function patiently<T>(
	ask: () => Promise<T>,
	pausesMs = [100, 200, 400, 800, 1600, 2400, 2400]
): Promise<T> {
	for (const pause of pausesMs) {
		try {
			return await ask();
		} catch (error) {
			if (!isAway(error)) throw error;
			await new Promise((resolve) => setTimeout(resolve, pause));
		}
	}
	return ask();
}
