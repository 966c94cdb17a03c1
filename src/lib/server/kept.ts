import type { Edit } from '../run/index.ts';
import type { Document } from './document.ts';
import type { Entry } from './log.ts';

/** A row of the store that nothing of ours wrote: a hand or a failing disk has been at it. */
export class Spoiled extends Error {}

const isObject = (value: unknown): value is Record<string, unknown> =>
	typeof value === 'object' && value !== null && !Array.isArray(value);
const isListOfObjects = (value: unknown) => Array.isArray(value) && value.every(isObject);

function parsed(text: unknown, what: string): unknown {
	try {
		return JSON.parse(String(text)) as unknown;
	} catch {
		throw new Spoiled(`${what} is no JSON`);
	}
}

/** A stored document. Throws {@link Spoiled} when its frame is none. */
export function keptDocument(text: string): Document {
	const value = parsed(text, 'a document');
	const lists = ['phases', 'lots', 'medicines'] as const;
	const sound =
		isObject(value) &&
		value.format === 'lazaret-plan/1' &&
		lists.every((list) => value[list] === undefined || isListOfObjects(value[list]));
	if (!sound) throw new Spoiled('a document is no plan file');
	return value as Document;
}

/** The edits of a stored save. */
export function keptEdits(text: string): Edit[] {
	const value = parsed(text, 'a save');
	const sound = Array.isArray(value) && value.every((edit) => isObject(edit) && Array.isArray(edit.path));
	if (!sound) throw new Spoiled('a save holds no edits');
	return value as Edit[];
}

/** A stored log entry. */
export function keptEntry(text: string): Entry {
	const value = parsed(text, 'a log entry');
	const sound = isObject(value) && [value.id, value.at, value.kind].every((word) => typeof word === 'string');
	if (!sound || Number.isNaN(Date.parse(String(value.at)))) throw new Spoiled('a log entry is none');
	return value as Entry;
}
