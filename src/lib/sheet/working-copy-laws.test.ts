import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyAll, type Edit } from '../run/index.ts';
import { emptyHistory, undo } from './history.ts';
import { edits, Shelf, start } from './sample-shelf.ts';
import { acted, adopted, answered, heard, opened, refused } from './working-copy.ts';

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
