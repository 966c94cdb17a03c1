import { read, unreadable, type Read } from '../units/index.ts';
import { isDay } from './days.ts';
import type { Correction, Fact, LogEntry } from './log.ts';
import { bodies } from './log-bodies.ts';
import type { Known } from './log-known.ts';
import { Line } from './log-line.ts';
import { isJson, type Json, type Reader } from './reader.ts';
import { logKinds } from './vocabulary.ts';

const instant =
	/^\d{4}-\d\d-\d\dT([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d{1,9})?)?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)$/;
const expectedInstant = 'an instant with Z or an offset, such as 2026-11-30T08:12:00-06:00';

/** An instant of the log, and its milliseconds since 1970-01-01T00:00Z. */
export function readInstant(text: string): Read<{ at: string; atMs: number }> {
	if (!instant.test(text) || !isDay(text.slice(0, 10))) return unreadable('instant', text, expectedInstant);
	return read({ at: text, atMs: Date.parse(text) });
}

/** One entry; null when any of it cannot be read: a fact half understood is no fact. */
export function readEntry(reader: Reader, place: string, entry: Json, known: Known): LogEntry | null {
	const before = reader.problems.length;
	const result = entryOf(new Line(reader, place, entry, known));
	return reader.problems.length > before ? null : result;
}

function entryOf(line: Line): LogEntry | null {
	const id = line.text('id', 100) ?? '';
	if (id === '') line.missing('id', 'an id by the writer');
	const moment = line.cell('at', expectedInstant, readInstant);
	const kind = line.word('kind', logKinds);
	const by = line.text('by');
	const note = line.text('note', 4000);
	if (kind === null || moment === null) return null;
	const head = {
		id,
		...moment,
		...(by === undefined ? {} : { by }),
		...(note === undefined ? {} : { note })
	};
	if (kind === 'correct') return correction(line, head);
	return { ...head, ...bodies[kind](line, moment.at.slice(0, 10)) } as Fact;
}

type Head = Pick<Correction, 'id' | 'at' | 'atMs' | 'by' | 'note'>;

function correction(line: Line, head: Head): Correction | null {
	const { reader, entry, known } = line;
	const target = line.text('entry', 100);
	if (target === undefined) return line.missing('entry', 'the id of the entry it corrects');
	if (!known.entries.has(target))
		return reader.refuse(line.at('entry'), target, 'no-such-entry', 'the id of an entry of this log');
	if (reader.flag(line.at('void'), entry.void))
		return { ...head, kind: 'correct', entry: target, as: null, movesTime: false };
	if (!isJson(entry.as)) return line.missing('as', 'what the entry should say, or "void": true');
	const as = { id: target, at: head.at, ...entry.as };
	const fact = readEntry(reader, line.at('as'), as, known);
	if (!fact) return null;
	if (fact.kind === 'correct')
		return reader.refuse(line.at('as.kind'), fact.kind, 'word', 'a fact, not a correction of one');
	return { ...head, kind: 'correct', entry: target, as: fact, movesTime: entry.as.at !== undefined };
}
