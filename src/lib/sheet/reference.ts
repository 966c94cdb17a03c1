/** A reference as a cell writes it: `after 2`, `with copper + 2 d`. */
const reference = /\b(after|with)\s+([A-Za-z0-9][\w-]*)/gi;

/** Ids in a cell's text become row numbers, as a keeper reads them. An id that is no row stays as it is. */
export const idsToRows = (text: string, ids: readonly string[]): string =>
	text.replace(reference, (whole, word: string, id: string) => {
		const row = ids.indexOf(id);
		return row < 0 ? whole : `${word} ${row + 1}`;
	});

/** Names of rows that are gone, in their words: `after the deleted row (5 Observe)`. */
export const goneInWords = (text: string, gone: Readonly<Record<string, string>>): string =>
	text.replace(reference, (whole, word: string, id: string) => (gone[id] ? `${word} ${gone[id]}` : whole));

/** Row numbers in a cell's text become ids, as the plan file keeps them, so that a moved row takes its references along. */
export const rowsToIds = (text: string, ids: readonly string[]): string =>
	text.replace(reference, (whole, word: string, name: string) => {
		const id = /^\d+$/.test(name) ? ids[Number(name) - 1] : ids.find((one) => one === name.toLowerCase());
		return id === undefined ? whole : `${word.toLowerCase()} ${id}`;
	});

/** The same text with every row number `by` further on: what filling down does. */
export const shiftRows = (text: string, by: number): string =>
	text.replace(reference, (whole, word: string, name: string) =>
		/^\d+$/.test(name) ? `${word} ${Math.max(1, Number(name) + by)}` : whole
	);
