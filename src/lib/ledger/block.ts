import { readDay, readLog, readRun, type Day, type Fact, type Run } from '../run/index.ts';
import type { Plan } from '../planner/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { readDelimited, type Rows } from './csv.ts';
import { withUnit, type RawEntry } from './fact-entry.ts';
import type { LedgerRow } from './grid.ts';
import { headingOf, headingsFrom, measureNamed, timeOf, type Heading } from './headings.ts';
import { measureIn, type Measure } from './measures.ts';
import { instantIn, wallClock } from './moment.ts';

/** One reading of a pasted block before anything is written. */
export interface BlockLine {
	/** the line of the text it stands on, 1 first */
	line: number;
	/** what was pasted */
	seen: string;
	state: 'new' | 'known' | 'refused';
	/** why it is refused; empty otherwise */
	sentence: string;
	entry: RawEntry | null;
}

export interface BlockPlace {
	document: object;
	/** raw entries the run has */
	log: readonly RawEntry[];
	run: Run;
	plan: Pick<Plan, 'tasks'>;
	today: Day;
	nowMs: number;
	/** what a figure without a unit counts in */
	system: UnitSystem;
}

/** What one cell says, with what its row and column say of it. */
interface Found {
	line: number;
	seen: string;
	day: string;
	/** empty: the time of the day's first service */
	time: string;
	measure: Measure | null;
	what: string;
	value: string;
	unit: string;
	form: string;
	note: string;
	id: string;
}

/**
 * Readings out of a block from a spreadsheet: one to a line with date, what and value in any order, or a column for
 * each measure. Every line becomes a reading that is new, one the log has already, or a refusal that says why.
 */
export function readBlock(text: string, place: BlockPlace): BlockLine[] {
	const rows = readDelimited(text);
	const [first] = rows;
	if (!first) return [];
	const named = first.map((cell) => headingOf(cell, place.run));
	const headed = named.some(({ is }) => is === 'date');
	const headings = headed ? named : headingsFrom(first, place.run, place.today);
	if (!headings.some(({ is }) => is === 'date'))
		return [
			refused(
				{ line: 1, seen: first.join(' ') },
				'No column holds a date: expected a heading such as “date”.'
			)
		];
	return judged(foundIn(rows, headings, headed ? 1 : 0, place.run), place);
}

/** Readings pasted onto a column of the ledger: one to a row, from the row that was chosen downwards. */
export function readColumn(
	text: string,
	measure: Measure,
	rows: readonly LedgerRow[],
	place: BlockPlace
): BlockLine[] {
	const found = readDelimited(text).flatMap((cells, i): Found[] => {
		const [value = ''] = cells;
		const row = rows[i];
		const bare = { measure, what: measure.what, unit: '', form: '', note: '', id: '', value };
		return [{ ...bare, line: i + 1, seen: value, day: row?.day ?? '', time: row?.time ?? '' }];
	});
	return judged(found, place);
}

function foundIn(rows: Rows, headings: readonly Heading[], from: number, run: Run): Found[] {
	return rows.slice(from).flatMap((row, i) => {
		const cell = (is: Heading['is']) => row[headings.findIndex((heading) => heading.is === is)] ?? '';
		const [day = '', clock = ''] = cell('date').split(/[T ](?=\d{1,2}[:.]\d\d)/);
		const common = {
			line: i + 1 + from,
			day,
			time: cell('time') || clock.replace(/(Z|[+-]\d\d:?\d\d)$/, ''),
			note: cell('note'),
			id: cell('id')
		};
		const wide = headings.flatMap((heading, column) => {
			if (heading.is !== 'measure') return [];
			return (row[column] ?? '').split(';').flatMap((one): Found[] => {
				const [, value = '', form = ''] = /^([^(]*)(?:\(([^)]*)\))?$/.exec(one.trim()) ?? ['', one];
				if (value.trim() === '') return [];
				const { measure, unit } = heading;
				return [
					{
						...common,
						id: '',
						seen: one.trim(),
						measure,
						what: measure.what,
						value: value.trim(),
						unit,
						form: form.trim()
					}
				];
			});
		});
		if (!headings.some(({ is }) => is === 'value')) return wide;
		const measure = measureNamed(cell('what'), run);
		const seen = [cell('what'), cell('value'), cell('unit')].filter(Boolean).join(' ');
		const long = { what: cell('what'), value: cell('value'), unit: cell('unit'), form: cell('form') };
		return [...wide, { ...common, seen, measure, ...long }];
	});
}

const refused = ({ line, seen }: Pick<Found, 'line' | 'seen'>, sentence: string): BlockLine => ({
	line,
	seen,
	state: 'refused',
	sentence,
	entry: null
});

