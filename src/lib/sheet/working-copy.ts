import { applyAll, carry, carryWithout, same, type Carried, type Edit } from '../run/index.ts';
import { fitted } from './fitting.ts';
import { carriedOver, emptyHistory, inverted, record, type History } from './history.ts';
import { questionOf, yoursAgain, type Question } from './question.ts';

/** What was done at one stroke, saved as one; the id makes sending it again harmless. */
export interface Act {
	id: string;
	edits: readonly Edit[];
}

/** A save as the store tells it, whoever made it. */
export interface Save {
	version: number;
	id: string;
	who: string;
	/** instant */
	at: string;
	edits: readonly Edit[];
}

/**
 * A document open here while others change it too: what the store has, what was done here since and is not known to
 * be there, and what came of both. At most the first act is on its way; the others wait behind it.
 */
export interface WorkingCopy<D = unknown> {
	/** of the store's document that `ground` is */
	version: number;
	ground: D;
	waiting: readonly Act[];
	/** `ground` with what waits: what the keeper sees */
	document: D;
	/** what can be taken back */
	history: History;
	/** what clashed, until it is answered */
	questions: readonly Question[];
}

export const opened = <D>(version: number, ground: D): WorkingCopy<D> => ({
	version,
	ground,
	waiting: [],
	document: ground,
	history: emptyHistory,
	questions: []
});

/** One more act here. What undo and redo do to the history is theirs to say. */
export function acted<D>(
	copy: WorkingCopy<D>,
	act: Act,
	history = record(copy.history, act.edits)
): WorkingCopy<D> {
	const document = applyAll(copy.document, act.edits);
	return settled({ ...copy, history, document, waiting: [...copy.waiting, act] });
}

/** A question is answered once what it asks about stands there. */
const settled = <D>(copy: WorkingCopy<D>): WorkingCopy<D> =>
	copy.questions.every((one) => yoursAgain(one, copy.document).length > 0)
		? copy
		: { ...copy, questions: copy.questions.filter((one) => yoursAgain(one, copy.document).length > 0) };

/**
 * What the store saved after `copy.version`, in its order. Own acts among it are no longer waited for, those of others
 * go beneath what waits; where they meet in one cell theirs stands and a question arises. Saves already known are
 * passed over, so the same news may come twice and late.
 */
export const heard = <D>(copy: WorkingCopy<D>, saves: readonly Save[]): WorkingCopy<D> =>
	saves.reduce((now, save) => (save.version === now.version + 1 ? taken(now, save) : now), copy);

function taken<D>(copy: WorkingCopy<D>, save: Save): WorkingCopy<D> {
	const { version } = save;
	const at = copy.waiting.findIndex(({ id }) => id === save.id);
	const own = copy.waiting[at];
	const ground = applyAll(copy.ground, save.edits);
	if (own && at === 0 && alike(own.edits, save.edits))
		return { ...copy, version, ground, waiting: copy.waiting.slice(1) };
	const rest = own ? without(copy, at) : copy;
	const edits = rest.waiting.map((act) => act.edits);
	const carried = carry(edits, save.edits);
	const asked = carried.pulled.map((one) => questionOf(one, rest.ground, edits.flat(), save));
	return put({ ...rest, version, ground, questions: merged(rest.questions, asked) }, carried);
}

/** The same edits, whatever was believed to stand there before. */
const alike = (mine: readonly Edit[], theirs: readonly Edit[]) =>
	mine.length === theirs.length &&
	mine.every(({ path, to }, i) => same(path, theirs[i]?.path) && same(to, theirs[i]?.to));

const merged = (old: readonly Question[], fresh: readonly Question[]) => [
	...old.filter(({ key }) => !fresh.some((one) => one.key === key)),
	...fresh
];

/** The copy once what waits was carried. */
function put<D>(copy: WorkingCopy<D>, { acts, since }: Carried): WorkingCopy<D> {
	const fit = fitted(acts, copy.ground);
	const waiting = copy.waiting
		.map(({ id }, i): Act => ({ id, edits: fit.acts[i] ?? [] }))
		.filter(({ edits }) => edits.length > 0);
	const document = applyAll(
		copy.ground,
		waiting.flatMap(({ edits }) => edits)
	);
	const history = carriedOver(carriedOver(copy.history, since), fit.since);
	return settled({ ...copy, waiting, document, history });
}

/** The copy as if one of the waiting acts had not been made. */
function without<D>(copy: WorkingCopy<D>, at: number): WorkingCopy<D> {
	const [before, [gone], after] = [
		copy.waiting.slice(0, at),
		copy.waiting.slice(at, at + 1),
		copy.waiting.slice(at + 1)
	];
	if (!gone) return copy;
	const { acts, since } = carryWithout(
		after.map(({ edits }) => edits),
		gone.edits
	);
	return put(
		{ ...copy, waiting: [...before, ...after] },
		{ acts: [...before.map(({ edits }) => edits.slice()), ...acts], since, pulled: [] }
	);
}

/** The store would not have the first act: it is taken back. */
export const refused = <D>(copy: WorkingCopy<D>): WorkingCopy<D> => without(copy, 0);

/** Acts that another opening of this document left behind, on a copy that has since heard everything it had. */
export function adopted<D>(copy: WorkingCopy<D>, left: WorkingCopy<D>): WorkingCopy<D> {
	const known = new Set(copy.waiting.map(({ id }) => id));
	const fresh = left.waiting.filter(({ id }) => !known.has(id));
	const before = copy.waiting.flatMap(({ edits }) => edits);
	const edits = fresh.map((act) => act.edits);
	const carried = carry(edits, before);
	const by = { who: '', at: '' };
	const asked = carried.pulled.map((one) => questionOf(one, left.ground, edits.flat(), by));
	const questions = merged(copy.questions, [...left.questions, ...asked]);
	const acts = [...copy.waiting.map((act) => act.edits.slice()), ...carried.acts];
	return put({ ...copy, questions, waiting: [...copy.waiting, ...fresh] }, { acts, since: [], pulled: [] });
}

/** The keeper decided. Yours is an act like any other; after theirs, one step back still brings yours. */
export function answered<D>(
	copy: WorkingCopy<D>,
	question: Question,
	choice: 'theirs' | 'yours',
	id: string
): WorkingCopy<D> {
	const questions = copy.questions.filter(({ key }) => key !== question.key);
	const edits = yoursAgain(question, copy.document);
	if (edits.length === 0) return { ...copy, questions };
	if (choice === 'yours') return acted({ ...copy, questions }, { id, edits });
	return { ...copy, questions, history: record(copy.history, inverted(edits)) };
}
