import { apply, applyAll, same, type Edit, type Pulled } from '../run/index.ts';

/** A step of a place that stays right while rows come and go: a key, a number, or the row of that id. */
type Step = string | number | { id: string };

/** Somebody else changed the cell that was typed into here; theirs stands until the keeper answers. */
export interface Question {
	/** one for each place: what is typed there later takes its turn */
	key: string;
	place: readonly Step[];
	/** absent: it was taken out here */
	yours?: unknown;
	/** what they did there */
	theirs: Edit;
	who: string;
	/** instant they saved it */
	at: string;
	/** the row as it was here, for the case that it is gone there */
	row: { list: readonly string[]; index: number; value: unknown } | null;
}

type Holder = Record<string | number, unknown>;
const isHolder = (value: unknown): value is Holder => typeof value === 'object' && value !== null;
const idOf = (row: unknown) => (isHolder(row) && typeof row.id === 'string' ? row.id : null);

/**
 * The question about an edit that was pulled out. `ground` is the document that all acts were made on, `edits` those
 * acts in one row.
 */
export function questionOf(
	{ edit, after, met }: Pulled,
	ground: unknown,
	edits: readonly Edit[],
	{ who, at }: { who: string; at: string }
): Question {
	const before = applyAll(ground, edits.slice(0, after));
	const then = apply(before, edit);
	let [was, is]: unknown[] = [before, then];
	let row: Question['row'] = null;
	const place = edit.path.map((key, depth): Step => {
		[was, is] = [was, is].map((holder) => (isHolder(holder) ? holder[key] : undefined));
		const isPutIn = typeof key === 'number' && edit.was === undefined && depth === edit.path.length - 1;
		const id = typeof key === 'number' ? idOf(isPutIn ? edit.to : was) : null;
		if (id === null) return key;
		row ??= { list: edit.path.slice(0, depth).map(String), index: Number(key), value: is };
		return { id };
	});
	if (edit.to === undefined && typeof edit.path.at(-1) === 'number') row = null;
	return {
		key: JSON.stringify(place),
		place,
		...(edit.to === undefined ? {} : { yours: edit.to }),
		theirs: met,
		who,
		at,
		row
	};
}

/** Where the place is in a document, and what stands there; null when the way to it is gone. */
function placed(place: readonly Step[], document: unknown): { path: Edit['path']; value: unknown } | null {
	let value = document;
	const path: Edit['path'] = [];
	for (const step of place) {
		if (!isHolder(value)) return null;
		const rows: unknown[] = Array.isArray(value) ? value : [];
		const key = typeof step === 'object' ? rows.findIndex((row) => idOf(row) === step.id) : step;
		if (typeof key === 'number' && !(key in rows)) return null;
		path.push(key);
		value = value[key];
	}
	return { path, value };
}

/** What stands in the place now; `gone` when the row is not there. */
export function theirsIn(question: Question, document: unknown): { gone: boolean; value?: unknown } {
	const found = placed(question.place, document);
	return found ? { gone: false, value: found.value } : { gone: true };
}

/** The edits that bring yours back; none when it is there already, or nothing is left to bring it to. */
export function yoursAgain(question: Question, document: unknown): Edit[] {
	const { place, yours, row } = question;
	const found = placed(place, document);
	if (found) {
		if (same(found.value, yours)) return [];
		const { path, value: was } = found;
		return [{ path, ...(was === undefined ? {} : { was }), ...(yours === undefined ? {} : { to: yours }) }];
	}
	if (row === null || yours === undefined) return [];
	const list = placed(row.list, document);
	if (!Array.isArray(list?.value)) return [];
	return [{ path: [...list.path, Math.min(row.index, list.value.length)], to: row.value }];
}
