import { applyAll, rebase, type Edit } from '../run/index.ts';
import { deleteRows, moveRows } from './rows.ts';
import type { Save } from './working-copy.ts';

/*
 * Notation: a document is a list of rows, `a:1 b:2`, and a name. An act is `b=5` (types 5 into row b), `+r` (a row of
 * that id at the end), `-b` (takes b out), `b^` (moves b up) or `name=x`.
 */
export type Row = { id: string; lasts?: string } & Record<string, unknown>;
export interface Document {
	name: string;
	phases: Row[];
}
/** Three rows of one day each. */
export const start: Document = {
	name: 'n',
	phases: ['a', 'b', 'c'].map((id) => ({ id, lasts: '1' }))
};

/** The edits of an act, in the document as it stands; none if the row is gone. */
export function edits(line: string, { name, phases }: Document): Edit[] {
	const [, id = '', verb = '', value = ''] = /^(\w*)([=^+-])(\w*)$/.exec(line) ?? [];
	if (id === 'name') return [{ path: ['name'], was: name, to: value }];
	if (verb === '+') return [{ path: ['phases', phases.length], to: { id: value } }];
	const at = phases.findIndex((row) => row.id === (verb === '-' ? value : id));
	const row = phases[at];
	if (!row) return [];
	if (verb === '-') return deleteRows({ phases }, at, at);
	if (verb === '^') return moveRows({ phases }, at, at, -1);
	return [
		{ path: ['phases', at, 'lasts'], to: value, ...(row.lasts === undefined ? {} : { was: row.lasts }) }
	];
}

/** The store: takes a save as the server does, and tells what it has. */
export class Shelf {
	document = start;
	saves: Save[] = [];
	get version() {
		return this.saves.length + 1;
	}
	since = (version: number) => this.saves.filter((save) => save.version > version);

	take(base: number, id: string, made: readonly Edit[], who = 'someone'): 'saved' | 'clash' | 'refused' {
		if (this.saves.some((save) => save.id === id)) return 'saved';
		const since = this.since(base).flatMap((save) => save.edits);
		const moved = rebase(made, since);
		const document = moved.ok ? applyAll(this.document, moved.edits) : null;
		const ids = document?.phases.map((row) => row.id) ?? [];
		if (!moved.ok || !document || new Set(ids).size < ids.length) return since.length ? 'clash' : 'refused';
		this.document = document;
		this.saves.push({ version: this.version + 1, id, who, at: '', edits: moved.edits });
		return 'saved';
	}
}
