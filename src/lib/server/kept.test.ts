import { DatabaseSync } from 'node:sqlite';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { documentAt, history, restoreVersion, saveEdits } from './edits.ts';
import { exportAll } from './exchange.ts';
import { faultOf } from './fault.ts';
import { freshStore } from './fresh-store.ts';
import { appendLog, readLog, readLogs } from './log.ts';
import { listPeople } from './people.ts';
import { plannedRuns } from './planned.ts';
import { createRun, getRun, listRuns, openRuns } from './runs.ts';
import { enteredBy, openSession } from './sessions.ts';
import { sqliteName, type Store } from './store.ts';

/* A database that a hand has edited: whatever is asked of it answers, or says that the data is damaged. */

const plan = {
	format: 'lazaret-plan/1',
	name: 'Trial',
	timeZone: 'UTC',
	tank: { net: '100 L' },
	phases: [{ id: 'a', kind: 'observe', starts: 'on 2026-11-27', lasts: '3 d' }]
};

async function filled(): Promise<{ store: Store; token: string }> {
	const store = await freshStore('sqlite');
	await createRun(store, { id: 'r1', document: plan, who: 'kim' });
	const edits = [{ path: ['phases', 0, 'lasts'], to: '4 d' }];
	await saveEdits(store, 'r1', { id: 'e1', base: 1, edits, who: 'kim' });
	await appendLog(
		store,
		'r1',
		[{ id: 'l1', at: '2026-11-27T08:00:00Z', kind: 'topoff', litres: '1 L' }],
		'kim'
	);
	const person = { id: 'p1', name: 'Kim', folded: 'kim', role: 'keeper', pass: 'x', created: store.now() };
	await store.db.insertInto('person').values(person).execute();
	return { store, token: await openSession(store, 'p1', 'a phone') };
}

const reads = (store: Store, token: string): (() => Promise<unknown>)[] => [
	() => listRuns(store),
	() => openRuns(store),
	() => getRun(store, 'r1'),
	() => readLog(store, 'r1'),
	() => readLogs(store),
	() => history(store, 'r1'),
	() => documentAt(store, 'r1', 2),
	() => exportAll(store),
	() => plannedRuns(store, '2026-11-28T08:00:00Z'),
	() => listPeople(store),
	() => enteredBy(store, token)
];
const writes = (store: Store): (() => Promise<unknown>)[] => [
	() => saveEdits(store, 'r1', { id: 'e2', base: 1, edits: [{ path: ['name'], to: 'x' }], who: 'kim' }),
	() => restoreVersion(store, 'r1', 1, { id: 'e3', who: 'kim' }),
	() =>
		appendLog(store, 'r1', [{ id: 'l2', at: '2026-11-27T09:00:00Z', kind: 'topoff', litres: '1 L' }], 'kim')
];

const columns = [
	...['name', 'document', 'original', 'version', 'created', 'updated', 'deleted'].map((name) => [
		'run',
		name
	]),
	...['version', 'id', 'at', 'who', 'what', 'edits'].map((name) => ['edit', name]),
	...['id', 'at', 'kind', 'body', 'received', 'who'].map((name) => ['log', name]),
	...['name', 'folded', 'role', 'pass', 'created'].map((name) => ['person', name]),
	...['token', 'created', 'seen', 'device'].map((name) => ['session', name])
] as [string, string][];

const nasty = fc.oneof(
	fc.constantFrom(
		'',
		'null',
		'[]',
		'{}',
		'7',
		'{"format":"lazaret-plan/1","phases":7}',
		'{"format":"lazaret-plan/1","phases":[null]}',
		'[{"path":["nowhere","x"],"to":1}]',
		'[{"path":[]}]',
		'{"id":1}',
		'{"id":"l1","at":"soon","kind":"topoff"}',
		'captain',
		'\u0000',
		'2026-99-99T00:00:00Z'
	),
	fc.string({ unit: 'binary', maxLength: 40 }),
	fc.json({ maxDepth: 3 }),
	fc.integer({ min: -5, max: 9 }).map(String)
);

test('each of 150 seeded slips of a hand is met with an answer or a plain word, and reading mends nothing', async () => {
	const { store, token } = await filled();
	const hand = new DatabaseSync(join(store.folder, sqliteName), { enableForeignKeyConstraints: false });
	const dump = () =>
		JSON.stringify(
			['run', 'edit', 'log', 'person'].map((table) => hand.prepare(`select * from ${table}`).all())
		);
	let damaged = 0;
	const met = async (ask: () => Promise<unknown>) => {
		try {
			await ask();
		} catch (error) {
			if (!faultOf(error)) throw error;
			damaged++;
		}
	};
	await fc.assert(
		fc.asyncProperty(fc.constantFrom(...columns), nasty, async ([table, column], value) => {
			const before = hand
				.prepare(`select rowid, "${column}" as was from ${table} order by rowid limit 1`)
				.get();
			if (!before) throw new Error(`${table} is empty`);
			const set = hand.prepare(`update ${table} set "${column}" = ? where rowid = ?`);
			try {
				set.run(value.toWellFormed(), before.rowid as number);
			} catch {
				return;
			}
			const spoiled = dump();
			for (const ask of reads(store, token)) await met(ask);
			expect(dump()).toBe(spoiled);
			set.run(before.was as string, before.rowid as number);
		}),
		{ seed: 20261125, numRuns: 150, endOnFailure: true }
	);
	expect(damaged).toBeGreaterThan(30);
	hand.close();
}, 120_000);

test.each([
	['run', 'document', '{}'],
	['run', 'original', 'x'],
	['edit', 'edits', '7']
])('a write onto a spoiled %s.%s is refused and changes nothing', async (table, column, value) => {
	const { store } = await filled();
	const hand = new DatabaseSync(join(store.folder, sqliteName));
	hand.prepare(`update ${table} set "${column}" = ?`).run(value);
	const dump = () =>
		JSON.stringify(['run', 'edit', 'log'].map((name) => hand.prepare(`select * from ${name}`).all()));
	let refused = 0;
	for (const act of writes(store)) {
		const before = dump();
		try {
			await act();
		} catch (error) {
			expect(faultOf(error)?.code).toBe('damaged');
			refused++;
			expect(dump()).toBe(before);
		}
	}
	expect(refused).toBeGreaterThan(0);
	hand.close();
});
