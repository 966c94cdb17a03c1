import {
	read,
	readConcentration,
	readDoseAmount,
	readFraction,
	readNumber,
	readTemperatureC,
	readVolumeL,
	unreadable,
	type Read
} from '../units/index.ts';
import { readSalinityCell } from '../water/index.ts';
import { readMeasurable } from './cells/test.ts';
import type { Fact, LogEntry } from './log.ts';
import { readLot } from './lot-reader.ts';
import { countedOf } from './medicine-reader.ts';
import type { Json, Reader } from './reader.ts';
import type { Lot, Medicine } from './run.ts';
import {
	appetites,
	changeSources,
	equipment,
	logKinds,
	readingForms,
	signs,
	takens,
	type LogKind
} from './vocabulary.ts';

const instant = /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d{1,9})?)?(Z|[+-]\d\d:\d\d)$/;

/** What a log may name: the run's lots (and those that join on the way) and its medicines. */
export interface Known {
	lots: Set<string>;
	medicines: readonly Medicine[];
	entries: Set<string>;
}

export function knownOf(
	lots: readonly Lot[],
	medicines: readonly Medicine[],
	log: readonly unknown[]
): Known {
	const joined = log.flatMap((entry) => lotIdOf(entry) ?? []);
	const entries = log.flatMap((entry) =>
		typeof entry === 'object' && entry !== null && 'id' in entry && typeof entry.id === 'string'
			? [entry.id]
			: []
	);
	return { lots: new Set([...lots.map(({ id }) => id), ...joined]), medicines, entries: new Set(entries) };
}

function lotIdOf(entry: unknown): string | null {
	if (typeof entry !== 'object' || entry === null || !('lot' in entry)) return null;
	const { lot } = entry;
	return typeof lot === 'object' && lot !== null && 'id' in lot && typeof lot.id === 'string' ? lot.id : null;
}

/** One entry; null when any of it cannot be read: a fact half understood is no fact. */
export function readEntry(reader: Reader, place: string, entry: Json, known: Known): LogEntry | null {
	const before = reader.problems.length;
	const result = entryOf(reader, place, entry, known);
	return reader.problems.length > before ? null : result;
}

function entryOf(reader: Reader, place: string, entry: Json, known: Known): LogEntry | null {
	const kind = reader.word(`${place}.kind`, entry.kind, logKinds);
	if (!kind)
		return entry.kind === undefined
			? reader.refuse(`${place}.kind`, '', 'word', `one of ${logKinds.join(', ')}`)
			: null;
	const id =
		reader.text(`${place}.id`, entry.id, 100) ??
		reader.refuse(`${place}.id`, entry.id ?? '', 'id', 'an id by the writer');
	const at = reader.cell(`${place}.at`, entry.at ?? '', readInstant);
	if (id === null || at === null) return null;
	const by = reader.text(`${place}.by`, entry.by);
	const note = reader.text(`${place}.note`, entry.note, 4000);
	const head = {
		id,
		at: at.text,
		atMs: at.ms,
		...(by === null ? {} : { by }),
		...(note === null ? {} : { note })
	};
	if (kind === 'correct') return correction(reader, place, entry, known, head);
	const body = bodyOf(reader, place, entry, known, kind, head);
	return body && ({ ...head, ...body } as Fact);
}

type Head = { id: string; at: string; atMs: number };

function correction(reader: Reader, place: string, entry: Json, known: Known, head: Head): LogEntry | null {
	const target =
		reader.text(`${place}.entry`, entry.entry, 100) ??
		reader.refuse(`${place}.entry`, entry.entry ?? '', 'id', 'the id of the entry it corrects');
	if (target === null) return null;
	if (!known.entries.has(target))
		return reader.refuse(`${place}.entry`, target, 'no-such-entry', 'the id of an entry of this log');
	const undone = reader.flag(`${place}.void`, entry.void);
	if (undone) return { ...head, kind: 'correct', entry: target, as: null, movesTime: false };
	const as = reader.object(
		`${place}.as`,
		entry.as ?? reader.refuse(`${place}.as`, '', 'object', 'what the entry should say, or "void": true') ?? {}
	);
	const movesTime = as.at !== undefined;
	const fact = readEntry(reader, `${place}.as`, { id: target, at: head.at, ...as }, known);
	return fact && fact.kind !== 'correct'
		? { ...head, kind: 'correct', entry: target, as: fact, movesTime }
		: null;
}

