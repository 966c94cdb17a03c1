import { z } from 'zod';
import { apply, type Edit } from '../run/index.ts';

/**
 * What the store keeps as one run: a `lazaret-plan/1` file without its log. Its cells are the keeper's own text,
 * readable or not: the sheet must be able to save a cell that is wrong. So only the frame is checked here.
 */
export type Document = { format: 'lazaret-plan/1'; name?: string } & Record<string, unknown>;

/** What lists call a run whose document gives it no name. */
export const nameOf = ({ name }: Document): string => name || 'Unnamed run';

/** The largest document, characters of JSON: 500 phases with every cell filled stay below half of it. */
const mostCharacters = 1_000_000;
const deepest = 12;

const row = z.looseObject({ id: z.string().min(1).max(64) });
const frame = z.looseObject({
	format: z.literal('lazaret-plan/1'),
	name: z.string().max(200).optional(),
	log: z.undefined().optional(),
	lots: z.array(row).max(100).optional(),
	medicines: z.array(row).max(50).optional(),
	phases: z.array(row).max(500).optional()
});

/** One sentence about what is wrong with the frame of a document, null when nothing is. */
export function documentTrouble(value: unknown): string | null {
	if (depthOf(value) > deepest) return `saw more than ${deepest} levels of nesting, expected a plan file`;
	const read = frame.safeParse(value);
	if (!read.success) return firstIssue(read.error);
	if (JSON.stringify(value).length > mostCharacters)
		return 'saw more than 1 MB, expected a plan file, which is far smaller';
	for (const list of ['lots', 'medicines', 'phases'] as const) {
		const twice = repeated((read.data[list] ?? []).map((item) => item.id));
		if (twice !== null) return `${list}: saw the id ${twice} twice, expected it once`;
	}
	return null;
}

function repeated(ids: readonly string[]): string | null {
	return ids.find((id, i) => ids.indexOf(id) !== i) ?? null;
}

/** How deep lists and objects nest; stops counting soon after the limit. */
function depthOf(value: unknown, depth = 0): number {
	if (typeof value !== 'object' || value === null || depth > deepest) return depth;
	return Object.values(value).reduce(
		(most: number, item) => Math.max(most, depthOf(item, depth + 1)),
		depth + 1
	);
}

/** The first thing zod found, as `place: what`. */
export function firstIssue(error: z.ZodError): string {
	const [issue] = error.issues;
	if (!issue) return 'cannot be read';
	const place = issue.path.map(String).join('.');
	return place ? `${place}: ${issue.message}` : issue.message;
}

const forbidden = new Set(['__proto__', 'constructor', 'prototype']);
const key = z.union([
	z
		.string()
		.min(1)
		.max(64)
		.refine((name) => !forbidden.has(name), 'a name no key may have'),
	z.int().min(0).max(1000)
]);

/** One edit as a client sends it, or as the history keeps it. */
export const editSchema = z.strictObject({
	path: z.array(key).min(1).max(8),
	to: z.json().optional(),
	was: z.json().optional()
});

/** Edits of one save. */
export const editsSchema = z.array(editSchema).min(1).max(2000);

/**
 * Makes the edits one by one, each with the `was` that really stood there, so that they can be taken back
 * whatever the client believed. Or says which one leads nowhere.
 */
export function makeEdits(
	document: Document,
	edits: readonly Edit[]
): { ok: true; document: Document; edits: Edit[] } | { ok: false; sentence: string } {
	let current: Document = document;
	const made: Edit[] = [];
	for (const edit of edits) {
		const place = placeOf(current, edit);
		if (!place.ok) return { ok: false, sentence: `${edit.path.join('.')}: ${place.expected}` };
		const sure = { path: edit.path, ...(edit.to === undefined ? {} : { to: edit.to }), ...place.was };
		current = apply(current, sure);
		made.push(sure);
	}
	const trouble = documentTrouble(current);
	return trouble === null ? { ok: true, document: current, edits: made } : { ok: false, sentence: trouble };
}

type Place = { ok: true; was: { was?: unknown } } | { ok: false; expected: string };

function placeOf(document: unknown, edit: Edit): Place {
	let node: unknown = document;
	for (const [depth, step] of edit.path.entries()) {
		const last = depth === edit.path.length - 1;
		if (Array.isArray(node)) {
			if (typeof step !== 'number') return { ok: false, expected: 'expected the number of a row' };
			// a row is put in before the end or at it; anything else needs a row that is there
			const inserts = last && edit.was === undefined && edit.to !== undefined;
			if (step > node.length || (!inserts && step === node.length))
				return { ok: false, expected: 'saw no such row' };
			if (last) return { ok: true, was: inserts ? {} : { was: node[step] as unknown } };
			node = node[step];
		} else if (typeof node === 'object' && node !== null) {
			if (typeof step !== 'string') return { ok: false, expected: 'expected a name' };
			const next = Object.hasOwn(node, step) ? (node as Record<string, unknown>)[step] : undefined;
			if (last) return { ok: true, was: next === undefined ? {} : { was: next } };
			node = next;
		} else return { ok: false, expected: 'saw no such place' };
	}
	return { ok: false, expected: 'saw no place' };
}
