import type { Edit } from '../../run/index.ts';

type Node = Record<string, unknown>;

const isNode = (value: unknown): value is Node =>
	typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * The edit that writes a value into the cell at a place such as `phases.copper.change`, `tank.carbon` or
 * `moves|copper/dose/2`; null clears it. Null when the document has no such row, or the cell says so already.
 */
export function cellEdit(document: unknown, place: string, value: unknown): Edit | null {
	const [list, rest] = place.split('|');
	const keys = rest === undefined ? place.split('.') : [list ?? '', rest];
	const path: Edit['path'] = [];
	let node: unknown = document;
	for (const [depth, key] of keys.entries()) {
		const last = depth === keys.length - 1;
		if (Array.isArray(node)) {
			const index = node.findIndex((row) => isNode(row) && row.id === key);
			if (index < 0) return null;
			path.push(index);
			node = node[index];
			continue;
		}
		if (!isNode(node)) return null;
		path.push(key);
		const was = node[key];
		if (last) return change(path, was, value === null ? undefined : value);
		if (was === undefined) return value === null ? null : { path, to: nested(keys.slice(depth + 1), value) };
		node = was;
	}
	return null;
}

function change(path: Edit['path'], was: unknown, to: unknown): Edit | null {
	if (JSON.stringify(was) === JSON.stringify(to)) return null;
	return { path, ...(to === undefined ? {} : { to }), ...(was === undefined ? {} : { was }) };
}

const nested = (keys: readonly string[], value: unknown): unknown =>
	keys.reduceRight<unknown>((inner, key) => ({ [key]: inner }), value);

/** The edit that puts a row behind another of the sheet; null when the document has no such row. */
export function rowEdit(document: unknown, after: string, row: Record<string, unknown>): Edit | null {
	const phases = isNode(document) ? document.phases : null;
	if (!Array.isArray(phases)) return null;
	const index = phases.findIndex((one) => isNode(one) && one.id === after);
	return index < 0 ? null : { path: ['phases', index + 1], to: row };
}
