import type { Edit } from '../run/index.ts';
import type { History } from './history.ts';
import { kindText } from './table.ts';
import type { PhaseRow, SheetDocument } from './rows.ts';

const reference = /\b(after|with)\s+([a-z][a-z0-9-]*)/i;

/** A cell names a row that is not there. */
export function dangles({ phases }: SheetDocument): boolean {
	const here = new Set(phases.map(({ id }) => id));
	const named = phases.flatMap(({ starts, lasts }) => [
		...`${String(starts)}, ${String(lasts)}`.matchAll(new RegExp(reference, 'gi'))
	]);
	return named.some(([, , id = '']) => !here.has(id));
}

/** What the rows were that these acts took out and that have not come back, by id: `the deleted row (5 Observe)`. */
export function rowsGone({ done }: Pick<History, 'done'>, document: SheetDocument): Record<string, string> {
	const here = new Set(document.phases.map(({ id }) => id));
	const gone: Record<string, string> = {};
	for (const { path, was, to } of done.flat()) {
		const [list, at] = path;
		if (list !== 'phases' || path.length !== 2 || typeof at !== 'number' || to !== undefined) continue;
		const { id, kind } = was as PhaseRow;
		if (!here.has(id)) gone[id] = `the deleted row (${[at + 1, kindText(kind)].filter(Boolean).join(' ')})`;
	}
	return gone;
}

/** For a cell that names a row which is gone: the edit that lets it name the row above; null for any other cell. */
export function pointAbove(document: SheetDocument, cell: string): { title: string; edits: Edit[] } | null {
	const [list, id, key] = cell.split('.');
	const row = document.phases.findIndex((phase) => phase.id === id);
	const above = document.phases[row - 1];
	const was = document.phases[row]?.starts;
	if (list !== 'phases' || key !== 'starts' || !above || typeof was !== 'string') return null;
	const named = reference.exec(was)?.[2]?.toLowerCase();
	if (named === undefined || document.phases.some((phase) => phase.id === named)) return null;
	const to = was.replace(reference, (_, word: string) => `${word.toLowerCase()} ${above.id}`);
	return {
		title: `Point it to row ${row}${above.kind ? `, ${kindText(above.kind).toLowerCase()}` : ''}`,
		edits: [{ path: ['phases', row, 'starts'], was, to }]
	};
}
