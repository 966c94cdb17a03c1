import { isJson } from './reader.ts';

/** Where things stand in one document. */
export interface Places {
	/** each place and its number in reading order */
	order: ReadonlyMap<string, number>;
	/** the place of a path of keys and row numbers */
	nameOf(path: readonly PropertyKey[]): string;
	valueAt(path: readonly PropertyKey[]): unknown;
}

/** What rows are called in a file. */
export const rowId = /^[a-z][a-z0-9-]{0,63}$/;
export const expectedId = 'an id of small letters, digits and hyphens, beginning with a letter';

/** A row is named by its id, `phases.copper`, and by its number where it has none. */
export const rowName = (row: unknown, index: number): string =>
	isJson(row) && typeof row.id === 'string' && row.id !== '' ? row.id : String(index);

/** The places of a document, as messages name them: `phases.copper.starts`, `log.3.value`, `tank.net`. */
export function placesOf(document: unknown): Places {
	const valueAt = (path: readonly PropertyKey[]) => path.reduce(step, document);
	return {
		get order() {
			const order = new Map<string, number>();
			number(document, '', order);
			return order;
		},
		nameOf: (path) =>
			path
				.map((key, i) =>
					typeof key === 'number' ? rowName(valueAt(path.slice(0, i + 1)), key) : String(key)
				)
				.join('.'),
		valueAt
	};
}

const step = (node: unknown, key: PropertyKey): unknown =>
	typeof node === 'object' && node !== null && Object.hasOwn(node, key)
		? (node as Record<PropertyKey, unknown>)[key]
		: undefined;

function number(node: unknown, place: string, order: Map<string, number>): void {
	if (!order.has(place)) order.set(place, order.size);
	if (typeof node !== 'object' || node === null) return;
	const named: [string, unknown][] = Array.isArray(node)
		? node.map((row: unknown, i) => [rowName(row, i), row])
		: Object.entries(node);
	for (const [name, value] of named) number(value, place === '' ? name : `${place}.${name}`, order);
}
