import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyAll, rebase, type Edit } from '../run/index.ts';
import { emptyHistory, undo } from './history.ts';
import { theirsIn } from './question.ts';
import { deleteRows, moveRows } from './rows.ts';
import {
	acted,
	adopted,
	answered,
	heard,
	opened,
	refused,
	type Save,
	type WorkingCopy
} from './working-copy.ts';

/*
 * Notation: a document is a list of rows, `a:1 b:2`, and a name. An act is `b=5` (types 5 into row b), `+r` (a row of
 * that id at the end), `-b` (takes b out), `b^` (moves b up) or `name=x`.
 */
type Row = { id: string; lasts?: string } & Record<string, unknown>;
interface Document {
	name: string;
	phases: Row[];
}
const start: Document = {
	name: 'n',
	phases: ['a', 'b', 'c'].map((id) => ({ id, lasts: '1' }))
};

function edits(line: string, { name, phases }: Document): Edit[] {
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

const show = ({ phases }: Document) => phases.map(({ id, lasts = '' }) => `${id}:${lasts}`).join(' ');

/** The store: takes a save as the server does, and tells what it has. */
class Shelf {
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

type Pick = (below: number) => number;

/** A page: a copy, the request under way, and what was ever asked of its keeper. */
class Client {
	copy = opened(1, start);
	/** the save as it went out, and whether the store has seen it */
	sent: { base: number; id: string; edits: readonly Edit[]; seen: boolean } | null = null;
	/** everything typed, by row, in order, to find what became of it */
	typed: { value: string; row: string }[] = [];
	asked = new Set<string>();
	#count = 0;
	readonly name: string;
	readonly shelf: Shelf;
	constructor(name: string, shelf: Shelf) {
		this.name = name;
		this.shelf = shelf;
	}

	#id = () => `${this.name}${this.#count++}`;

	act(pick: Pick) {
		const { phases } = this.copy.document;
		const row = phases[pick(Math.max(1, phases.length))]?.id ?? '';
		const value = this.#id();
		const verb = pick(9);
		// two pages that know nothing of each other choose the same id
		const known = phases.some(({ id }) => id === 'row');
		if (verb === 0) return this.#make(edits(known ? `+${this.#id()}` : '+row', this.copy.document));
		if (verb === 1) return this.#make(edits(`-${row}`, this.copy.document), row);
		if (verb === 2) return this.#make(edits(`${row}^`, this.copy.document));
		if (verb === 3) return this.#undo();
		const line = verb === 4 ? `name=${value}` : `${row}=${value}`;
		this.#make(edits(line, this.copy.document), verb === 4 ? 'name' : row, value);
	}

	#make(made: Edit[], row?: string, value?: string) {
		if (made.length === 0) return;
		this.copy = acted(this.copy, { id: this.#id(), edits: made });
		if (row !== undefined) this.typed.push({ row, value: value ?? '' });
	}

	#undo() {
		const back = undo(this.copy.history);
		if (!back) return;
		this.copy = acted(this.copy, { id: this.#id(), edits: back.edits }, back.history);
		// what was typed before may be gone by the keeper's own wish
		this.typed = [];
	}

	answer(pick: Pick) {
		const question = this.copy.questions[pick(Math.max(1, this.copy.questions.length))];
		if (!question) return;
		this.copy = answered(this.copy, question, pick(2) ? 'yours' : 'theirs', this.#id());
		const [, row] = question.place;
		this.typed.push({ row: typeof row === 'object' ? row.id : 'name', value: '' });
	}

	send() {
		const [head] = this.copy.waiting;
		if (!this.sent && head) this.sent = { ...head, base: this.copy.version, seen: false };
	}

	/** The request reaches the store; its answer may still be lost. */
	reach() {
		if (!this.sent || this.sent.seen) return;
		this.shelf.take(this.sent.base, this.sent.id, this.sent.edits);
		this.sent.seen = true;
	}

	/** The answer of the store, or that there was none: what waits is then sent again. */
	receive(lost: boolean) {
		if (!this.sent || (!this.sent.seen && !lost)) return;
		const { base, id, edits: made } = this.sent;
		this.sent = null;
		if (lost) return;
		const outcome = this.shelf.take(base, id, made);
		if (outcome === 'refused') this.copy = refused(this.copy);
		else this.#hear(base);
	}

	hear = () => this.#hear(this.copy.version);
	#hear(version: number) {
		this.copy = heard(this.copy, this.shelf.since(version));
		for (const { yours, row } of this.copy.questions)
			for (const value of [yours, row?.value]) this.asked.add(JSON.stringify(value) ?? '');
	}

	/** The page is opened again: what it had left is taken up on what the store has now. */
	reopen() {
		const left = heard(this.copy, this.shelf.since(this.copy.version));
		this.sent = null;
		this.copy = adopted(opened(this.shelf.version, this.shelf.document), left);
		this.copy = { ...this.copy, history: emptyHistory };
	}

	get idle() {
		return !this.sent && this.copy.waiting.length === 0 && this.copy.version === this.shelf.version;
	}
}

/** The same moves for the same numbers; each number decides who does what. */
function play(clients: Client[], moves: readonly number[]) {
	for (const move of moves) {
		let left = move;
		const pick: Pick = (below) => {
			const taken = left % below;
			left = Math.floor(left / below);
			return taken;
		};
		const client = clients[pick(clients.length)] as Client;
		const what = pick(10);
		if (what < 4) client.act(pick);
		else if (what === 4) client.send();
		else if (what === 5) client.reach();
		else if (what === 6) client.receive(pick(6) === 0);
		else if (what === 7) client.hear();
		else if (what === 8) client.answer(pick);
		else if (pick(8) === 0) client.reopen();
	}
}

function settle(clients: Client[]) {
	for (let round = 0; round < 500 && !clients.every(({ idle }) => idle); round++)
		for (const client of clients) {
			client.send();
			client.reach();
			client.receive(false);
			client.hear();
		}
}

describe('two and three pages, any order of sending, losing, hearing and answering', () => {
	test.each([2, 3])(
		'%i pages end on what the store has, and nothing typed is lost',
		{ timeout: 120_000 },
		(count) => {
			let [asked, saved] = [0, 0];
			fc.assert(
				fc.property(fc.array(fc.nat(2 ** 31 - 1), { minLength: 40, maxLength: 120 }), (moves) => {
					const shelf = new Shelf();
					const clients = ['x', 'y', 'z'].slice(0, count).map((name) => new Client(name, shelf));
					play(clients, moves);
					settle(clients);
					const history = JSON.stringify(shelf.saves);
					expect(
						applyAll(
							start,
							shelf.saves.flatMap((save) => save.edits)
						)
					).toEqual(shelf.document);
					for (const client of clients) {
						expect(client.idle).toBe(true);
						expect(client.copy.document).toEqual(shelf.document);
						const told = history + [...client.asked].join(' ');
						const lost = client.typed.filter(
							({ value, row }, at) =>
								value !== '' &&
								!told.includes(`"${value}"`) &&
								!client.typed.slice(at + 1).some((later) => later.row === row)
						);
						expect(lost).toEqual([]);
						asked += client.asked.size;
					}
					saved += shelf.saves.length;
				}),
				{ seed: 20261125, numRuns: 600, endOnFailure: true }
			);
			expect(asked).toBeGreaterThan(500);
			expect(saved).toBeGreaterThan(5000);
		}
	);
});
