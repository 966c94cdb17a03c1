import { actives } from '../formulary/index.ts';
import {
	canonicalCell,
	cellColumns,
	countedOf,
	phaseKinds,
	type CellColumn,
	type CellContext
} from '../run/index.ts';
import { rowsToIds } from './reference.ts';
import type { Desk } from './table.ts';

const isCell = (key: string): key is CellColumn => (cellColumns as readonly string[]).includes(key);

/** What the grammar has to know of the row a cell stands in. */
function contextOf(desk: Desk, row: number): CellContext {
	const { phases, medicines = [] } = desk.document;
	const phase = phases[row];
	const medicine = medicines.find(({ id }) => id === phase?.medicine);
	const active = actives.find((one) => one === medicine?.active);
	return {
		rows: phases.map(({ id }) => id),
		medicines: medicines.map(({ id }) => id),
		counted: active ? countedOf(active) : 'mass',
		kind: phaseKinds.find((kind) => kind === phase?.kind) ?? null,
		today: desk.today
	};
}

/**
 * A typed text as the plan file keeps it: canonical, ids for row numbers, days with their year. One that cannot be
 * read stays as it was typed, so that nothing is lost and the row it names is still followed.
 */
export function filed(desk: Desk, row: number, key: string, typed: string): string {
	if (!isCell(key)) return typed;
	const read = canonicalCell(key, typed, contextOf(desk, row), 'file');
	return read.ok ? read.value : rowsToIds(typed, contextOf(desk, row).rows);
}
