import type { Finding, Plan } from '../planner/index.ts';
import type { CellProblem, Day } from '../run/index.ts';
import { columns, type ColumnKey } from './columns.ts';
import type { Course } from './courses.ts';
import { isoToShort, shortDate } from './date-text.ts';
import { goneInWords, idsToRows } from './reference.ts';
import type { PhaseRow, SheetDocument } from './rows.ts';
import { medicineText, type ShelfEntry } from './shelf.ts';

/** What turns a plan document into the texts of the grid. */
export interface Desk {
	document: SheetDocument;
	plan: Plan;
	/** dates near this day are written without a year */
	today: Day;
	/** what rows that are gone were, by id, for cells that still name them */
	gone?: Readonly<Record<string, string>>;
	shelf: readonly ShelfEntry[];
	/** what can be put in as several phases at once */
	courses: readonly Course[];
}

const text = (value: unknown): string =>
	typeof value === 'string' || typeof value === 'number' ? String(value) : '';

/** `low-salinity` as a keeper reads it: `Low salinity`. */
export function kindText(kind: unknown): string {
	const words = text(kind).replaceAll('-', ' ');
	return words.charAt(0).toUpperCase() + words.slice(1);
}

/** What stands in the tank during the phase, written behind its changes: `50% daily + carbon`. */
export function changeText(row: PhaseRow): string {
	const parts = [text(row.change)].filter(Boolean);
	if (row.carbon === true) parts.push('carbon');
	if (row.resin === true) parts.push('resin');
	return parts.join(' + ');
}

/** A cell with row numbers for ids and its days in full, which filling can step. */
function sourceText(desk: Desk, row: number, key: ColumnKey): string {
	const phase = desk.document.phases[row];
	if (!phase || (key !== 'starts' && key !== 'lasts')) return cellText(desk, row, key);
	return idsToRows(
		text(phase[key]),
		desk.document.phases.map(({ id }) => id)
	);
}

/** The grid as filling takes it. */
export const sourceTexts = (desk: Desk): string[][] =>
	desk.document.phases.map((_, row) => columns.map(({ key }) => sourceText(desk, row, key)));

/** One cell as it is shown and as it is copied. Rows beyond the last are empty. */
export function cellText(desk: Desk, row: number, key: ColumnKey): string {
	const phase = desk.document.phases[row];
	if (!phase) return '';
	const span = desk.plan.phases.find(({ id }) => id === phase.id);
	switch (key) {
		case 'kind':
			return kindText(phase.kind);
		case 'medicine':
			return phase.medicine === undefined
				? ''
				: medicineText(text(phase.medicine), desk.document, desk.shelf);
		case 'starts':
		case 'lasts':
			return isoToShort(goneInWords(sourceText(desk, row, key), desk.gone ?? {}), desk.today);
		case 'change':
			return changeText(phase);
		case 'from':
		case 'to':
			return span?.[key] ? shortDate(span[key], desk.today) : '';
		case 'tasks':
			return span ? String(span.tasks) : '';
		case 'mark':
			return markOf(desk.plan, phase.id)?.severity ?? '';
		default:
			return text(phase[key]);
	}
}

/** What could not be read in the sheet, by row and column. */
export function problemsByCell(plan: Plan): Map<string, Record<string, CellProblem>> {
	const rows = new Map<string, Record<string, CellProblem>>();
	for (const problem of plan.problems) {
		const [list, id = '', key = ''] = problem.cell.split('.');
		if (list !== 'phases') continue;
		const row = rows.get(id) ?? {};
		row[key] ??= problem;
		rows.set(id, row);
	}
	return rows;
}

const gravity = { stop: 0, caution: 1, note: 2 } as const;

/** The gravest finding that names a cell, by row and column. */
export function findingsByCell(plan: Plan): Map<string, Record<string, Finding>> {
	const rows = new Map<string, Record<string, Finding>>();
	for (const finding of plan.findings) {
		const [list, id = '', key = ''] = finding.cell?.split('.') ?? [];
		if (list !== 'phases') continue;
		const row = rows.get(id) ?? {};
		const other = row[key];
		if (!other || gravity[finding.severity] < gravity[other.severity]) row[key] = finding;
		rows.set(id, row);
	}
	return rows;
}

/** The gravest finding on a row; problems in its cells count as the gravest. */
export function markOf(
	plan: Plan,
	phase: string
): { severity: 'stop' | 'caution' | 'note'; count: number } | null {
	const own = plan.findings.filter((finding) => finding.phase === phase);
	const broken = plan.problems.filter((problem) => problem.cell.startsWith(`phases.${phase}.`)).length;
	const count = own.length + broken;
	if (count === 0) return null;
	if (broken || own.some(({ severity }) => severity === 'stop')) return { severity: 'stop', count };
	return { severity: own.some(({ severity }) => severity === 'caution') ? 'caution' : 'note', count };
}

/** The whole grid as texts, one empty row behind the last for typing a new phase. */
export const gridTexts = (desk: Desk): string[][] =>
	Array.from({ length: desk.document.phases.length + 1 }, (_, row) =>
		columns.map(({ key }) => cellText(desk, row, key))
	);

/** The grid anew, with every row that reads as before being the very same array: what did not change is not drawn again. */
export const unchanged = (before: string[][], now: string[][]): string[][] =>
	now.map((row, at) => {
		const old = before[at];
		return old?.every((text, column) => text === row[column]) ? old : row;
	});
