/** What a broken disk or database means for the person at the screen. */
export interface Fault {
	code: 'disk-full' | 'read-only' | 'busy' | 'database-away' | 'damaged';
	sentence: string;
}

const postgresAway = new Set(['57P01', '57P02', '57P03', '08000', '08003', '08006', '08001', '53300']);
const networkAway = new Set(['ECONNREFUSED', 'ECONNRESET', 'EPIPE', 'ETIMEDOUT', 'ENOENT']);

/** Names the trouble of an error thrown by either engine; null when it is none of theirs, and so a bug. */
export function faultOf(error: unknown): Fault | null {
	const {
		code = '',
		message = '',
		errcode = 0
	} = error as { code?: string; message?: string; errcode?: number };
	if (isAway(error))
		return { code: 'database-away', sentence: 'The database does not answer. Nothing was saved; try again.' };
	if (code === '53100' || code === 'ENOSPC' || (errcode & 255) === 13) {
		return { code: 'disk-full', sentence: 'The disk is full. Nothing was saved; make room and try again.' };
	}
	if (code === '25006' || (errcode & 255) === 8 || (errcode & 255) === 14) {
		return { code: 'read-only', sentence: 'The data folder cannot be written. Nothing was saved.' };
	}
	if ((errcode & 255) === 5 || (errcode & 255) === 6) {
		return { code: 'busy', sentence: 'The data is held by another program. Nothing was saved; try again.' };
	}
	if ((errcode & 255) === 11 || (errcode & 255) === 26 || (errcode & 255) === 10 || code.startsWith('XX')) {
		return {
			code: 'damaged',
			sentence: `The data is damaged (${message}). Nothing was saved; restore a backup.`
		};
	}
	return null;
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