function readInstant(text: string): Read<{ text: string; ms: number }> {
	const ms = instant.test(text) ? Date.parse(text) : NaN;
	const date = text.slice(0, 10);
	const exists = !Number.isNaN(ms) && new Date(`${date}T00:00:00Z`).toISOString().slice(0, 10) === date;
	return exists
		? read({ text, ms })
		: unreadable('instant', text, 'an instant with Z or an offset, such as 2026-11-30T08:12:00-06:00');
}

type Body = Record<string, unknown> & { kind: LogKind };

/** One small reader per kind; each names only the cells of its own kind. */
function bodyOf(
	reader: Reader,
	place: string,
	entry: Json,
	known: Known,
	kind: LogKind,
	head: Head
): Body | null {
	const at = (key: string) => `${place}.${key}`;
	const text = (key: string) => reader.text(at(key), entry[key], 200);
	const needed = (key: string, what: string): string | null =>
		text(key) ?? (reader.absent(entry[key]) ? reader.refuse(at(key), '', 'missing', what) : null);
	const litres = (key: string) => reader.cell(at(key), entry[key], readVolumeL);
	switch (kind) {
		case 'done': {
			const task = needed('task', 'the id of a task');
			const amount = reader.cell(at('amount'), entry.amount, readAmount);
			return { kind, task, ...(amount ? { amount } : {}) };
		}
		case 'missed': {
			const reason = text('reason');
			return { kind, task: needed('task', 'the id of a task'), ...(reason === null ? {} : { reason }) };
		}
		case 'reading':
			return reading(reader, place, entry, known);
		case 'observation': {
			const task = text('task');
			const lot = lotOf(reader, at('lot'), entry.lot, known);
			const appetite = reader.word(at('appetite'), entry.appetite, appetites);
			const breaths = reader.number(
				at('breathsPerMinute'),
				entry.breathsPerMinute,
				0,
				1000,
				'breaths a minute'
			);
			return {
				kind,
				signs: reader.words(at('signs'), entry.signs, signs),
				...(task === null ? {} : { task }),
				...(lot === null ? {} : { lot }),
				...(appetite ? { appetite } : {}),
				...(breaths === null ? {} : { breathsPerMinute: breaths })
			};
		}
		case 'loss':
			return {
				kind,
				lot: lotOf(reader, at('lot'), entry.lot ?? '', known),
				count: reader.whole(at('count'), entry.count ?? '', 1, 100_000, 'a whole number of fish')
			};
		case 'fish':
			return fish(reader, place, entry, known, head);
		case 'change':
			return {
				kind,
				...changeOf(reader, place, entry),
				source: reader.word(at('source'), entry.source ?? 'source', changeSources)
			};
		case 'dose':
			return {
				kind,
				medicine: medicineOf(reader, at('medicine'), entry.medicine, known)?.id,
				amount: reader.cell(at('amount'), entry.amount ?? '', readAmount)
			};
		case 'equipment':
			if (entry.on === undefined) reader.refuse(at('on'), '', 'flag', 'true or false');
			return {
				kind,
				what: reader.word(at('what'), entry.what ?? '', equipment),
				on: reader.flag(at('on'), entry.on)
			};
		case 'topoff':
			return {
				kind,
				litres:
					entry.litres === undefined
						? reader.refuse(at('litres'), '', 'missing', 'a volume such as 1 L')
						: litres('litres')
			};
		case 'choice':
			return {
				kind,
				task: needed('task', 'the id of a task'),
				taken: reader.word(at('taken'), entry.taken ?? '', takens)
			};
		case 'correct':
			return null;
	}
}

const readAmount = (text: string): Read<{ value: number; unit: 'L' | 'mL' | 'mg' | 'g' }> => {
	const litres = /\d ?(l|litres?|liters?|gal)$/i.test(text.trim()) ? readVolumeL(text) : null;
	return litres?.ok ? read({ value: litres.value, unit: 'L' }) : readDoseAmount(text);
};

