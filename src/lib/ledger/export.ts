import type { Plan } from '../planner/index.ts';
import { readLog, type Run } from '../run/index.ts';
import { writeCsv } from './csv.ts';
import { differencesOf } from './difference.ts';
import type { Ledger, LedgerJob } from './grid.ts';
import { measureOf, shownValue, type Measure, type ReadingFact } from './measures.ts';
import { wallClock } from './moment.ts';

const unitText = (unit: string) => unit.replace('µ', 'u').replace('°', '');
const number = (value: number | null | undefined) =>
	value === null || value === undefined ? '' : String(value);
/** Twelve figures: there and back between scales leaves no trailing noise. */
const shown = (measure: Measure, value: number) => Number(shownValue(measure, value).toPrecision(12));

/** Every reading on a row of its own, with the forecast it met. What this writes, `readBlock` finds in the log again. */
export function readingsCsv(run: Run, plan: Plan): string {
	const met = new Map(
		differencesOf(run, plan).flatMap(({ points }) => points.map((point) => [point.id, point]))
	);
	const rows = readLog(run.log).flatMap((fact) => {
		if (fact.kind !== 'reading') return [];
		const { day, time } = wallClock(run.timeZone, fact.atMs);
		const point = met.get(fact.id);
		return [
			[
				day,
				time,
				fact.what,
				String(fact.value),
				unitText(measureOf(run, fact.what).unit),
				fact.as ?? '',
				number(point?.forecast),
				number(point?.difference),
				fact.note ?? '',
				fact.id
			]
		];
	});
	return writeCsv([
		['date', 'time', 'what', 'value', 'unit', 'form', 'forecast', 'difference', 'note', 'id'],
		...rows
	]);
}

const readingCell = (measure: Measure, { value, as }: ReadingFact) =>
	`${shown(measure, value)}${as ? ` (${as})` : ''}`;
const forecastIn = (measure: Measure, { forecast }: Ledger['rows'][number]) => {
	const value = forecast[measure.what];
	return value === null || value === undefined ? null : shown(measure, value);
};
const jobCell = (jobs: readonly LedgerJob[]) =>
	jobs
		.map(({ text, state, planned }) => (planned && state !== 'done' ? `${text} (${state})` : text))
		.join('; ');

/** The ledger as it stands: a row for each service, a column for each forecast, reading and kind of fact. */
export function ledgerCsv({ columns, rows }: Ledger): string {
	const levels = columns.flatMap(({ name, unit }) => [
		`${name} forecast, ${unitText(unit)}`,
		`${name} reading, ${unitText(unit)}`
	]);
	return writeCsv([
		['date', 'service', ...levels, 'doses', 'changes', 'signs', 'appetite', 'losses'],
		...rows.map((row) => [
			row.day,
			row.time,
			...columns.flatMap((measure) => [
				number(forecastIn(measure, row)),
				(row.readings[measure.what] ?? []).map((fact) => readingCell(measure, fact)).join('; ')
			]),
			jobCell(row.doses),
			jobCell(row.changes),
			row.signs.join('; '),
			row.appetite.join('; '),
			row.losses.join('; ')
		])
	]);
}
