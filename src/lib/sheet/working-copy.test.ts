import { describe, expect, test } from 'vitest';
import { applyAll, type Edit } from '../run/index.ts';
import { undo } from './history.ts';
import { theirsIn } from './question.ts';
import { edits, Shelf, start, type Document, type Row } from './sample-shelf.ts';
import { acted, answered, heard, opened, refused, type WorkingCopy } from './working-copy.ts';

const show = ({ phases }: Document) => phases.map(({ id, lasts = '' }) => `${id}:${lasts}`).join(' ');

/** Acts of one here that wait while acts of others are saved; then the news come. */
function meeting(yours: string, theirs: string): WorkingCopy<Document> {
	const shelf = new Shelf();
	let copy = opened(1, start);
	for (const [n, line] of yours.split(', ').entries())
		copy = acted(copy, { id: `y${n}`, edits: edits(line, copy.document) });
	for (const [n, line] of theirs.split(', ').entries())
		shelf.take(shelf.version, `t${n}`, edits(line, shelf.document), 'ada');
	return heard(copy, shelf.saves);
}

describe('what waits here meets what others saved', () => {
	test.each([
		['b=5', 'c=7', 'a:1 b:5 c:7', []],
		['b=5', '-a', 'b:5 c:1', []],
		['b=5', 'b=7', 'a:1 b:7 c:1', ['7|5']],
		['b=5, b=6', 'b=7', 'a:1 b:7 c:1', ['7|6']],
		['b=5, b=1', 'b=7', 'a:1 b:7 c:1', []],
		['b=5, b=6, b=5', 'b=7', 'a:1 b:7 c:1', ['7|5']],
		['b=5, c=6', 'b=7', 'a:1 b:7 c:6', ['7|5']],
		['b=5', 'b=5', 'a:1 b:5 c:1', []],
		['b=5', '-b', 'a:1 c:1', ['gone|5']],
		['-b', 'b=7', 'a:1 b:7 c:1', ['b:7|undefined']],
		['-b, c=6', 'b=7', 'a:1 b:7 c:6', ['b:7|undefined']],
		['b=5, -b', 'b=7', 'a:1 b:7 c:1', ['b:7|undefined']],
		['b=5', 'b^', 'b:5 a:1 c:1', []],
		['b^', 'b=7', 'b:7 a:1 c:1', []],
		['b=5, b^', 'b=7', 'b:7 a:1 c:1', ['7|5']],
		['+row, row=4', '+row, row=9', 'a:1 b:1 c:1 row:9 row-2:4', []],
		['-b', '-b', 'a:1 c:1', []]
	])('%s | %s', (yours, theirs, result, questions) => {
		const copy = meeting(yours, theirs);
		expect(show(copy.document)).toBe(result);
		const theirsNow = (one: WorkingCopy<Document>['questions'][number]) => {
			const { gone, value } = theirsIn(one, copy.document);
			return gone
				? 'gone'
				: typeof value === 'object'
					? show({ name: '', phases: [value as Row] })
					: String(value);
		};
		expect(copy.questions.map((one) => `${theirsNow(one)}|${String(one.yours)}`)).toEqual(questions);
		expect(copy.questions.every(({ who }) => who === 'ada')).toBe(true);
	});
	test('a bottle that both add is one bottle', () => {
		const ground = { ...start, medicines: [] as object[] };
		const bottle: Edit = { path: ['medicines', 0], to: { id: 'cu', active: 'copper' } };
		const uses = (row: number): Edit => ({ path: ['phases', row, 'medicine'], to: 'cu' });
		const copy = acted(opened(1, ground), { id: 'y', edits: [bottle, uses(0)] });
		const save = { version: 2, id: 't', who: 'ada', at: '', edits: [bottle, uses(1)] };
		const { document, history } = heard(copy, [save]);
		expect(document).toMatchObject({
			medicines: [{ id: 'cu' }],
			phases: [{ medicine: 'cu' }, { medicine: 'cu' }, {}]
		});
		const back = undo(history);
		expect(applyAll(document, back?.edits ?? [])).toMatchObject({ medicines: [{ id: 'cu' }] });
	});
});

describe('an answer', () => {
	test.each([
		['b=5', 'b=7', 'a:1 b:5 c:1'],
		['b=5', '-b', 'a:1 b:5 c:1'],
		['-b', 'b=7', 'a:1 c:1'],
		['b=5', 'b=7, b^, +d', 'b:5 a:1 c:1 d:']
	])('for yours, %s | %s', (yours, theirs, result) => {
		const copy = meeting(yours, theirs);
		const [question] = copy.questions;
		const after = question ? answered(copy, question, 'yours', 'q') : copy;
		expect(show(after.document)).toBe(result);
		expect(after.questions).toEqual([]);
		expect(after.waiting).toHaveLength(1);
	});
	test('for theirs changes nothing, and one step back brings yours', () => {
		const copy = meeting('b=5', 'b=7');
		const [question] = copy.questions;
		const after = question ? answered(copy, question, 'theirs', 'q') : copy;
		expect(show(after.document)).toBe('a:1 b:7 c:1');
		expect(after.waiting).toEqual([]);
		expect(show(applyAll(after.document, undo(after.history)?.edits ?? []))).toBe('a:1 b:5 c:1');
	});
});

test('what the store refuses is taken back, and what was typed over it stays', () => {
	let copy = opened(1, start);
	for (const [n, line] of ['b=5', 'b=6', 'c=7'].entries())
		copy = acted(copy, { id: `y${n}`, edits: edits(line, copy.document) });
	expect(show(refused(copy).document)).toBe('a:1 b:6 c:7');
	expect(show(refused(refused(copy)).document)).toBe('a:1 b:1 c:7');
});
