import { exchange, invert, type Edit } from '../run/index.ts';

/** Everything done and undone, without limit; one step is the edits of one act. */
export interface History {
	done: readonly (readonly Edit[])[];
	undone: readonly (readonly Edit[])[];
}

export const emptyHistory: History = { done: [], undone: [] };

/** Puts one act on the pile; what had been undone is gone, as everywhere. */
export const record = (history: History, edits: readonly Edit[]): History =>
	edits.length ? { done: [...history.done, edits], undone: [] } : history;

/** The edits that take several back: each inverted, last first. */
export const inverted = (edits: readonly Edit[]): Edit[] => edits.map(invert).reverse();

/** One act back: the history after it, and the edits to apply. */
export function undo(history: History): { history: History; edits: Edit[] } | null {
	const last = history.done.at(-1);
	if (!last) return null;
	return {
		history: { done: history.done.slice(0, -1), undone: [...history.undone, last] },
		edits: inverted(last)
	};
}

/** One act forward again. */
export function redo(history: History): { history: History; edits: Edit[] } | null {
	const last = history.undone.at(-1);
	if (!last) return null;
	return {
		history: { done: [...history.done, last], undone: history.undone.slice(0, -1) },
		edits: last.slice()
	};
}

/**
 * The pile after others changed the document: each step back is carried past what they did. Where one of them no
 * longer fits, it and all before it are forgotten, and what had been undone is forgotten always: no undo may undo
 * somebody else's work.
 */
export function carriedOver(history: History, since: readonly Edit[]): History {
	const done: Edit[][] = [];
	let others = since;
	for (const edits of history.done.toReversed()) {
		const both = exchange(inverted(edits), others);
		if (!both) break;
		if (both.edits.length) done.unshift(inverted(both.edits));
		others = both.since;
	}
	return { done, undone: [] };
}
