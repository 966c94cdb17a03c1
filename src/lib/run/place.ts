import { isJson } from './reader.ts';

/** Where things stand in one document. */
export interface Places {
	/** the place of a path of keys and row numbers */
	nameOf(path: readonly PropertyKey[]): string;
	/** what stands in a place; undefined where nothing does */
	under(place: string): unknown;
	/** its number in reading order; what is missing stands where its row begins */
	order(place: string): number;
}

/** What rows are called in a file. */
export const rowId = /^[a-z][a-z0-9-]{0,63}$/;
export const expectedId = 'an id of small letters, digits and hyphens, beginning with a letter';

/** A row is named by its id, `phases.copper`, and by its number where it has none. */
export const rowName = (row: unknown, index: number): string =>
	isJson(row) && typeof row.id === 'string' && row.id !== '' ? row.id : String(index);

/** The places of a document, as messages name them: `phases.copper.starts`, `log.3.value`, `tank.net`. */
export function placesOf(document: unknown): Places {
	const found = new Map<string, { ordinal: number; value: unknown }>();
	gather(document, '', found);
	return {
		nameOf: (path) => nameOf(document, path),
		under: (place) => found.get(place)?.value,
		order: (place) => {
			let known = place;
			while (known !== '' && !found.has(known)) known = known.slice(0, Math.max(0, known.lastIndexOf('.')));
			return found.get(known)?.ordinal ?? 0;
		}
	};
}

function nameOf(document: unknown, path: readonly PropertyKey[]): string {
	let node = document;
	return path
		.map((key) => {
			node =
				typeof node === 'object' && node !== null ? (node as Record<PropertyKey, unknown>)[key] : undefined;
			return typeof key === 'number' ? rowName(node, key) : String(key);
		})
		.join('.');
}

function gather(node: unknown, place: string, found: Map<string, { ordinal: number; value: unknown }>): void {
	if (!found.has(place)) found.set(place, { ordinal: found.size, value: node });
	if (typeof node !== 'object' || node === null) return;
	const named: [string, unknown][] = Array.isArray(node)
		? node.map((row: unknown, i) => [rowName(row, i), row])
		: Object.entries(node);
	for (const [name, value] of named) gather(value, place === '' ? name : `${place}.${name}`, found);
}
