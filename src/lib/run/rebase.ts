import { apply, invert, type Edit } from './edit.ts';
import { cross, kindOf, same, startsWith, type Crossed } from './cross.ts';

/** Two people gave the same cell different values, or one took away what the other changed. */
export interface Clash {
	/** where, in the document that holds theirs */
	path: Edit['path'];
	theirs: unknown;
	yours: unknown;
}

export type Rebased = { ok: true; edits: Edit[] } | { ok: false; clashes: Clash[] };

/** An edit that met another's in the same cell and was taken out of its act. */
export interface Pulled {
	/** as it was made, with everything that was written into it later */
	edit: Edit;
	/** how many edits of all acts were made before it */
	after: number;
	/** what it met */
	met: Edit;
}

export interface Carried {
	/** one for each act given, without what was pulled */
	acts: Edit[][];
	/** what leads from the document with the acts as given to the one with theirs and the acts as returned */
	since: Edit[];
	pulled: Pulled[];
}

/**
 * The edits as they have to read after `since`, which others made to the same document meanwhile. Places follow
 * the rows they name when rows come, go or move; an edit that others made too is dropped. Rows that both put in the
 * same place stand theirs first.
 */
export function rebase(edits: readonly Edit[], since: readonly Edit[]): Rebased {
	const { acts, pulled } = carry([edits], since);
	const clashes = pulled.map(({ edit, met }): Clash => ({ path: met.path, theirs: met.to, yours: edit.to }));
	return clashes.length > 0 ? { ok: false, clashes } : { ok: true, edits: acts.flat() };
}

/** Both sides as they read once the other's edits are made, or null where they clash. */
export function exchange(
	edits: readonly Edit[],
	since: readonly Edit[]
): { edits: Edit[]; since: Edit[] } | null {
	const carried = carry([edits], since);
	return carried.pulled.length > 0 ? null : { edits: carried.acts.flat(), since: carried.since };
}

/** What an edit has to get past: another's, or the taking back of one of its own that was pulled. */
interface Foreign {
	edit: Edit;
	own: Own | null;
}
interface Own {
	pulled: Pulled;
	/** something made later stands in its place */
	gone: boolean;
}

/**
 * Acts, made one after the other, carried past what others did meanwhile. What clashes is pulled out and the rest
 * goes on without it: later edits are also carried past its taking back, and what was written into a pulled row stays
 * with that row.
 */
export function carry(acts: readonly (readonly Edit[])[], since: readonly Edit[]): Carried {
	return carryPast(
		acts,
		since.map((edit) => ({ edit, own: null }))
	);
}

/** Acts carried past the taking back of what was made before them and will not be. */
export function carryWithout(acts: readonly (readonly Edit[])[], dropped: readonly Edit[]): Carried {
	const foreign = dropped.toReversed().map((edit) => ({
		edit: invert(edit),
		own: { pulled: { edit, after: 0, met: edit }, gone: true }
	}));
	return carryPast(acts, foreign);
}

/** An edit still to be carried; `owed` is what they wrote into the row it puts in again, relative to that row. */
interface Coming {
	edit: Edit;
	owed: Foreign[];
}

function carryPast(acts: readonly (readonly Edit[])[], others: Foreign[]): Carried {
	let foreign = others;
	let after = 0;
	const owned: Own[] = [];
	const carried = acts.map((act) => {
		const moved: Edit[] = [];
		let rest: Coming[] = act.map((edit) => ({ edit, owed: [] }));
		for (let next = rest.shift(); next; next = rest.shift()) {
			const { edit, owed } = next;
			const step = past(edit, foreign, rest);
			if ('met' in step) {
				const own = { pulled: { edit, after, met: step.met }, gone: false };
				owned.push(own);
				foreign = [{ edit: invert(edit), own }, ...foreign];
			} else {
				const paid = owed.map((one) => ({
					...one,
					edit: { ...one.edit, path: [...edit.path, ...one.edit.path] }
				}));
				foreign = [...paid, ...step.foreign];
				rest = step.rest;
				if (step.edit) moved.push(step.edit);
			}
			after++;
		}
		return moved;
	});
	const pulled = owned.filter(({ gone, pulled: one }) => !gone && !isBack(one)).map((own) => own.pulled);
	return { acts: carried, since: foreign.map(({ edit }) => edit), pulled };
}

/** True when it only brings back what stood there before anybody typed. */
const isBack = ({ edit, met }: Pulled) =>
	edit.path.length === met.path.length && kindOf(edit) === 'set' && same(edit.to, met.was);

type Step = { edit: Edit | null; foreign: Foreign[]; rest: Coming[] } | { met: Edit };

