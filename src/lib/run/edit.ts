/**
 * An edit of a plan document is a value: where, what it becomes, what it was. `path` is a list of keys;
 * a number is an array index. `undefined` on either side means the key is absent there; in an array it
 * inserts or removes the element.
 */
export interface Edit {
	path: (string | number)[];
	to?: unknown;
	was?: unknown;
}

type Node = Record<string, unknown> | unknown[];

const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null;

/** A new document with the edit made; everything off its path is shared with the old one. Throws if the path leads nowhere. */
export function apply<T>(document: T, edit: Edit): T {
	return put(document, edit.path, edit, 0) as T;
}

function put(node: unknown, path: Edit['path'], edit: Edit, depth: number): unknown {
	const key = path[depth];
	if (key === undefined) return edit.to;
	if (!isNode(node)) throw new Error(`no ${path.slice(0, depth).join('.')} to edit`);
	const last = depth === path.length - 1;
	if (Array.isArray(node)) {
		const at = Number(key);
		const copy = node.slice();
		if (!last) copy[at] = put(node[at], path, edit, depth + 1);
		else if (edit.to === undefined) copy.splice(at, 1);
		else if (edit.was === undefined) copy.splice(at, 0, edit.to);
		else copy[at] = edit.to;
		return copy;
	}
	if (last && edit.to === undefined) {
		const { [key]: _gone, ...rest } = node;
		return rest;
	}
	return { ...node, [key]: last ? edit.to : put(node[key], path, edit, depth + 1) };
}

/** The edit that undoes this one. */
export const invert = (edit: Edit): Edit => ({ path: edit.path, to: edit.was, was: edit.to });

/** Every edit in turn. */
export const applyAll = <T>(document: T, edits: readonly Edit[]): T => edits.reduce(apply<T>, document);
