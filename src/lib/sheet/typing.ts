import { applyAll, phaseKinds, type Edit } from '../run/index.ts';
import type { Block } from './clipboard.ts';
import { typedAt, type TypedKey } from './columns.ts';
import { filed } from './filing.ts';
import { freeId, type PhaseRow, type SheetDocument } from './rows.ts';
import type { Box } from './selection.ts';
import { findMedicine } from './shelf.ts';
import { cellText, type Desk } from './table.ts';

/** A kind by its name or by a beginning that only one kind has; else the text as typed. */
function kindOf(typed: string): string {
	const wanted = typed.toLowerCase().replace(/\s+/g, '-');
	const starts = phaseKinds.filter((kind) => kind.startsWith(wanted));
	return phaseKinds.find((kind) => kind === wanted) ?? (starts.length === 1 ? (starts[0] ?? typed) : typed);
}

const setting = (index: number, key: string, was: unknown, to: unknown): Edit[] =>
	was === to ? [] : [{ path: ['phases', index, key], was, to }];

/** What one typed text makes of a row: new values by key, and a medicine that joins the run's shelf. */
function meaning(
	desk: Desk,
	row: number,
	key: TypedKey,
	typed: string
): { values: Record<string, unknown>; joins?: Edit } {
	const trimmed = typed.replace(/\s+/g, ' ').trim();
	if (trimmed === '') {
		return {
			values:
				key === 'change' ? { change: undefined, carbon: undefined, resin: undefined } : { [key]: undefined }
		};
	}
	if (key === 'kind') return { values: { kind: kindOf(trimmed) } };
	if (key === 'medicine') {
		const found = findMedicine(trimmed, desk.document, desk.shelf);
		if (!found) return { values: { medicine: trimmed } };
		if (!('adds' in found)) return { values: { medicine: found.id } };
		const shelf = desk.document.medicines;
		const entry = { id: found.id, active: found.active };
		const joins: Edit = shelf
			? { path: ['medicines', shelf.length], to: entry }
			: { path: ['medicines'], to: [entry] };
		return { values: { medicine: found.id }, joins };
	}
	if (key === 'change') {
		const parts = trimmed.split(/\s*\+\s*/);
		const isAid = (part: string) => /^(carbon|resin)$/i.test(part);
		const has = (aid: string) => parts.some((part) => part.toLowerCase() === aid) || undefined;
		const change = parts.some(isAid) ? parts.filter((part) => !isAid(part)).join(' + ') : trimmed;
		const kept = change === '' ? undefined : filed(desk, row, key, change);
		return { values: { change: kept, carbon: has('carbon'), resin: has('resin') } };
	}
	return { values: { [key]: filed(desk, row, key, trimmed) } };
}

/** The edits that type `typed` into a cell; none where nothing changes. In the row behind the last it begins a new phase. */
export function typeCell(desk: Desk, row: number, column: number, typed: string): Edit[] {
	const key = typedAt(column)?.key;
	if (!key || typed.replace(/\s+/g, ' ').trim() === cellText(desk, row, key)) return [];
	const { values, joins } = meaning(desk, row, key, typed);
	const before = joins ? [joins] : [];
	const phase: PhaseRow | undefined = desk.document.phases[row];
	if (phase) {
		return [
			...before,
			...Object.entries(values).flatMap(([name, to]) => setting(row, name, phase[name], to))
		];
	}
	const filled = Object.entries(values).filter(([, value]) => value !== undefined);
	if (filled.length === 0) return [];
	const wish = typeof values.kind === 'string' ? values.kind : 'row';
	const id = freeId(wish, idsOf(desk.document));
	return [
		...before,
		{ path: ['phases', desk.document.phases.length], to: { id, ...Object.fromEntries(filled) } }
	];
}

const idsOf = (document: SheetDocument) => document.phases.map(({ id }) => id);

/** The rows a block needs behind the last one, so that its cells may name each other whatever their order. */
function rowsFor(document: SheetDocument, top: number, left: number, block: Block): Edit[] {
	const taken = idsOf(document).slice();
	return block.flatMap((cells, down): Edit[] => {
		const typed = cells.filter((text, across) => typedAt(left + across) && text.trim());
		if (top + down < document.phases.length || typed.length === 0) return [];
		const kind = left === 0 ? kindOf((cells[0] ?? '').trim()) : '';
		const id = freeId(kind || 'row', taken);
		taken.push(id);
		return [{ path: ['phases', taken.length - 1], to: { id } }];
	});
}

/** Types a block with its first cell at `top`, `left`; rows are added when it is longer than the sheet. */
export function typeBlock(desk: Desk, top: number, left: number, block: Block): Edit[] {
	const edits = rowsFor(desk.document, top, left, block);
	let document = applyAll(desk.document, edits);
	let row = top - 1;
	for (const cells of block) {
		// a row with nothing in it, behind the last, is not made
		row = Math.min(row + 1, document.phases.length);
		if (row === document.phases.length) continue;
		cells.forEach((typed, across) => {
			const made = typeCell({ ...desk, document }, row, left + across, typed);
			document = applyAll(document, made);
			edits.push(...made);
		});
	}
	return edits;
}

/** Empties every typed cell of a rectangle. */
export function clearBox(desk: Desk, box: Box): Edit[] {
	const rows = Math.min(box.bottom, desk.document.phases.length - 1) - box.top + 1;
	const blank = Array.from(
		{ length: Math.max(0, rows) },
		() => Array(box.right - box.left + 1).fill('') as string[]
	);
	return typeBlock(desk, box.top, box.left, blank);
}

/** The texts of a rectangle, as copying takes them. */
export const takeBlock = (texts: readonly (readonly string[])[], box: Box): Block =>
	texts.slice(box.top, box.bottom + 1).map((row) => row.slice(box.left, box.right + 1));
