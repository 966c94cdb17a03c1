import { amountText, type Amount } from '../planner/index.ts';
import type { Ask, Verdict } from './ask.ts';
import { isAnswered, type JobRow } from './job-row.ts';
import { chosen, seen, spaced, type LoggedLine } from './logged.ts';
import type { TankToday } from './today.ts';
import type { Typed } from './held.ts';

/** An entry of the log as it is sent: `id`, `at`, `kind`, and what that kind says. */
export type SentEntry = { id: string; at: string; kind: string } & Record<string, unknown>;

/** How readings are judged; it comes from outside so that a page may fetch it after it stands. */
export interface Judging {
	judge: (ask: Ask, typed: Typed) => Verdict;
	/** when a second reading is due, in words */
	again?: string;
}

/** A line of the day with what this device knows beyond the plan. */
export interface ShownRow extends JobRow {
	/** what was read last says this about it; only for readings the plan has not heard of */
	verdict: Verdict | null;
	/** the reading of this day that forbids the dose, or sets another amount */
	amended: string;
}

export interface ShownTank extends Omit<TankToday, 'rows'> {
	rows: ShownRow[];
	/** entries the plan has not heard of, and the medicines that were given in them */
	unheard: string[];
	dosed: string[];
}

/**
 * The tank's day with entries the plan has not heard of yet: logged offline, or on their way. Jobs they answer are
 * answered, what they take back is open again, and a reading, once it can be judged, sets the dose of its medicine.
 */
export function withEntries(
	tank: TankToday,
	entries: readonly SentEntry[],
	judging: Judging | null
): ShownTank {
	const known = new Set([...tank.rows.flatMap(({ logged }) => logged), ...tank.logged].map(({ id }) => id));
	const gone = new Set(
		entries.flatMap(({ kind, entry, void: is }) => (kind === 'correct' && is ? [String(entry)] : []))
	);
	const fresh = entries.filter(({ id, kind }) => kind !== 'correct' && !known.has(id) && !gone.has(id));
	const left = (lines: readonly LoggedLine[]) => lines.filter(({ id }) => !gone.has(id));
	const withOwn = (row: JobRow): JobRow => ({
		...row,
		logged: [...left(row.logged), ...fresh.filter((entry) => answers(row, entry)).map(lineOfSent)]
	});
	const done = new Set(fresh.flatMap(({ task }) => (typeof task === 'string' ? [task] : [])));
	const judged = tank.rows
		.map(withOwn)
		.map((row) => (isOvertaken(tank, row, fresh) ? { ...row, owed: null } : row))
		.map((row) => ({ ...row, ...verdictOf(row, { tank, fresh, done }, judging) }))
		.map((row) => (row.verdict ? { ...row, again: asksAgain(row.verdict) } : row));
	return {
		...tank,
		unheard: fresh.map(({ id }) => id),
		dosed: dosedIn(tank, fresh),
		...standingAfter(tank, fresh),
		missed: tank.missed
			.map((one) => ({
				...one,
				rows: one.rows.map(withOwn),
				others: one.others.filter((id) => !done.has(id))
			}))
			.filter(({ rows, others }) => others.length > 0 || rows.some((row) => !isAnswered(row))),
		rows: judged.map((row) => amendedBy(row, judged)),
		logged: [
			...left(tank.logged),
			...fresh
				.filter(({ task, kind }) => task === undefined || kind === 'choice')
				.map((entry) => ofJob(tank, entry))
		]
	};
}

/**
 * Signs and losses the plan has not heard of: until it has, the tank counts at least as suspected. It keeps its place in
 * the round, which is walked by now.
 */
function standingAfter(
	tank: TankToday,
	fresh: readonly SentEntry[]
): Pick<TankToday, 'standing' | 'why' | 'signs'> | null {
	const seenNow = fresh
		.flatMap(({ kind, signs }) => (kind === 'observation' && Array.isArray(signs) ? signs.map(String) : []))
		.filter((sign) => sign !== 'none' && !tank.signs.includes(sign));
	const lost = fresh.reduce((sum, { kind, count }) => sum + (kind === 'loss' ? Number(count) : 0), 0);
	if (seenNow.length === 0 && lost === 0) return null;
	const signs = [...tank.signs, ...new Set(seenNow)];
	const named = signs.map((sign) => sign.replaceAll('-', ' ')).join(', ');
	return {
		standing: lost > 0 || tank.standing === 'sick' ? 'sick' : 'suspected',
		why: [named && `${named} logged`, lost > 0 && `${lost} lost just now`].filter(Boolean).join(', '),
		signs
	};
}

/** One entry answers a whole test, a reading only the line of what it measured. */
const answers = (row: JobRow, { task, kind, what }: SentEntry): boolean =>
	task === row.task && (kind !== 'reading' || row.ask === undefined || row.ask.what === what);

/** A way that was chosen names the job it is for. */
function ofJob(tank: TankToday, entry: SentEntry): LoggedLine {
	const line = lineOfSent(entry);
	if (entry.kind !== 'choice') return line;
	const missed = tank.missed.find(({ rows }) => rows.some(({ task }) => task === entry.task));
	const job = missed?.rows.find(({ task }) => task === entry.task);
	const taken = String(entry.taken);
	const says = chosen((missed?.titles as Record<string, string> | undefined)?.[taken] ?? spaced(taken));
	return { ...line, says: job ? `${job.text}, ${says}` : says };
}

/** What may have moved days along is taken back where that can be seen. */
const staying = (taken: string): Pick<LoggedLine, 'stays'> =>
	taken === 'now' || taken === 'skip' ? {} : { stays: true };

