import { readLog, type LogEntry, type LogKind } from '../run/index.ts';
import type { RawEntry } from './fact-entry.ts';
import { wallClock } from './moment.ts';
import { entryWords, factWords, type Names } from './words.ts';

/** One entry of the log as a reader meets it. */
export interface LogLine {
	id: string;
	atMs: number;
	day: string;
	/** `HH:MM` on the run's clock */
	time: string;
	kind: LogKind;
	/** who wrote it; empty where nobody said */
	by: string;
	words: string;
	note: string;
	photo: string | null;
	/** of a correction: what stood before; of an entry taken back or replaced: what stands now */
	was: string | null;
	now: string | null;
	/** corrected or taken back: kept, and no longer counted */
	struck: boolean;
	/** the raw entry, for a form that corrects it */
	raw: RawEntry;
}

export interface Writer {
	id: string;
	who: string;
}

/**
 * Every entry, corrections too, newest first. Nothing is ever taken out: what was corrected is struck and says what
 * holds now. `raws` are the entries as written, `writers` who the store says sent them.
 */
export function logLines(names: Names, raws: readonly RawEntry[], writers: readonly Writer[]): LogLine[] {
	const who = new Map(writers.map(({ id, who }) => [id, who]));
	const rawOf = new Map(raws.map((raw) => [raw.id, raw]));
	const entries = once(names.run.log);
	const standing = new Map(readLog(entries).map((fact) => [fact.id, fact]));
	const corrected = correctedIn(entries);
	const byId = new Map(entries.map((entry) => [entry.id, entry]));
	return entries
		.flatMap((entry): LogLine[] => {
			const raw = rawOf.get(entry.id);
			if (!raw) return [];
			const now = standing.get(entry.id);
			const words = entryWords(entry, names);
			const struck = corrected.has(entry.id) && (!now || factWords(now, names) !== words);
			return [
				{
					id: entry.id,
					atMs: entry.atMs,
					...wallClock(names.run.timeZone, entry.atMs),
					kind: entry.kind,
					by: entry.by ?? who.get(entry.id) ?? '',
					words,
					note: entry.note ?? '',
					photo: entry.kind === 'observation' ? (entry.photo ?? null) : null,
					was: wasOf(entry, byId, names),
					now: struck ? (now ? factWords(now, names) : 'taken back') : null,
					struck,
					raw
				}
			];
		})
		.sort((a, b) => b.atMs - a.atMs || (a.id < b.id ? 1 : -1));
}

/** Ids of the entries that a correction speaks of which itself still holds. */
function correctedIn(entries: readonly LogEntry[]): Set<string> {
	const corrected = new Set<string>();
	const latestFirst = entries
		.filter((entry) => entry.kind === 'correct')
		.sort((a, b) => b.atMs - a.atMs || (a.id < b.id ? 1 : -1));
	for (const { id, entry } of latestFirst) if (!corrected.has(id)) corrected.add(entry);
	return corrected;
}

const once = (log: readonly LogEntry[]): LogEntry[] => {
	const seen = new Set<string>();
	return log.filter(({ id }) => !seen.has(id) && seen.add(id));
};

function wasOf(entry: LogEntry, byId: ReadonlyMap<string, LogEntry>, names: Names): string | null {
	const target = entry.kind === 'correct' ? byId.get(entry.entry) : undefined;
	return target ? entryWords(target, names) : null;
}

export interface LogFilter {
	/** empty: all */
	kind: LogKind | '';
	by: string;
}

export const filtered = (lines: readonly LogLine[], { kind, by }: LogFilter): LogLine[] =>
	lines.filter((line) => (kind === '' || line.kind === kind) && (by === '' || line.by === by));

/** Everybody who wrote something, in the order of the alphabet. */
export const writersOf = (lines: readonly LogLine[]): string[] =>
	[...new Set(lines.map(({ by }) => by).filter(Boolean))].sort();
