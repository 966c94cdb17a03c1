import type { Edit } from '../run/index.ts';

/** A row of the sheet as the plan file keeps it. */
export type PhaseRow = Record<string, unknown> & { id: string };

/** The part of a plan document the sheet looks at; everything else passes through untouched. */
export interface SheetDocument {
	phases: readonly PhaseRow[];
	medicines?: readonly ({ id: string; active: string } & Record<string, unknown>)[];
	[key: string]: unknown;
}

/** An id that no row has yet: the wish, or the wish with the first free number. */
export function freeId(wish: string, taken: readonly string[]): string {
	const plain =
		wish
			.toLowerCase()
			.replace(/[^a-z0-9]+/g, '-')
			.replace(/^[^a-z]+|-+$/g, '') || 'row';
	if (!taken.includes(plain)) return plain;
	let number = 2;
	while (taken.includes(`${plain}-${number}`)) number++;
	return `${plain}-${number}`;
}

const idsOf = (document: SheetDocument) => document.phases.map((row) => row.id);

const put = (index: number, row: PhaseRow): Edit => ({ path: ['phases', index], to: row });
const take = (index: number, row: PhaseRow): Edit => ({ path: ['phases', index], was: row });

/** A row nobody has written into yet. */
export const isBlank = (row: PhaseRow): boolean =>
	Object.entries(row).every(([key, value]) => key === 'id' || value === undefined);

/** A new empty row before `index`. */
export const insertRow = (document: SheetDocument, index: number): Edit[] => [
	put(index, { id: freeId('row', idsOf(document)) })
];

/** Rows `from` to `to` go. What named them keeps the name and says so as a problem; undo brings them back. */
export function deleteRows(document: SheetDocument, from: number, to: number): Edit[] {
	const edits: Edit[] = [];
	for (let index = Math.min(to, document.phases.length - 1); index >= from; index--) {
		const row = document.phases[index];
		if (row) edits.push(take(index, row));
	}
	return edits;
}

/** Copies of rows `from` to `to` below them, with ids of their own; references among the copies name the copies. */
export function duplicateRows(document: SheetDocument, from: number, to: number): Edit[] {
	const taken = idsOf(document).slice();
	const rows = document.phases.slice(from, to + 1);
	const fresh = new Map(
		rows.map((row) => {
			const id = freeId(row.id.replace(/-\d+$/, ''), taken);
			taken.push(id);
			return [row.id, id];
		})
	);
	const renamed = (text: unknown): unknown =>
		typeof text === 'string'
			? text.replace(/\b(after|with)\s+([a-z][a-z0-9-]*)/g, (_, word, id) => `${word} ${fresh.get(id) ?? id}`)
			: text;
	return rows.map((row, offset) =>
		put(to + 1 + offset, { ...row, id: fresh.get(row.id) ?? row.id, starts: renamed(row.starts) })
	);
}

/** Rows `from` to `to` move by `by` places, as far as there is room. References follow, since they go by id. */
export function moveRows(document: SheetDocument, from: number, to: number, by: number): Edit[] {
	const rows = document.phases.slice(from, to + 1);
	const most = document.phases.length - 1 - to;
	const shift = Math.max(-from, Math.min(most, by));
	if (shift === 0 || rows.length === 0) return [];
	return [...deleteRows(document, from, to), ...rows.map((row, offset) => put(from + shift + offset, row))];
}
