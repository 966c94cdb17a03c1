import type { Bag } from './log-bag.ts';
import type { Lot } from './run.ts';
import type {
	Appetite,
	ChangeSource,
	Equipment,
	Measurable,
	ReadingForm,
	Sign,
	Taken
} from './vocabulary.ts';

/** What every entry says: who wrote it, when it happened. */
interface Entry {
	id: string;
	/** as written, with its offset */
	at: string;
	/** the same instant, milliseconds since 1970-01-01T00:00Z */
	atMs: number;
	by?: string;
	note?: string;
}

/** What the keeper measured out. */
export interface LoggedAmount {
	value: number;
	unit: 'L' | 'mL' | 'mg' | 'g';
}

export interface Done extends Entry {
	kind: 'done';
	task: string;
	/** only when other than planned */
	amount?: LoggedAmount;
}

export interface Missed extends Entry {
	kind: 'missed';
	task: string;
	reason?: string;
}

/** `value` is mg/L (uL/L of a medicine counted as whole liquid), pH, ppt for `S`, degrees Celsius for `T`. */
export interface Reading extends Entry {
	kind: 'reading';
	task?: string;
	/** a measurable, or a medicine's id */
	what: Measurable | (string & {});
	value: number;
	/** what the kit counts; absent: `tan` for NH3 */
	as?: ReadingForm;
}

export interface Observation extends Entry {
	kind: 'observation';
	task?: string;
	/** absent: the whole tank */
	lot?: string;
	signs: Sign[];
	appetite?: Appetite;
	breathsPerMinute?: number;
	/** id of a stored picture */
	photo?: string;
	/** readings of the shipping bag: this look is the record of an arrival */
	bag?: Bag;
}

export interface Loss extends Entry {
	kind: 'loss';
	lot: string;
	count: number;
}

/** Fish that join (`lot`), or a known lot that grows or shrinks (`lotId`, `count`). */
export type Fish = Entry & { kind: 'fish'; restart: boolean } & (
		{ lot: Lot; lotId?: undefined; count?: undefined } | { lotId: string; count: number; lot?: undefined }
	);

/** An unplanned change of water, in litres or as a share of the volume. */
export type LoggedChange = Entry & { kind: 'change'; source: ChangeSource } & (
		{ litres: number; fraction?: undefined } | { fraction: number; litres?: undefined }
	);

export interface LoggedDose extends Entry {
	kind: 'dose';
	medicine: string;
	amount: LoggedAmount;
}

export interface EquipmentMoved extends Entry {
	kind: 'equipment';
	what: Equipment;
	on: boolean;
}

export interface Topoff extends Entry {
	kind: 'topoff';
	litres: number;
}

export interface Choice extends Entry {
	kind: 'choice';
	task: string;
	taken: Taken;
}

/** Takes an earlier entry back (`as` null), or says what it should have said. */
export interface Correction extends Entry {
	kind: 'correct';
	entry: string;
	as: Fact | null;
	/** the replacement names its own moment; else that of the replaced entry stays */
	movesTime: boolean;
}

/** What happened. Corrections are folded in by {@link readLog}. */
export type Fact =
	| Done
	| Missed
	| Reading
	| Observation
	| Loss
	| Fish
	| LoggedChange
	| LoggedDose
	| EquipmentMoved
	| Topoff
	| Choice;

export type LogEntry = Fact | Correction;

const inOrder = (a: LogEntry, b: LogEntry): number =>
	a.atMs - b.atMs || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);

/**
 * The log as the march replays it: by `at`, then `id`; an id met again is ignored; corrections are applied and gone.
 * The latest correction of an entry holds; a correction may itself be corrected or taken back. A replacement keeps
 * the entry's id, its moment unless it names one, and, where it leaves them out, its writer, its note, and of an entry
 * of the same kind the task and the kit's form.
 */
export function readLog(entries: readonly LogEntry[]): Fact[] {
	const seen = new Set<string>();
	const once = entries.filter((entry) => !seen.has(entry.id) && seen.add(entry.id));
	const verdicts = verdictsOf(once.filter((entry) => entry.kind === 'correct').sort(inOrder));
	const facts: Fact[] = [];
	for (const entry of once) {
		if (entry.kind === 'correct') continue;
		const verdict = verdicts.get(entry.id);
		if (!verdict) facts.push(entry);
		else if (verdict.as) facts.push(replaced(entry, verdict.as, verdict.movesTime));
	}
	return facts.sort(inOrder);
}

type Verdict = Pick<Correction, 'as' | 'movesTime'>;

/** What became of each corrected entry. Latest first, so that a correction is judged before it speaks. */
function verdictsOf(corrections: readonly Correction[]): Map<string, Verdict> {
	const verdicts = new Map<string, Verdict>();
	for (const correction of corrections.toReversed()) {
		const own = verdicts.get(correction.id);
		if (own && !own.as) continue;
		if (!verdicts.has(correction.entry)) verdicts.set(correction.entry, own ?? correction);
	}
	return verdicts;
}

function replaced(entry: Fact, as: Fact, movesTime: boolean): Fact {
	const kept: Partial<Record<'task' | 'by' | 'note' | 'as', string>> = {};
	if ('task' in entry && entry.task !== undefined && entry.kind === as.kind) kept.task = entry.task;
	if (entry.kind === 'reading' && as.kind === 'reading' && entry.what === as.what && entry.as)
		kept.as = entry.as;
	if (entry.by !== undefined) kept.by = entry.by;
	if (entry.note !== undefined) kept.note = entry.note;
	const { at, atMs } = movesTime ? as : entry;
	return { ...kept, ...as, id: entry.id, at, atMs } as Fact;
}
