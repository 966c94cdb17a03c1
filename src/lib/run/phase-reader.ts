import { targets } from '../formulary/index.ts';
import { unreadable, type Read } from '../units/index.ts';
import { readCell, type CellColumn, type CellValues } from './cells/cell.ts';
import type { CellContext } from './cells/context.ts';
import { countedOf } from './medicine-reader.ts';
import type { Json, Reader } from './reader.ts';
import type { Medicine, Phase } from './run.ts';
import { phaseKinds } from './vocabulary.ts';

/** One row of the sheet. */
export function readPhase(
	reader: Reader,
	place: string,
	row: Json,
	id: string,
	rows: readonly string[],
	medicines: readonly Medicine[]
): Phase {
	const at = (key: string) => `${place}.${key}`;
	const kind = reader.word(at('kind'), row.kind, phaseKinds);
	const medicine = reader.cell(at('medicine'), row.medicine, (text) => bottleOf(text, medicines));
	const context: CellContext = {
		rows,
		medicines: medicines.map((one) => one.id),
		counted: medicine ? countedOf(medicine.active) : 'mass',
		kind,
		today: reader.today
	};
	const cell = <C extends CellColumn>(column: C): CellValues[C] | null =>
		reader.cell(at(column), row[column], (text) => readCell(column, text, context));
	const repeats = cell('repeat');
	return {
		id,
		kind: kind ?? 'observe',
		medicine: medicine?.id ?? null,
		starts: cell('starts'),
		lasts: cell('lasts'),
		level: cell('level'),
		aim: cell('aim'),
		repeat: repeats?.repeat ?? null,
		rampDays: repeats?.rampDays ?? null,
		change: cell('change'),
		test: cell('test') ?? [],
		carbon: reader.flag(at('carbon'), row.carbon),
		resin: reader.flag(at('resin'), row.resin),
		target: reader.word(at('target'), row.target, targets),
		bathL: cell('bath'),
		risePptPerDay: cell('rise')
	};
}

function bottleOf(text: string, medicines: readonly Medicine[]): Read<Medicine> {
	const found = medicines.find(({ id }) => id === text.trim());
	if (found) return { ok: true, value: found };
	const ids = medicines.map(({ id }) => id).join(', ');
	return unreadable('no-such-medicine', text, `the id of a medicine of this run (${ids || 'it has none'})`);
}
