import type { SheetDocument } from './rows.ts';
import { freeId } from './rows.ts';

/** What the sheet knows of every active ingredient: how it is called, and its short sign. */
export interface ShelfEntry {
	active: string;
	name: string;
	short: string;
}

const plain = (text: string) => text.trim().toLowerCase();

/** How a medicine of this run is written in a cell: its name, with the id where two share one. */
export function medicineText(id: string, document: SheetDocument, shelf: readonly ShelfEntry[]): string {
	const mine = document.medicines?.find((medicine) => medicine.id === id);
	if (!mine) return id;
	const name = shelf.find((entry) => entry.active === mine.active)?.name ?? mine.active;
	const twin = document.medicines?.some((other) => other.id !== id && other.active === mine.active);
	return twin ? `${name} (${id})` : name;
}

/** The medicine a text means: one of this run, or an active ingredient still to be put on its shelf. */
export function findMedicine(
	text: string,
	document: SheetDocument,
	shelf: readonly ShelfEntry[]
): { id: string } | { active: string; id: string; adds: true } | null {
	const wanted = plain(text);
	const own = document.medicines ?? [];
	const byName = own.find(
		({ id }) => plain(id) === wanted || plain(medicineText(id, document, shelf)) === wanted
	);
	if (byName) return { id: byName.id };
	const named = (entry: ShelfEntry) =>
		[entry.active, entry.name, entry.short].some((name) => plain(name) === wanted);
	const starts = shelf.filter(
		(entry) => plain(entry.name).startsWith(wanted) || entry.active.startsWith(wanted)
	);
	const entry = shelf.find(named) ?? (starts.length === 1 ? starts[0] : undefined);
	if (!entry) return null;
	const held = own.find((medicine) => medicine.active === entry.active);
	if (held) return { id: held.id };
	const id = freeId(
		entry.short,
		own.map((medicine) => medicine.id)
	);
	return { active: entry.active, id, adds: true };
}
