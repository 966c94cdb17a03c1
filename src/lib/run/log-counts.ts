import { readLog, type LogEntry } from './log.ts';
import type { Lot } from './run.ts';

/** An entry by which more fish died or left than were ever known. */
export interface TooMany {
	/** the entry, or the correction that says so */
	entry: string;
	/** key of the count in it */
	key: string;
	count: number;
	/** how many it can be at most */
	most: number;
	what: string;
}

/**
 * Entries that take out more fish than are known, in the order in which they were written: what was written first
 * stands. A lot that nobody counted can lose any number.
 */
export function tooMany(lots: readonly Lot[], log: readonly LogEntry[]): TooMany[] {
	const writer = writersOf(log);
	const place = new Map(log.map(({ id }, n) => [id, n]));
	const written = readLog(log)
		.map((fact) => ({ fact, by: writer.get(fact.id) ?? fact.id }))
		.sort((a, b) => (place.get(a.by) ?? 0) - (place.get(b.by) ?? 0));
	const known = new Map(lots.map(({ id, count, what }) => [id, { count, what }]));
	for (const { fact } of written) {
		if (fact.kind !== 'fish') continue;
		const { lot, lotId, count } = fact;
		if (lot) known.set(lot.id, { count: lot.count, what: lot.what });
		else if (count > 0)
			known.set(lotId, { what: '', ...known.get(lotId), count: (known.get(lotId)?.count ?? 0) + count });
	}
	return written.flatMap(({ fact, by }): TooMany[] => {
		const out = takenOut(fact);
		const here = out && known.get(out.lot);
		if (!out || !here) return [];
		const most = here.count;
		known.set(out.lot, { ...here, count: Math.max(0, most - out.count) });
		const key = by === fact.id ? 'count' : 'as.count';
		return out.count > most ? [{ entry: by, key, count: out.count, most, what: here.what || out.lot }] : [];
	});
}

/** How many are known, and what to do. */
export const tooManyTrouble = ({ count, most, what }: TooMany) => ({
	code: 'out-of-range',
	seen: String(count),
	expected: `at most ${most}, as many ${what} as are known in the tank: correct the number, or first log those that joined`
});

function takenOut(fact: LogEntry): { lot: string; count: number } | null {
	if (fact.kind === 'loss') return { lot: fact.lot, count: fact.count };
	return fact.kind === 'fish' && !fact.lot && fact.count < 0 ? { lot: fact.lotId, count: -fact.count } : null;
}

/** The correction that says what an entry says now, by the entry; the latest of several. */
function writersOf(log: readonly LogEntry[]): Map<string, string> {
	const corrections = log.filter((entry) => entry.kind === 'correct');
	corrections.sort((a, b) => a.atMs - b.atMs || (a.id < b.id ? -1 : 1));
	return new Map(corrections.flatMap(({ id, entry, as }) => (as ? [[entry, id] as const] : [])));
}
