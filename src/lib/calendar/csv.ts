import type { Plan, Task } from '../planner/index.ts';
import { clean } from './content-line.ts';

type Cell = string | number | null | undefined;

/** Columns in order; `value` and `unit` are the amount, `from` and `to` the level before and after. */
const columns: Record<string, (task: Task) => Cell> = {
	id: (task) => task.id,
	date: (task) => task.date,
	time: (task) => task.time,
	at: (task) => task.at,
	phase: (task) => task.phase,
	kind: (task) => task.kind,
	text: (task) => task.text,
	value: (task) => task.amount?.value,
	unit: (task) => task.amount?.unit,
	fraction: (task) => task.fraction,
	medicine: (task) => task.medicine,
	from: (task) => task.raises?.from,
	to: (task) => task.raises?.to,
	because: (task) => task.because
};

/** One row per task under a header row, as RFC 4180 has it (CRLF, quotes doubled), UTF-8 without a mark. */
export function planToCsv(plan: Plan): string {
	const rows = [
		Object.keys(columns),
		...plan.tasks.map((task) => Object.values(columns).map((cell) => cell(task)))
	];
	return rows.map((row) => `${row.map(written).join(',')}\r\n`).join('');
}

function written(cell: Cell): string {
	if (cell === null || cell === undefined) return '';
	if (typeof cell === 'number') return String(cell);
	const text = unarmed(clean(cell));
	return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A spreadsheet takes these first characters for a formula and runs it; an apostrophe makes the cell text. */
const unarmed = (text: string): string => (/^[=+\-@\t＝＋－＠]/.test(text) ? `'${text}` : text);