function lineOfSent(entry: SentEntry): LoggedLine {
	const { id, at, kind } = entry;
	const text = (key: string) => (typeof entry[key] === 'string' ? entry[key] : '');
	const line = { id, at, kind };
	switch (kind) {
		case 'reading':
			return { ...line, what: text('what'), value: parseFloat(text('value')), says: text('value') };
		case 'missed':
			return { ...line, says: text('reason') ? `skipped: ${text('reason')}` : 'skipped' };
		case 'choice':
			return { ...line, says: chosen(spaced(text('taken'))), ...staying(text('taken')) };
		case 'observation': {
			const signs = Array.isArray(entry.signs) ? entry.signs.map(String) : [];
			const breaths = typeof entry.breathsPerMinute === 'number' ? entry.breathsPerMinute : undefined;
			return {
				...line,
				says: seen(signs, text('appetite') || undefined, breaths, text('note') || undefined)
			};
		}
		default:
			return { ...line, says: text('amount') || text('litres') || kind };
	}
}

/** What a low level asks for is given since, or read anew. */
const isOvertaken = (tank: TankToday, row: JobRow, fresh: readonly SentEntry[]): boolean =>
	fresh.some((entry) => entry.kind === 'reading' && answers(row, entry)) ||
	dosedIn(tank, fresh).includes(row.ask?.dose?.medicine ?? '');

/** The medicines that entries have put into the water. */
const dosedIn = ({ rows }: TankToday, entries: readonly SentEntry[]): string[] =>
	entries.flatMap((entry) => {
		if (entry.kind === 'dose') return [String(entry.medicine)];
		const row = rows.find(({ task, kind }) => kind === 'dose' && task === entry.task);
		return entry.kind === 'done' && row?.medicine !== undefined ? [row.medicine] : [];
	});

interface Unheard {
	tank: TankToday;
	fresh: readonly SentEntry[];
	/** tasks they answer */
	done: ReadonlySet<string>;
}

/** What the latest reading of a line says, where the plan has not heard it. */
function verdictOf(
	row: JobRow,
	{ tank, fresh, done }: Unheard,
	judging: Judging | null
): Pick<ShownRow, 'verdict' | 'amended'> {
	const readings = row.ask ? fresh.filter((entry) => entry.kind === 'reading' && answers(row, entry)) : [];
	const last = readings.at(-1);
	if (!row.ask || !last || !judging) return { verdict: null, amended: '' };
	const value = parseFloat(String(last.value));
	const as = typeof last.as === 'string' ? last.as : undefined;
	const { ask } = row;
	const floor = ask.keep?.floor ?? -Infinity;
	const firsts = readings.slice(0, -1).map((entry) => parseFloat(String(entry.value)));
	const earlier = firsts.some((one) => one < floor);
	const over = firsts.some((one) => one > (ask.keep?.ceiling ?? ask.ceiling ?? Infinity));
	const before = fresh.filter(({ at }) => at < last.at);
	const typed = {
		value,
		atMs: Date.parse(last.at),
		earlier,
		over,
		dosed: dosedIn(tank, before).includes(ask.dose?.medicine ?? ''),
		done: doneBefore(row.ask, done),
		...(as ? { as } : {}),
		...(judging.again ? { again: judging.again } : {})
	};
	return { verdict: judging.judge(row.ask, typed), amended: '' };
}

const doneBefore = ({ topoff, thins }: Ask, done: ReadonlySet<string>): string[] =>
	[topoff, thins?.task]
		.filter((task) => task !== null && task !== undefined)
		.filter((task) => done.has(task));

/** Half an answer, or none: a second reading decides. */
const asksAgain = ({ dose }: Verdict): boolean =>
	dose !== undefined && (dose.now === null || dose.rest !== null);

/** A dose that is still to come takes the amount its reading leaves. */
function amendedBy(row: ShownRow, rows: readonly ShownRow[]): ShownRow {
	if (isAnswered(row)) return row;
	if (row.kind === 'change' || row.kind === 'washout') return { ...row, amended: moreWater(row, rows) };
	if (row.kind !== 'dose') return row;
	const dose = rows.find(({ verdict }) => verdict?.dose && verdict.dose.medicine === row.medicine)?.verdict
		?.dose;
	if (!dose) return row;
	if (dose.now === null)
		return { ...row, ...withAmount(row, null), amended: 'No dose until a second reading.' };
	if (row.amount && Math.abs(dose.now.value - row.amount.value) < 1e-9) return row;
	return { ...row, ...withAmount(row, dose.now), amended: 'By the reading just taken.' };
}

/** A planned change of less than ammonia that was just read asks for: the plan has not heard it. */
function moreWater(row: ShownRow, rows: readonly ShownRow[]): string {
	const away = rows.find(({ verdict }) => verdict?.away)?.verdict?.away;
	if (!away || (row.amount && row.amount.value >= away.value - 0.05)) return '';
	return `The ammonia just read asks for more, ${amountText(away)}: change that much, and log it with its amount.`;
}

/** The rise in the line belongs to the amount that was planned, and goes with it. */
function withAmount(
	row: JobRow,
	amount: Amount | null
): Pick<JobRow, 'amount' | 'amountText' | 'text' | 'line'> {
	const shown = amount ? amountText(amount) : '';
	const bare = row.amountText ? row.text.replace(row.amountText, '').replace(/\s+/g, ' ').trim() : row.text;
	const line = row.line
		.split(' · ')
		.filter((part) => !/^[\d.]+ to [\d.]+ /.test(part))
		.join(' · ');
	return { amount, amountText: shown, text: shown ? `${bare} ${shown}` : bare, line };
}
