import type { Edit } from './edit.ts';

/** What one edit comes to beside another: itself, moved; nothing, since both want the same; or a clash. */
export type Crossed = Edit | 'agreed' | 'clash';

/** `edit`, written for the document before `other`, for the one after it. `first`: it wins a shared place. */
export function cross(edit: Edit, other: Edit, first: boolean): Crossed {
	const depth = other.path.length - 1;
	const kind = kindOf(other);
	const key = edit.path[depth];
	const sameList =
		kind !== 'set' && typeof key === 'number' && startsWith(edit.path, other.path.slice(0, -1));
	if (!sameList) return meet(edit, other);
	const at = Number(other.path[depth]);
	const inserts = edit.path.length === depth + 1 && kindOf(edit) === 'insert';
	if (kind === 'insert') {
		const after = inserts && key === at ? !first : key >= at;
		return after ? shifted(edit, depth, 1) : edit;
	}
	if (key > at) return shifted(edit, depth, -1);
	if (key < at || inserts) return edit;
	const bothRemove = edit.path.length === depth + 1 && kindOf(edit) === 'remove';
	return bothRemove ? 'agreed' : 'clash';
}

/** Neither moves the other: they are apart, agree, or clash. */
function meet(edit: Edit, other: Edit): Crossed {
	const inserts = kindOf(edit) === 'insert';
	if (edit.path.length === other.path.length) {
		if (inserts || !startsWith(edit.path, other.path)) return edit;
		return kindOf(edit) === 'set' && same(edit.to, other.to) ? 'agreed' : 'clash';
	}
	if (edit.path.length > other.path.length) return startsWith(edit.path, other.path) ? 'clash' : edit;
	return !inserts && startsWith(other.path, edit.path) ? 'clash' : edit;
}

/** A row that comes or goes shifts its neighbours; anything else is a value that is set. */
export function kindOf(edit: Edit): 'insert' | 'remove' | 'set' {
	if (typeof edit.path.at(-1) !== 'number') return 'set';
	if (edit.to === undefined) return 'remove';
	return edit.was === undefined ? 'insert' : 'set';
}

export const startsWith = (path: Edit['path'], start: Edit['path']) =>
	path.length >= start.length && start.every((key, i) => path[i] === key);

function shifted(edit: Edit, depth: number, by: number): Edit {
	return { ...edit, path: edit.path.map((key, i) => (i === depth ? Number(key) + by : key)) };
}

/** Equal as JSON values, whatever the order of their keys. */
export function same(a: unknown, b: unknown): boolean {
	if (a === b) return true;
	if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
	if (Array.isArray(a) || Array.isArray(b)) {
		return (
			Array.isArray(a) && Array.isArray(b) && a.length === b.length && a.every((item, i) => same(item, b[i]))
		);
	}
	const keys = Object.keys(a);
	const get = (object: object, key: string) => (object as Record<string, unknown>)[key];
	return (
		keys.length === Object.keys(b).length &&
		keys.every((key) => Object.hasOwn(b, key) && same(get(a, key), get(b, key)))
	);
}
