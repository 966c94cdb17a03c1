import { dayNumber, isDay, readRun, type Run } from '../run/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { factKinds, type FactKind } from './fact-kinds.ts';
import { measureOf, type Measure } from './measures.ts';

/** What stands in the fields of a fact: texts, ticks, lists of signs. */
export type Typed = Readonly<Record<string, string | boolean | readonly string[]>>;

/** A raw entry of the log, as the plan file writes it. */
export type RawEntry = { id: string; at: string; kind: string } & Record<string, unknown>;
type RawFact = { kind: string } & Record<string, unknown>;

const textOf = (typed: Typed, key: string): string => {
	const value = typed[key];
	return typeof value === 'string' ? value.trim() : '';
};

/** A plain figure becomes a number; anything else stays as it was typed, for the reader to refuse. */
const figureOr = (text: string): string | number => (/^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text);

const plain = /^[+-]?[\d.,]+$/;
/** A figure typed without a unit has the one that stands beside its field. */
export const withUnit = (text: string, unit: string): string =>
	plain.test(text) && unit !== '' ? `${text} ${unit.replace('°', '').replace('µ', 'u')}` : text;

/** The entry that typed fields come to, without id and moment. `measure` is the one a reading is of. */
export function factOf(kind: FactKind, typed: Typed, measure: Measure | null): RawFact {
	const row = factKinds.find((one) => one.kind === kind);
	if (!row) throw new Error(`no such kind of fact: ${kind}`);
	const cells: Record<string, unknown> = {};
	const lot: Record<string, unknown> = {};
	for (const { key, form, ofLot } of row.fields) {
		const value = typed[key];
		if (form === 'flag') cells[key] = value === true;
		else if (form === 'signs') cells[key] = Array.isArray(value) ? [...(value as string[])] : [];
		else if (textOf(typed, key) !== '') (ofLot ? lot : cells)[key] = textOf(typed, key);
	}
	if (kind === 'joins' && textOf(typed, 'id') !== '') lot.id = textOf(typed, 'id');
	const note = textOf(typed, 'note');
	const fact = shaped(kind, cells, lot, measure);
	return { kind: row.writes, ...fact, ...(note === '' ? {} : { note }) };
}

function shaped(
	kind: FactKind,
	cells: Record<string, unknown>,
	lot: Record<string, unknown>,
	measure: Measure | null
): Record<string, unknown> {
	const text = (key: string) => (typeof cells[key] === 'string' ? cells[key] : '');
	switch (kind) {
		case 'reading':
			return { ...cells, ...(text('value') ? { value: withUnit(text('value'), measure?.unit ?? '') } : {}) };
		case 'observation': {
			const breaths = text('breathsPerMinute');
			return { ...cells, ...(breaths ? { breathsPerMinute: figureOr(breaths) } : {}) };
		}
		case 'change': {
			const { water = '', ...rest } = cells;
			if (water === '') return rest;
			return { ...rest, [/%\s*$/.test(String(water)) ? 'fraction' : 'litres']: water };
		}
		case 'loss':
			return { ...cells, ...(text('count') ? { count: figureOr(text('count')) } : {}) };
		case 'leaves': {
			const count = figureOr(text('count'));
			return {
				...cells,
				...(count === '' ? {} : { count: typeof count === 'number' ? -Math.abs(count) : count })
			};
		}
		case 'joins':
			return {
				restart: cells.restart,
				lot: { ...lot, ...(lot.count === undefined ? {} : { count: figureOr(String(lot.count)) }) }
			};
		default:
			return cells;
	}
}

/** An id that no lot of the run has, for fish that join. */
export function freeLotId(run: Run): string {
	const taken = new Set([
		...run.lots.map(({ id }) => id),
		...run.log.flatMap((entry) => (entry.kind === 'fish' && entry.lot ? [entry.lot.id] : []))
	]);
	for (let n = taken.size + 1; ; n++) if (!taken.has(`lot-${n}`)) return `lot-${n}`;
}

/** One clear sentence about one field. */
export interface FieldTrouble {
	/** key of the field; empty: the entry as a whole */
	field: string;
	sentence: string;
}

/** Keys of the entry that are typed in a field of another name. */
const typedIn: Record<string, string> = { litres: 'water', fraction: 'water' };

/**
 * What of an entry the log would refuse, by field. The reader is the log's own, so that what passes here is taken
 * there. `log` are the raw entries the run has, `fields` those of the form where it has others than its kind.
 */
