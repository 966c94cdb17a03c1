import type { z } from 'zod';
import { isJson } from './reader.ts';
import { readRun } from './read-run.ts';
import type { Run } from './run.ts';
import { mostRows, planSchema, type PlanDocument } from './schema.ts';

/** Deeper nesting than any plan has. */
const MOST_LEVELS = 12;

export type PlanFile =
	| { ok: true; value: { document: PlanDocument; run: Run } }
	| { ok: false; place: string; seen: string; expected: string; sentence: string };

/**
 * Reads a plan file strictly: the first thing that cannot be read is named with its place, and nothing is read. What
 * is merely absent is no problem here: the plan says what it lacks.
 */
export function readPlanFile(text: string): PlanFile {
	const parsed = parse(text);
	if (!parsed.ok) return refusal('', parsed.seen, parsed.expected);
	const { value } = parsed;
	if (!isJson(value))
		return refusal('', kindOf(value), 'a plan file: an object with "format": "lazaret-plan/1"');
	if (value.format !== 'lazaret-plan/1') return refusal('format', shown(value.format), '"lazaret-plan/1"');
	for (const [list, most] of Object.entries(mostRows)) {
		const rows = value[list];
		if (Array.isArray(rows) && rows.length > most)
			return refusal(list, `${rows.length} rows`, `at most ${most}`);
	}
	const shape = planSchema.safeParse(value);
	if (!shape.success) return shapeRefusal(value, shape.error);
	const run = readRun(value, { today: null });
	const [first] = run.problems;
	if (first) return refusal(first.cell, shown(first.seen), first.expected);
	return { ok: true, value: { document: shape.data, run } };
}

/** A document as a file: two spaces, one newline at its end. */
export const writePlanFile = (document: unknown): string => `${JSON.stringify(document, null, 2)}\n`;

function refusal(place: string, seen: string, expected: string): PlanFile & { ok: false } {
	const where = place === '' ? '' : `${place}: `;
	return { ok: false, place, seen, expected, sentence: `${where}saw ${seen}, expected ${expected}` };
}

const shown = (value: unknown): string => {
	if (value === undefined) return 'nothing';
	if (typeof value === 'object' && value !== null) return kindOf(value);
	const text = JSON.stringify(value) ?? String(value);
	return text.length > 80 ? `${text.slice(0, 77)}...` : text;
};

function kindOf(value: unknown): string {
	if (value === null) return 'null';
	if (Array.isArray(value)) return 'a list';
	return typeof value === 'object' ? 'an object' : `a ${typeof value}`;
}

type Parsed = { ok: true; value: unknown } | { ok: false; seen: string; expected: string };

function parse(text: string): Parsed {
	const expected = 'a plan file in JSON';
	if (text.trim() === '') return { ok: false, seen: 'an empty file', expected };
	if (tooDeep(text)) return { ok: false, seen: `more than ${MOST_LEVELS} levels of nesting`, expected };
	try {
		let forbidden = false;
		const value: unknown = JSON.parse(text.replace(/^\uFEFF/, ''), function (key, entry: unknown) {
			if (key === '__proto__') forbidden = true;
			return entry;
		});
		return forbidden
			? { ok: false, seen: 'the key "__proto__"', expected: 'only keys of a plan file' }
			: { ok: true, value };
	} catch {
		return { ok: false, seen: unfinished(text) ? 'JSON that breaks off' : 'text that is not JSON', expected };
	}
}

const unfinished = (text: string): boolean => /^\s*[[{]/.test(text) && !/[\]}]\s*$/.test(text);

/** Counted on the text, outside strings, so that a mountain of brackets never reaches a recursive reader. */
function tooDeep(text: string): boolean {
	let depth = 0;
	let quoted = false;
	for (let i = 0; i < text.length; i++) {
		const c = text[i];
		if (quoted) {
			if (c === '\\') i++;
			else if (c === '"') quoted = false;
		} else if (c === '"') quoted = true;
		else if (c === '[' || c === '{') {
			if (++depth > MOST_LEVELS) return true;
		} else if (c === ']' || c === '}') depth--;
	}
	return false;
}

type Issue = z.core.$ZodIssue;

/** What the shape lacks, in one sentence; the deepest issue of a union speaks for it. */
function shapeRefusal(document: unknown, error: z.ZodError): PlanFile & { ok: false } {
	const issue = deepest(error.issues[0] as Issue, document, []);
	const { path } = issue;
	const value = valueAt(document, path);
	const place = placeOf(document, path);
	if (issue.issue.code === 'unrecognized_keys') {
		const [key] = issue.issue.keys;
		return refusal(
			place ? `${place}.${key}` : `${key}`,
			`the key "${key}"`,
			'only keys of a plan file; this one is unknown'
		);
	}
	return refusal(place, shown(value), expectation(issue.issue));
}

interface Placed {
	issue: Issue;
	path: PropertyKey[];
}

function deepest(issue: Issue, document: unknown, base: PropertyKey[]): Placed {
	const path = [...base, ...issue.path];
	if (issue.code !== 'invalid_union' || issue.errors.length === 0) return { issue, path };
	const value = valueAt(document, path);
	const kind = isJson(value) ? value.kind : undefined;
	const branch = issue.errors.find(
		(issues) => kind !== undefined && !issues.some(({ path: [at] }) => at === 'kind')
	);
	const inner = branch?.[0];
	if (inner) return deepest(inner as Issue, document, path);
	return kind === undefined && !isJson(value) ? { issue, path } : { issue, path: [...path, 'kind'] };
}

function expectation(issue: Issue): string {
	switch (issue.code) {
		case 'invalid_type':
			return issue.expected === 'string'
				? 'a text in quotes'
				: issue.expected === 'array'
					? 'a list'
					: `${/^[aeiou]/.test(issue.expected) ? 'an' : 'a'} ${issue.expected}`;
		case 'invalid_value':
			return `one of ${issue.values.map(String).join(', ')}`;
		case 'too_big':
			return `at most ${issue.maximum}${issue.origin === 'string' ? ' characters' : ''}`;
		case 'too_small':
			return `at least ${issue.minimum}${issue.origin === 'string' ? ' character' : ''}`;
		case 'invalid_format':
			return 'an id of small letters, digits and hyphens, beginning with a letter';
		case 'invalid_union':
			return issue.path.length > 0 || issue.errors.length > 2
				? 'a kind of entry or value the format knows'
				: 'a text or a number';
		default:
			return issue.message;
	}
}

const valueAt = (document: unknown, path: readonly PropertyKey[]): unknown =>
	path.reduce<unknown>(
		(node, key) =>
			typeof node === 'object' && node !== null ? (node as Record<PropertyKey, unknown>)[key] : undefined,
		document
	);

/** `phases.2.starts` under the id of its row: `phases.copper.starts`. */
function placeOf(document: unknown, path: readonly PropertyKey[]): string {
	return path
		.map((key, i) => {
			const row = typeof key === 'number' ? valueAt(document, path.slice(0, i + 1)) : null;
			return isJson(row) && typeof row.id === 'string' && row.id !== '' ? row.id : String(key);
		})
		.join('.');
}
