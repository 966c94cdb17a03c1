import type { Counted } from '../../units/index.ts';
import type { Day } from '../run.ts';
import type { PhaseKind } from '../vocabulary.ts';

/** What a cell needs to know of the sheet around it. */
export interface CellContext {
	/** phase ids in the order of the rows; a row number stands for the id in its place */
	rows: readonly string[];
	/** ids of the run's medicines */
	medicines: readonly string[];
	/** how the row's medicine is counted: mg/L, or uL/L of the whole liquid */
	counted: Counted;
	kind: PhaseKind | null;
	/** a missing year is the one nearest to it; null: a plan file, where dates have years and rows are named by id */
	today: Day | null;
}

/** How to write a cell: as the sheet shows it (row numbers, `27 Nov 2026`), or as a plan file keeps it (ids, ISO dates). */
export interface PrintContext {
	form: 'sheet' | 'file';
	rows: readonly string[];
	counted: Counted;
	kind: PhaseKind | null;
}

const lookAlikes = /[\u00a0\u2007\u2009\u202f\t\r\n]/g;
const dashes = /[\u2010-\u2015\u2212]/g;

/** Spaces made single and plain, dashes made hyphens, ends trimmed. */
export const tidy = (text: string): string =>
	text.replace(lookAlikes, ' ').replace(dashes, '-').replace(/ {2,}/g, ' ').trim();