/** Each reading as an entry, read by the log's own reader; what the log has already is known. */
function judged(found: readonly Found[], place: BlockPlace): BlockLine[] {
	const drafts = found.map((one) => ({ one, ...draftOf(one, place) }));
	const entries = drafts.flatMap(({ entry }) => (entry ? [entry] : []));
	const ids = new Set(place.log.map(({ id }) => id));
	const fresh = entries.filter(({ id }) => !ids.has(id));
	const { log, problems } = readRun({ ...place.document, log: [...place.log, ...fresh] }, { today: null });
	const read = new Map(readLog(log).map((fact) => [fact.id, fact]));
	const known = readLog(place.run.log);
	const taken = new Set<string>();
	return drafts.map(({ one, entry, timed, sentence }): BlockLine => {
		if (!entry) return refused(one, sentence);
		const line = { line: one.line, seen: one.seen, sentence: '', entry };
		if (ids.has(entry.id) || taken.has(entry.id)) return { ...line, state: 'known' };
		const problem = problems.find(({ cell }) => cell.startsWith(`log.${entry.id}.`));
		if (problem) return refused(one, `“${problem.seen}” was not understood: expected ${problem.expected}.`);
		taken.add(entry.id);
		const fact = read.get(entry.id);
		const twin = fact && known.some((other) => isTwin(other, fact, timed, place.run.timeZone));
		return { ...line, state: twin ? 'known' : 'new' };
	});
}

/** The same thing read at the same value in the same minute, or on the same day where no time was told. */
function isTwin(other: Fact, fact: Fact, timed: boolean, zone: string): boolean {
	if (other.kind !== 'reading' || fact.kind !== 'reading' || other.what !== fact.what) return false;
	if (Math.abs(other.value - fact.value) > 1e-9 * Math.max(1, Math.abs(fact.value))) return false;
	if (other.as && fact.as && other.as !== fact.as) return false;
	const [a, b] = [wallClock(zone, other.atMs), wallClock(zone, fact.atMs)];
	return a.day === b.day && (!timed || a.time === b.time);
}

interface Drafted {
	entry: RawEntry | null;
	timed: boolean;
	sentence: string;
}

function draftOf(one: Found, { run, plan, today, nowMs, system }: BlockPlace): Drafted {
	const no = (sentence: string): Drafted => ({ entry: null, timed: false, sentence });
	const day = readDay(one.day, today);
	if (!day.ok)
		return no(
			one.day
				? `“${one.day}” was not understood: expected ${day.problem.expected}.`
				: 'This line has no date.'
		);
	const timed = one.time !== '';
	const time = timed ? timeOf(one.time) : (run.services[0] ?? '08:00');
	if (!time) return no(`“${one.time}” was not understood: expected a time of day such as 08:05.`);
	if (!one.measure)
		return no(
			one.what
				? `“${one.what}” is nothing that is read here: expected a name such as Cu, NH3 or pH.`
				: 'This line does not say what was read.'
		);
	if (one.value === '') return no(`No value of ${one.measure.name} stands here.`);
	const { at, atMs } = instantIn(run.timeZone, day.value, time);
	if (atMs > nowMs + 60_000) return no(`${day.value} ${time} is still to come: the log holds what happened.`);
	const value = withUnit(one.value.replace(/^[<>]\s*/, ''), one.unit || measureIn(system, one.measure).unit);
	const fact = { at, kind: 'reading', what: one.measure.what, value, ...(one.form ? { as: one.form } : {}) };
	const task = plan.tasks.find(
		({ kind, state, date, what }) =>
			kind === 'test' &&
			date === day.value &&
			['open', 'planned'].includes(state) &&
			what?.includes(fact.what)
	);
	const id = /^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$/.test(one.id)
		? one.id
		: `read-${digest(JSON.stringify(fact))}`;
	const note = one.note ? { note: one.note } : {};
	return { entry: { id, ...fact, ...(task ? { task: task.id } : {}), ...note }, timed, sentence: '' };
}

/** Two 32-bit FNV-1a sums: the same line gets the same id, so that pasting it again adds nothing. */
function digest(text: string): string {
	let [a, b] = [0x811c9dc5, 0x01000193];
	for (let i = 0; i < text.length; i++) {
		a = Math.imul(a ^ text.charCodeAt(i), 0x01000193);
		b = Math.imul(b ^ text.charCodeAt(text.length - 1 - i), 0x01000193);
	}
	return [a, b].map((sum) => (sum >>> 0).toString(16).padStart(8, '0')).join('');
}
