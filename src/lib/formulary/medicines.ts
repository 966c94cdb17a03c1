import { antibacterialRows } from './medicines/antibacterials.ts';
import { antiparasiticRows } from './medicines/antiparasitics.ts';
import { copperRows } from './medicines/copper.ts';
import { dyeAndBathRows } from './medicines/dyes-and-baths.ts';
import { formalinRows } from './medicines/formalin.ts';
import { wormRows } from './medicines/worm-medicines.ts';
import type { MedicineRow } from './row.ts';
import type { Active } from './vocabulary.ts';

/** The shelf: one row per active ingredient. Levels in mg/L, or uL/L of whole liquid where the row's unit says so. */
export const medicines: Readonly<Record<Active, MedicineRow>> = {
	...copperRows,
	...antiparasiticRows,
	...wormRows,
	...formalinRows,
	...antibacterialRows,
	...dyeAndBathRows
};

/**
 * Level at or under which a medicine counts as gone, in its row's unit: the row's own, else a tenth of the
 * lowest useful level (of the file, else of the row). Null when neither is known.
 */
export function clearAt(active: Active, lowestUseful: number | null = null): number | null {
	const row = medicines[active];
	if (row.clear !== null) return row.clear.value;
	const lowest = lowestUseful ?? row.window?.value.low ?? null;
	return lowest === null ? null : lowest / 10;
}
