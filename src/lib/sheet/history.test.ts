import { expect, test } from 'vitest';
import { applyAll, type Edit } from '../run/index.ts';
import { carriedOver, emptyHistory, record, redo, undo } from './history.ts';

// The document is a list under `phases`; an act is one or more edits.
const start = { phases: [{ id: 'a', lasts: '1 d' }] };
const longer: Edit[] = [{ path: ['phases', 0, 'lasts'], was: '1 d', to: '2 d' }];
const another: Edit[] = [
	{ path: ['phases', 1], to: { id: 'b' } },
	{ path: ['phases', 1, 'lasts'], to: '3 d' }
];

test('acts come back last first, whole, and go forward again', () => {
	let history = record(record(emptyHistory, longer), another);
	let document = applyAll(applyAll(start, longer), another);
	const end = document;
	const seen = [];
	for (let back = undo(history); back; back = undo(history)) {
		history = back.history;
		document = applyAll(document, back.edits);
		seen.push(document);
	}
	expect(seen).toEqual([{ phases: [{ id: 'a', lasts: '2 d' }] }, start]);
	for (let on = redo(history); on; on = redo(history)) {
		history = on.history;
		document = applyAll(document, on.edits);
	}
	expect(document).toEqual(end);
});

test('a new act forgets what was undone', () => {
	const back = undo(record(emptyHistory, longer));
	expect(redo(record(back?.history ?? emptyHistory, another))).toBeNull();
});

test('an act without edits is no act', () => expect(undo(record(emptyHistory, []))).toBeNull());

test('what others did meanwhile stays when an act of before is taken back', () => {
	const history = record(record(emptyHistory, longer), another);
	const mine = applyAll(applyAll(start, longer), another);
	// they put a row on top and rename the last one
	const theirs: Edit[] = [
		{ path: ['phases', 0], to: { id: 'top' } },
		{ path: ['name'], to: 'Pier' }
	];
	let document = applyAll<object>(mine, theirs);
	let carried = carriedOver(history, theirs);
	const first = undo(carried);
	document = applyAll(document, first?.edits ?? []);
	expect(document).toEqual({ name: 'Pier', phases: [{ id: 'top' }, { id: 'a', lasts: '2 d' }] });
	carried = first?.history ?? emptyHistory;
	document = applyAll(document, undo(carried)?.edits ?? []);
	expect(document).toEqual({ name: 'Pier', phases: [{ id: 'top' }, { id: 'a', lasts: '1 d' }] });
});

test('an act on what others changed since is no longer taken back, nor is any before it', () => {
	const history = record(record(emptyHistory, another), longer);
	const theirs: Edit[] = [{ path: ['phases', 0, 'lasts'], was: '2 d', to: '9 d' }];
	expect(undo(carriedOver(history, theirs))).toBeNull();
});
