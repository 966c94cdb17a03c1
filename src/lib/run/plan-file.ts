import type { z } from 'zod';
import { isJson } from './reader.ts';
import { placesOf, type Places } from './place.ts';
import { readRun } from './read-run.ts';
import type { Run } from './run.ts';
import { mostRows, planSchema, type PlanDocument } from './schema.ts';

/** Deeper nesting than any plan has. */
const MOST_LEVELS = 12;

export type PlanFile =
	{ ok: true; value: { document: PlanDocument; run: Run } } | ({ ok: false; sentence: string } & Trouble);

interface Trouble {
	/** `phases.copper.starts`: rows are named by their id; `line 3` where the text is no JSON; empty for the whole file */
	place: string;
	seen: string;
	expected: string;
}

/**
 * Reads a plan file strictly: the first thing in the file that cannot be read is named with its place, and nothing
 * is read. What is merely absent is no trouble here: the plan says what it lacks.
 */
export function readPlanFile(text: string): PlanFile {
	const parsed = parse(text);
	if (!parsed.ok) return refusal(parsed);
	const trouble = frameTrouble(parsed.value);
	if (trouble) return refusal(trouble);
	const document = parsed.value;
	const shape = planSchema().safeParse(document);
	const run = readRun(document, { today: null });
	if (shape.success && run.problems.length === 0) return { ok: true, value: { document: shape.data, run } };
	const places = placesOf(document);
	// of two that speak of one place the cell's own grammar says it better, so it comes first
	const troubles = [
		...run.problems.map(({ cell, expected }) => ({ place: cell, seen: shown(places.under(cell)), expected })),
		...(shape.error?.issues ?? []).map((issue) => shapeTrouble(places, issue))
	];
	return refusal(
		troubles.reduce((best, next) => (places.order(next.place) < places.order(best.place) ? next : best))
	);
}

/** A document as a file: two spaces, one newline at its end. */
export const writePlanFile = (document: unknown): string => `${JSON.stringify(document, null, 2)}\n`;

function refusal({ place, seen, expected }: Trouble): PlanFile {
	const where = place === '' ? '' : `${place}: `;
	return { ok: false, place, seen, expected, sentence: `${where}saw ${seen}, expected ${expected}` };
}

/** What makes reading the rest pointless: another format, or more rows than a plan has. */
function frameTrouble(value: unknown): Trouble | null {
	const expected = 'a plan file: an object with "format": "lazaret-plan/1"';
	if (!isJson(value)) return { place: '', seen: kindOf(value), expected };
	if (value.format !== 'lazaret-plan/1')
		return { place: 'format', seen: shown(value.format), expected: '"lazaret-plan/1"' };
	for (const [list, most] of Object.entries(mostRows)) {
		const rows = value[list];
		if (Array.isArray(rows) && rows.length > most)
			return { place: list, seen: `${rows.length} rows`, expected: `at most ${most}` };
	}
	return null;
}

const shown = (value: unknown): string => {
	if (value === undefined) return 'nothing';
	if (typeof value === 'object' && value !== null) return kindOf(value);
	const text = typeof value === 'string' ? JSON.stringify(value) : String(value);
	return text.length > 80 ? `${text.slice(0, 77)}...` : text;
};

function kindOf(value: unknown): string {
	if (value === null) return 'null';
	if (Array.isArray(value)) return 'a list';
	return typeof value === 'object' ? 'an object' : `a ${typeof value}`;
}

type Parsed = { ok: true; value: unknown } | ({ ok: false } & Trouble);

function parse(text: string): Parsed {
	const expected = 'a plan file in JSON';
	const source = text.replace(/^\uFEFF/, '');
	if (source.trim() === '') return { ok: false, place: '', seen: 'an empty file', expected };
	if (tooDeep(source))
		return { ok: false, place: '', seen: `more than ${MOST_LEVELS} levels of nesting`, expected };
	try {
		const value: unknown = JSON.parse(source);
		return forbiddenIn(value)
			? { ok: false, place: '', seen: 'the key "__proto__"', expected: 'only keys of a plan file' }
			: { ok: true, value };
	} catch (error) {
		const position = Number(/position (\d+)/.exec(String(error))?.[1] ?? source.length);
		const line = source.slice(0, position).split('\n').length;
		const seen = unfinished(source) ? 'JSON that breaks off' : 'text that is not JSON';
		return { ok: false, place: `line ${line}`, seen, expected };
	}
}

/** A key that would reach behind an object when it is copied. JSON.parse makes it an own key, so it can be seen. */
const forbiddenIn = (value: unknown): boolean =>
	typeof value === 'object' &&
	value !== null &&
	(Object.hasOwn(value, '__proto__') || Object.values(value).some(forbiddenIn));

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

/** What the shape lacks or has too much of, with the place as a person names it. */
function shapeTrouble(places: Places, issue: Issue): Trouble {
	const { sharp, path } = sharpest(issue, []);
	const place = places.nameOf(path);
	if (sharp.code !== 'unrecognized_keys')
		return { place, seen: shown(places.under(place)), expected: expectation(sharp) };
	const key = sharp.keys[0] ?? '';
	const expected = 'only keys of a plan file; this one is unknown';
	return { place: place ? `${place}.${key}` : key, seen: `the key "${key}"`, expected };
}

/** Of a value that may have several shapes, the shape that was met furthest speaks. */
export function sharpest(issue: Issue, base: PropertyKey[]): { sharp: Issue; path: PropertyKey[] } {
	const path = [...base, ...issue.path];
	if (issue.code !== 'invalid_union') return { sharp: issue, path };
	const inner = issue.errors
		.flatMap((issues) => issues[0] ?? [])
		.find(({ path: own, code }) => own.length > 0 || code === 'unrecognized_keys');
	return inner ? sharpest(inner, path) : { sharp: issue, path };
}

function expectation(issue: Issue): string {
	switch (issue.code) {
		case 'invalid_type':
			if (issue.expected === 'string') return 'a text in quotes';
			if (issue.expected === 'array') return 'a list';
			return `${/^[aeiou]/.test(issue.expected) ? 'an' : 'a'} ${issue.expected}`;
		case 'invalid_value':
			return `one of ${issue.values.map(String).join(', ')}`;
		case 'too_big':
			return `at most ${issue.maximum}${issue.origin === 'string' ? ' characters' : ''}`;
		case 'too_small':
			return `at least ${issue.minimum}${issue.origin === 'string' ? ' character' : ''}`;
		case 'invalid_format':
			return 'an id of small letters, digits and hyphens, beginning with a letter';
		case 'invalid_union':
			return 'discriminator' in issue ? 'a kind of log entry' : 'a text, or what the format has in its place';
		default:
			return issue.message;
	}
}