export function troublesOf(
	document: object,
	log: readonly { id: string }[],
	entry: RawEntry,
	kind: FactKind,
	fields: readonly { key: string }[] = factKinds.find((row) => row.kind === kind)?.fields ?? []
): FieldTrouble[] {
	const { problems } = readRun({ ...document, log: [...log, entry] }, { today: null });
	const own = `log.${entry.id}.`;
	const troubles = problems.flatMap(({ cell, code, seen, expected }) => {
		if (!cell.startsWith(own)) return [];
		const path = cell.slice(own.length).replace(/^as\./, '');
		const key = path.replace(/^(lot|bag)\./, '').split('.')[0] ?? '';
		const field = fields.some((one) => one.key === key) ? key : (typedIn[key] ?? '');
		const fault = code === 'out-of-range' ? 'does not fit' : 'was not understood';
		// fish that leave are typed as a plain number, and written as a negative one
		const wanted =
			kind === 'leaves' && key === 'count' && !expected.startsWith('at most') ? wholeFish : expected;
		const sentence = seen ? `“${seen}” ${fault}: expected ${wanted}.` : `Needed here: ${wanted}.`;
		return [{ field, sentence }];
	});
	const told = new Set<string>();
	return [...troubles, ...lotTroubles(entry, kind)].filter(
		({ field }) => !told.has(field) && told.add(field)
	);
}

const wholeFish = 'a whole number of fish, such as 1';

/** What a lot needs beside its grammar: without a name and a number nobody knows who joined. */
function lotTroubles({ lot }: RawEntry, kind: FactKind): FieldTrouble[] {
	if (kind !== 'joins') return [];
	const { what, count } = (lot ?? {}) as Record<string, unknown>;
	return [
		...(what ? [] : [{ field: 'what', sentence: 'Needed here: what the fish are, such as yellow wrasse.' }]),
		...(count === undefined
			? [{ field: 'count', sentence: 'Needed here: how many joined, such as 1.' }]
			: []),
		...(count === 0 ? [{ field: 'count', sentence: `“0” does not fit: expected ${wholeFish}.` }] : [])
	];
}

/** Facts of a run may be of the weeks in which it was prepared, days (judgment, no source). */
const BEFORE_RUN_DAYS = 60;

/** The moment that was typed, on the clock of a run. */
export interface TypedMoment {
	day: string;
	time: string;
	/** the instant it is; asked only of a day and a time that can be read */
	placed: () => { at: string; atMs: number };
}

/** Why a moment cannot be logged; null: it can. The log holds what happened. `begins` is the first day of the run. */
export function momentTrouble(
	{ day, time, placed }: TypedMoment,
	nowMs: number,
	begins: string | null
): string | null {
	if (!isDay(day)) return notUnderstood(day, 'a date that exists, such as 2026-12-03');
	if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(time)) return notUnderstood(time, 'a time of day such as 08:05');
	const { at, atMs } = placed();
	const hour = at.slice(11, 16);
	if (hour !== time)
		return `On ${day} there was no ${time}: the clocks went forward. Take ${hour}, or a time before the gap.`;
	if (atMs > nowMs + 60_000)
		return 'That is still to come: the log holds what happened, the sheet what is planned.';
	return begins !== null && dayNumber(day) < dayNumber(begins) - BEFORE_RUN_DAYS
		? `That is long before this run, which begins on ${begins}: look at the year of ${day}.`
		: null;
}

const notUnderstood = (seen: string, expected: string): string =>
	seen === '' ? `Needed here: ${expected}.` : `“${seen}” was not understood: expected ${expected}.`;

/** The fields of an entry that is to be corrected, as they were typed. */
export function typedOf(entry: RawEntry): { kind: FactKind; typed: Typed } | null {
	const { lot, count, litres, fraction } = entry;
	if (entry.kind === 'correct' || entry.kind === 'choice') return null;
	if (entry.kind === 'fish') {
		if (typeof lot === 'string')
			return { kind: 'leaves', typed: { ...textCells(entry), count: String(Math.abs(Number(count))) } };
		return {
			kind: 'joins',
			typed: { ...textCells((lot ?? {}) as Record<string, unknown>), restart: entry.restart !== false }
		};
	}
	const typed = textCells(entry);
	// a bare figure of the file is degrees Celsius, whatever the page is read in
	if (entry.what === 'T' && typeof entry.value === 'number')
		return { kind: 'reading', typed: { ...typed, value: `${entry.value} C` } };
	if (entry.kind === 'change')
		return { kind: 'change', typed: { ...typed, water: shareText(fraction) ?? String(litres ?? '') } };
	return { kind: entry.kind as FactKind, typed };
}

const shareText = (fraction: unknown): string | null =>
	fraction === undefined ? null : typeof fraction === 'number' ? `${fraction * 100} %` : (fraction as string);

const textCells = (cells: Record<string, unknown>): Record<string, string | boolean | readonly string[]> =>
	Object.fromEntries(
		Object.entries(cells).flatMap(([key, value]): [string, string | boolean | readonly string[]][] => {
			if (typeof value === 'boolean' || typeof value === 'string') return [[key, value]];
			if (typeof value === 'number') return [[key, String(value)]];
			return Array.isArray(value) ? [[key, value as string[]]] : [];
		})
	);

/** The measure of a reading's fields. */
export const measureTyped = (run: Run, typed: Typed, system: UnitSystem): Measure | null =>
	typeof typed.what === 'string' && typed.what !== '' ? measureOf(run, typed.what, system) : null;
