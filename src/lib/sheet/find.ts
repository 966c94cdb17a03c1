import { at, type Selection, type Spot } from './selection.ts';

/** The next cell after `from` whose text holds what is wanted, row by row and round the end; null when none does. */
export function findNext(
	texts: readonly (readonly string[])[],
	from: Spot,
	wanted: string
): Selection | null {
	const needle = wanted.trim().toLowerCase();
	const width = texts[0]?.length ?? 0;
	const count = texts.length * width;
	if (!needle) return null;
	for (let ahead = 1; ahead <= count; ahead++) {
		const place = (from.row * width + from.column + ahead) % count;
		const spot = { row: Math.floor(place / width), column: place % width };
		if (texts[spot.row]?.[spot.column]?.toLowerCase().includes(needle)) return at(spot.row, spot.column);
	}
	return null;
}