/** One edit carried past all of theirs, theirs as they read once it is made, and what follows in its act. */
function past(edit: Edit, foreign: readonly Foreign[], following: readonly Coming[]): Step {
	let mine: Edit | null = edit;
	let rest = following.slice();
	const theirs: Foreign[] = [];
	const left = foreign.slice();
	for (let other = left.shift(); other; other = left.shift()) {
		if (mine === null) {
			theirs.push(other);
			continue;
		}
		const across: Crossed = cross(mine, other.edit, false);
		const taken = across === 'clash' ? moveAnyway(mine, other, rest) : null;
		if (typeof across !== 'string') {
			const back = cross(other.edit, mine, true);
			if (typeof back !== 'string') theirs.push({ ...other, edit: back });
			mine = across;
		} else if (taken) rest = taken;
		else if (other.own) {
			const { stays, consumed } = besideOwn(mine, other.edit, other.own, across);
			if (!stays) mine = null;
			if (!consumed) theirs.push(other);
		} else if ((across === 'clash' || moves(mine, rest)) && twinOf(mine, other.edit, left) >= 0)
			mine = follow(mine, other, left, theirs);
		else if (across === 'agreed') mine = null;
		else return { met: other.edit };
	}
	return { edit: mine, foreign: theirs, rest };
}

/** Beside the taking back of an own edit: what covers it stands in its place, what was written into it stays in it. */
function besideOwn(
	mine: Edit,
	back: Edit,
	own: Own,
	across: 'agreed' | 'clash'
): { stays: boolean; consumed: boolean } {
	const wasPutIn = kindOf(back) === 'remove';
	if (wasPutIn && across === 'agreed') {
		own.gone = true;
		return { stays: false, consumed: true };
	}
	if (!wasPutIn && mine.path.length <= back.path.length) {
		own.gone = true;
		return { stays: true, consumed: true };
	}
	own.pulled = { ...own.pulled, edit: within(own.pulled.edit, mine, back.path.length) };
	return { stays: false, consumed: false };
}

/** `edit` with `inner`, made at a place inside it, already in its value. */
function within(edit: Edit, inner: Edit, depth: number): Edit {
	const rest = inner.path.slice(depth);
	return { ...edit, to: rest.length === 0 ? inner.to : apply(edit.to, { ...inner, path: rest }) };
}

const idOf = (row: unknown) =>
	typeof row === 'object' && row !== null && 'id' in row && typeof row.id === 'string' ? row.id : null;

const isTwin = (taken: Edit, put: Edit) =>
	kindOf(taken) === 'remove' &&
	kindOf(put) === 'insert' &&
	idOf(taken.was) !== null &&
	idOf(taken.was) === idOf(put.to) &&
	put.path.length === taken.path.length &&
	startsWith(put.path, taken.path.slice(0, -1));

const moves = (mine: Edit, rest: readonly Coming[]) => rest.some(({ edit }) => isTwin(mine, edit));

/** Where, among what follows, the row that `mine` is about and that is taken out is put in again: it was moved. -1 when nowhere. */
const twinOf = (mine: Edit, taken: Edit, following: readonly Foreign[]) =>
	mine.path.length < taken.path.length
		? -1
		: following.findIndex(({ edit, own }) => own === null && isTwin(taken, edit));

/** They moved the row that `mine` is about: it follows. Takes what it has passed from `left` to `theirs`. */
function follow(mine: Edit, taken: Foreign, left: Foreign[], theirs: Foreign[]): Edit {
	const passed = left.splice(0, twinOf(mine, taken.edit, left));
	const put = left.shift() as Foreign;
	const depth = put.edit.path.length;
	if (kindOf(mine) !== 'remove' || mine.path.length > depth) {
		theirs.push(taken, ...passed, { ...put, edit: within(put.edit, mine, depth) });
		return { ...mine, path: [...put.edit.path, ...mine.path.slice(depth)] };
	}
	// with the row gone already, they take nothing out and have nothing to put in
	theirs.push(...passed);
	return { ...mine, path: put.edit.path, was: put.edit.to };
}

/** `mine` takes a row out only to put it in elsewhere: what changed in it goes along. Null when it does not. */
function moveAnyway(mine: Edit, { edit: inner, own }: Foreign, rest: readonly Coming[]): Coming[] | null {
	const depth = mine.path.length;
	if (inner.path.length <= depth) return null;
	const at = rest.findIndex(({ edit }) => isTwin(mine, edit));
	const owing = (one: Coming): Coming => ({
		edit: within(one.edit, inner, depth),
		owed: [...one.owed, { edit: { ...inner, path: inner.path.slice(depth) }, own }]
	});
	return at < 0 ? null : rest.map((one, i) => (i === at ? owing(one) : one));
}
