import { servicesOf, type Plan, type Sample, type Task } from '../planner/index.ts';
import { dayNumber, dayText, readLog, type Day, type Fact, type Run } from '../run/index.ts';
import type { UnitSystem } from '../units/index.ts';
import { forecastOf, measuresOf, type Measure, type ReadingFact } from './measures.ts';
import { wallClock } from './moment.ts';
import { signsLine } from './signs.ts';
import { factWords, lotName, medicineName, type Names } from './words.ts';

/** Something that was or will be done. */
export interface LedgerJob {
	text: string;
	state: Task['state'];
	planned: boolean;
}

/** One service of a day: what was expected of the water, what was found, what was done and seen. */
export interface LedgerRow {
	/** day and time, of its own in the ledger */
	key: string;
	day: Day;
	time: string;
	atMs: number;
	future: boolean;
	away: boolean;
	/** before the jobs; by what is measured */
	forecast: Record<string, number | null>;
	readings: Record<string, ReadingFact[]>;
	doses: LedgerJob[];
	changes: LedgerJob[];
	signs: string[];
	appetite: string[];
	losses: string[];
}

export interface Ledger {
	columns: Measure[];
	rows: LedgerRow[];
}

const given = new Set(['dose', 'dip', 'feed']);
const moved = new Set(['change', 'washout', 'topoff', 'salinity', 'transfer']);

/** The ledger of a run. `all` shows what was never read as well; `system` is what its columns are read in. */
export function ledgerOf(
	names: Names & { plan: Plan },
	nowMs: number,
	all = false,
	system: UnitSystem = 'metric'
): Ledger {
	const { run, plan } = names;
	const facts = readLog(run.log);
	const rows = emptyRows(run, plan, facts, nowMs);
	const columns = columnsOf(run, plan, facts, all, system);
	fillForecast(rows, run, columns, plan.levels);
	for (const task of plan.tasks) placeTask(rows, run, task);
	for (const fact of facts) {
		const row = rowAt(rows, run, fact.atMs);
		if (row) placeFact(row, fact, names);
	}
	return { columns, rows };
}

function emptyRows(run: Run, plan: Plan, facts: readonly Fact[], nowMs: number): LedgerRow[] {
	const days = [
		...plan.tasks.map(({ date }) => date),
		...facts.map(({ atMs }) => wallClock(run.timeZone, atMs).day),
		...(plan.begins ? [plan.begins] : [])
	].sort();
	const [first, last] = [days[0], days.at(-1)];
	if (!first || !last) return [];
	const rows: LedgerRow[] = [];
	for (let number = dayNumber(first); number <= dayNumber(last); number++)
		for (const { date, time, atMs } of servicesOf(run.timeZone, number, run.services))
			rows.push({
				key: `${date} ${time}`,
				day: date,
				time,
				atMs,
				future: atMs > nowMs,
				away: run.away.includes(dayText(number)),
				forecast: {},
				readings: {},
				doses: [],
				changes: [],
				signs: [],
				appetite: [],
				losses: []
			});
	return rows;
}

/** Medicines, ammonia and nitrate always; of the rest what was read. */
function columnsOf(
	run: Run,
	plan: Plan,
	facts: readonly Fact[],
	all: boolean,
	system: UnitSystem
): Measure[] {
	const read = new Set(facts.flatMap((fact) => (fact.kind === 'reading' ? [fact.what] : [])));
	const asked = new Set(plan.tasks.flatMap(({ what }) => what ?? []));
	const usual = new Set(['Cu', 'NH3', 'NO3', ...run.medicines.map(({ id }) => id)]);
	return measuresOf(run, system).filter(
		({ what }) => all || usual.has(what) || read.has(what) || asked.has(what)
	);
}

function fillForecast(
	rows: LedgerRow[],
	run: Run,
	columns: readonly Measure[],
	levels: readonly Sample[]
): void {
	const before = new Map(
		levels.flatMap((sample) => (sample.when === 'before' ? [[Date.parse(sample.at), sample]] : []))
	);
	for (const row of rows)
		for (const { what } of columns) row.forecast[what] = forecastOf(run, what, before.get(row.atMs));
}

/** The service a moment belongs to: the last of its day that had begun, or the day's first. */
export function rowAt(rows: readonly LedgerRow[], run: Run, atMs: number): LedgerRow | undefined {
	const { day } = wallClock(run.timeZone, atMs);
	const ofDay = rows.filter((row) => row.day === day);
	return ofDay.findLast((row) => row.atMs <= atMs) ?? ofDay[0];
}

/** A job that was put at an hour of its own stands with the service before. */
function placeTask(rows: readonly LedgerRow[], run: Run, task: Task): void {
	const row = rowAt(rows, run, Date.parse(task.at));
	const job = { text: task.text, state: task.state, planned: true };
	if (given.has(task.kind)) row?.doses.push(job);
	else if (moved.has(task.kind)) row?.changes.push(job);
}

function placeFact(row: LedgerRow, fact: Fact, names: Names): void {
	const unplanned = (text: string): LedgerJob => ({ text, state: 'done', planned: false });
	switch (fact.kind) {
		case 'reading':
			(row.readings[fact.what] ??= []).push(fact);
			return;
		case 'dose':
			row.doses.push(
				unplanned(`${medicineName(names, fact.medicine)} ${fact.amount.value} ${fact.amount.unit}`)
			);
			return;
		case 'change':
		case 'topoff':
			row.changes.push(unplanned(factWords(fact, names)));
			return;
		case 'loss':
		case 'fish':
			row.losses.push(factWords(fact, names));
			return;
		case 'observation': {
			const signs = fact.signs.filter((sign) => sign !== 'none');
			const of = fact.lot ? `${lotName(names, fact.lot)}: ` : '';
			if (signs.length > 0) row.signs.push(`${of}${signsLine(signs)}`);
			else if (fact.signs.length > 0) row.signs.push(`${of}no signs`);
			if (fact.breathsPerMinute !== undefined)
				row.signs.push(`${of}${fact.breathsPerMinute} breaths a minute`);
			if (fact.appetite) row.appetite.push(`${of}${fact.appetite}`);
		}
	}
}