function changeOf(reader: Reader, place: string, entry: Json) {
	const fraction = entry.fraction;
	if (fraction === undefined) {
		if (entry.litres === undefined)
			return {
				litres: reader.refuse(`${place}.litres`, '', 'missing', 'litres such as 30 L, or a fraction')
			};
		return { litres: reader.cell(`${place}.litres`, entry.litres, readVolumeL) };
	}
	if (typeof fraction === 'number')
		return { fraction: reader.number(`${place}.fraction`, fraction, 0, 1, 'a share from 0 to 1') };
	return { fraction: reader.cell(`${place}.fraction`, fraction, readFraction) };
}

function lotOf(reader: Reader, cell: string, value: unknown, known: Known): string | null {
	if (value === undefined) return null;
	if (typeof value === 'string' && known.lots.has(value)) return value;
	return reader.refuse(cell, value, 'no-such-lot', 'the id of a lot of this run');
}

function medicineOf(reader: Reader, cell: string, value: unknown, known: Known): Medicine | null {
	return (
		known.medicines.find(({ id }) => id === value) ??
		reader.refuse(cell, value ?? '', 'no-such-medicine', 'the id of a medicine of this run')
	);
}

function fish(reader: Reader, place: string, entry: Json, known: Known, head: Head): Body | null {
	const restart = entry.restart === undefined ? true : reader.flag(`${place}.restart`, entry.restart);
	if (typeof entry.lot === 'string') {
		const lotId = lotOf(reader, `${place}.lot`, entry.lot, known);
		return {
			kind: 'fish',
			lotId,
			count: reader.whole(
				`${place}.count`,
				entry.count ?? '',
				-100_000,
				100_000,
				'how many joined, or left (negative)'
			),
			restart
		};
	}
	const lot = reader.object(
		`${place}.lot`,
		entry.lot ?? reader.refuse(`${place}.lot`, '', 'object', 'a lot, or the id of one') ?? {}
	);
	const id =
		reader.text(`${place}.lot.id`, lot.id, 64) ??
		reader.refuse(`${place}.lot.id`, '', 'id', 'an id of its own');
	return id === null
		? null
		: {
				kind: 'fish',
				lot: { ...readLot(reader, `${place}.lot`, lot, id), arrived: head.at.slice(0, 10) },
				restart
			};
}

function reading(reader: Reader, place: string, entry: Json, known: Known): Body | null {
	const ids = known.medicines.map(({ id }) => id);
	const what = reader.cell(`${place}.what`, entry.what ?? '', (text) => {
		const found = readMeasurable(text, ids);
		return found
			? read(found)
			: unreadable(
					'no-such-reading',
					text,
					`NH3, NO2, NO3, Cu, pH, S, T, O2${ids.length ? ` or ${ids.join(', ')}` : ''}`
				);
	});
	if (what === null) return null;
	const bottle = known.medicines.find(({ id }) => id === what);
	const value =
		typeof entry.value === 'number' && what === 'pH'
			? reader.number(`${place}.value`, entry.value, 0, 14, 'a pH from 0 to 14')
			: reader.cell(`${place}.value`, entry.value ?? '', grammarOf(what, bottle));
	const task = reader.text(`${place}.task`, entry.task);
	const as = reader.word(`${place}.as`, entry.as, readingForms);
	return { kind: 'reading', what, value, ...(task === null ? {} : { task }), ...(as ? { as } : {}) };
}

function grammarOf(what: string, bottle: Medicine | undefined): (text: string) => Read<number> {
	if (what === 'S') return readSalinityCell;
	if (what === 'T') return readTemperatureC;
	if (what === 'pH') return readPh;
	return (text) => readConcentration(text, bottle ? countedOf(bottle.active) : 'mass');
}

function readPh(text: string): Read<number> {
	const value = readNumber(text.trim().replace(/^pH ?/i, ''));
	if (!value.ok) return value;
	return value.value >= 0 && value.value <= 14
		? value
		: unreadable('out-of-range', text, 'a pH from 0 to 14');
}
