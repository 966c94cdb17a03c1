import { apply, carryWithout, same, type Edit } from '../run/index.ts';
import { freeId } from './rows.ts';

type Row = Record<string, unknown> & { id: string };
type Lists = Record<string, unknown>;

const rowsIn = (document: Lists, list: string): Row[] =>
	Array.isArray(document[list]) ? (document[list] as Row[]) : [];

/**
 * Acts that still fit a document in which others put rows meanwhile: a row of theirs may have taken the id of one of
 * ours, and a bottle of theirs may be the one that ours was about to add. `since` is what that did to the document.
 */
export function fitted(acts: readonly Edit[][], ground: unknown): { acts: Edit[][]; since: Edit[] } {
	let document = ground as Lists;
	const since: Edit[] = [];
	const left = acts.map((act) => act.slice());
	const done: Edit[][] = [];
	while (left.length > 0) {
		const act: Edit[] = [];
		for (let edit = left[0]?.shift(); edit; edit = left[0]?.shift()) {
			const twin = twinOf(edit, document);
			if (twin && same(twin, edit.to) && edit.path[0] === 'medicines') {
				const without = carryWithout(left, [edit]);
				left.splice(0, left.length, ...without.acts);
				since.push(...without.since);
				continue;
			}
			if (twin) edit = rename(edit, twin.id, document, left);
			document = apply(document, edit);
			act.push(edit);
		}
		done.push(act);
		left.shift();
	}
	return { acts: done, since };
}

/** The row already there with the id of the one that an edit puts in. */
function twinOf({ path, to, was }: Edit, document: Lists): Row | undefined {
	const [list, at] = path;
	if (path.length !== 2 || typeof list !== 'string' || typeof at !== 'number') return undefined;
	if (was !== undefined || to === undefined) return undefined;
	return rowsIn(document, list).find(({ id }) => id !== undefined && id === (to as Row).id);
}

/** The edit with another id for its row; what follows in `left` names the row by that id. */
function rename(edit: Edit, id: string, document: Lists, left: Edit[][]): Edit {
	const list = String(edit.path[0]);
	const taken = rowsIn(document, list).map((row) => row.id);
	const fresh = freeId(id.replace(/-\d+$/, ''), taken);
	for (const act of left)
		for (const [at, one] of act.entries()) act[at] = { ...one, to: named(one.to, list, id, fresh, one.path) };
	return { ...edit, to: { ...(edit.to as Row), id: fresh } };
}

/** A value with every name of a row changed: `after row` in a phase, the bottle of a phase. */
function named(value: unknown, list: string, id: string, fresh: string, path: Edit['path']): unknown {
	const key = path.at(-1);
	if (typeof value === 'string') {
		if (list === 'medicines') return key === 'medicine' && value === id ? fresh : value;
		return key === 'starts'
			? value.replace(/\b(after|with) (\S+)/g, (all, word: string, name: string) =>
					name === id ? `${word} ${fresh}` : all
				)
			: value;
	}
	if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
	return Object.fromEntries(
		Object.entries(value).map(([inner, one]) => [inner, named(one, list, id, fresh, [inner])])
	);
}
