import { copyFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { DatabaseSync } from 'node:sqlite';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { dropCourse, keepCourse, listCourses } from './courses.ts';
import { backup, dailyBackup, restoreBackup, verifyBackup } from './backup.ts';
import type { Document } from './document.ts';
import { history, saveEdits } from './edits.ts';
import { exportAll, importAll } from './exchange.ts';
import { engines, freshStore } from './fresh-store.ts';
import { appendLog, readLog } from './log.ts';
import { listPeople } from './people.ts';
import { keepPhoto, readPhoto } from './photos.ts';
import { createRun, getRun, listRuns } from './runs.ts';
import { openForRestore, openStore, sqliteName, type Store } from './store.ts';

const plan: Document = { format: 'lazaret-plan/1', name: 'Trial', phases: [{ id: 'a', lasts: '3 d' }] };
const entry = { id: '1', at: '2026-11-30T08:00:00-06:00', kind: 'missed', task: 'a/test/1' };

/** The first bytes of a PNG picture (PNG specification, section 5.2); nobody draws it here. */
const dot = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 1);

async function filled(engine: Store['engine']): Promise<Store> {
	const store = await freshStore(engine);
	await createRun(store, { id: 'r1', document: plan, who: 'ada' });
	await saveEdits(store, 'r1', {
		id: 'e1',
		base: 1,
		edits: [{ path: ['phases', 0, 'lasts'], to: '4 d' }],
		who: 'bo'
	});
	await appendLog(store, 'r1', [entry], 'bo');
	await keepCourse(store, { id: 'c1', name: 'Usual', phases: [{ id: 'a', kind: 'observe' }] }, 'bo');
	await keepPhoto(store, { id: 'p1', run: 'r1', bytes: dot, who: 'bo' });
	return store;
}
const contents = async (store: Store) => ({ ...(await exportAll(store)), exported: 'any' });

describe.each(engines)('a backup of %s', (engine) => {
	test('holds everything, and restores it exactly, keeping what it replaces', async () => {
		const store = await filled(engine);
		const before = await contents(store);
		const file = join(store.folder, 'b.sqlite');
		expect(await backup(store, file)).toEqual({ runs: 1, saves: 2, entries: 1 });
		await createRun(store, { id: 'r2', document: plan, who: 'ada' });
		const after = await contents(store);
		const bytes = readFileSync(file);
		const done = await restoreBackup(store, file);
		expect(done).toMatchObject({ ok: true, held: { runs: 1, saves: 2, entries: 1 } });
		expect(await contents(store)).toEqual(before);
		expect(readFileSync(file)).toEqual(bytes);
		if (done.ok) await restoreBackup(store, done.kept);
		expect(await contents(store)).toEqual(after);
	});
	test('taken in the middle of writes is of one moment', async () => {
		const store = await filled(engine);
		const file = join(store.folder, 'b.sqlite');
		const writes = (async () => {
			for (let n = 0; n < 60; n++) {
				await saveEdits(store, 'r1', {
					id: `n${n}`,
					base: 2 + n,
					edits: [{ path: ['note'], to: n }],
					who: 'ada'
				});
			}
		})();
		const heldAtOnce = await backup(store, file);
		await writes;
		expect(heldAtOnce.saves).toBeLessThanOrEqual(62);
		expect(await verifyBackup(file)).toEqual({ ok: true, held: heldAtOnce });
		expect((await getRun(store, 'r1'))?.version).toBe(62);
	});
	test.each([
		['nothing', () => undefined],
		['no database', (file: string) => writeFileSync(file, 'dear diary '.repeat(999))],
		['an empty file', (file: string) => writeFileSync(file, '')],
		['another database', (file: string) => new DatabaseSync(file).exec('create table run2 (a)')],
		[
			'a history that leads elsewhere',
			(file: string, good: string) => {
				copyFileSync(good, file);
				new DatabaseSync(file).exec(`update run set document = replace(document, '4 d', '5 d')`);
			}
		]
	])('that is %s is refused and changes nothing', async (_, spoil) => {
		const store = await filled(engine);
		const before = await contents(store);
		const good = join(store.folder, 'good.sqlite');
		await backup(store, good);
		const file = join(store.folder, 'bad.sqlite');
		spoil(file, good);
		const answer = await restoreBackup(store, file);
		expect(answer.ok).toBe(false);
		expect(!answer.ok && answer.sentence).toMatch(/bad\.sqlite: .*saw .*, expected a backup$/);
		expect(await contents(store)).toEqual(before);
	});
});

test('a restore lets nobody in who was sent away since, and brings the people to a place without any', async () => {
	const store = await freshStore('sqlite');
	const [before, after] = [join(store.folder, 'before.sqlite'), join(store.folder, 'after.sqlite')];
	await backup(store, before);
	const row = { id: 'k', name: 'Kim', folded: 'kim', role: 'keeper', pass: 'x', created: store.now() };
	await store.db.insertInto('person').values(row).execute();
	await backup(store, after);
	await restoreBackup(store, before);
	expect((await listPeople(store)).map(({ name }) => name)).toEqual(['Kim']);
	await store.db.updateTable('person').set({ name: 'Lee', folded: 'lee' }).execute();
	await restoreBackup(store, after);
	expect((await listPeople(store)).map(({ name }) => name)).toEqual(['Lee']);
	const anew = await freshStore('sqlite');
	await restoreBackup(anew, after);
	expect((await listPeople(anew)).map(({ name }) => name)).toEqual(['Kim']);
});

test('a backup is made once a day and the oldest go', async () => {
	const store = await filled('sqlite');
	let now = '2026-11-27T08:00:00.000Z';
	store.now = () => now;
	const names = () => readdirSync(join(store.folder, 'backups')).sort();
	expect(await dailyBackup(store, 3)).not.toBeNull();
	now = '2026-11-28T07:59:59.000Z';
	expect(await dailyBackup(store, 3)).toBeNull();
	for (const day of ['28', '29', '30']) {
		now = `2026-11-${day}T08:00:00.000Z`;
		expect(await dailyBackup(store, 3)).not.toBeNull();
	}
	expect(names()).toEqual([
		'daily-20261128080000.sqlite',
		'daily-20261129080000.sqlite',
		'daily-20261130080000.sqlite'
	]);
	// the clock set back: what the future made does not keep today's from being made
	now = '2026-11-27T09:00:00.000Z';
	expect(await dailyBackup(store, 9)).not.toBeNull();
});

test('a damaged store is moved aside and the backup takes its place', async () => {
	const store = await filled('sqlite');
	const before = await contents(store);
	const file = join(store.folder, 'b.sqlite');
	await backup(store, file);
	await store.close();
	const path = join(store.folder, sqliteName);
	writeFileSync(path, 'dear diary '.repeat(999));
	const { store: anew, aside } = await openForRestore({ folder: store.folder });
	await restoreBackup(anew, file);
	expect(await contents(anew)).toEqual(before);
	await anew.close();
	expect(existsSync(aside ?? '')).toBe(true);
	const again = await openStore({ folder: store.folder });
	expect(await listRuns(again)).toHaveLength(1);
	await again.close();
});

describe.each(engines)('an export of everything from %s', (engine) => {
	test('comes back whole in an empty store, and twice changes nothing', async () => {
		const from = await filled(engine);
		const file = JSON.parse(JSON.stringify(await exportAll(from))) as unknown;
		const to = await freshStore(engine);
		expect(await importAll(to, file, 'ada')).toEqual({
			ok: true,
			value: { added: 1, extended: 0, kept: 0, entries: 1 }
		});
		expect(await contents(to)).toEqual(await contents(from));
		expect(await readPhoto(to, 'p1')).toEqual({ run: 'r1', type: 'image/png', bytes: Buffer.from(dot) });
		expect(await importAll(to, file, 'ada')).toEqual({
			ok: true,
			value: { added: 0, extended: 0, kept: 1, entries: 0 }
		});
		expect(await contents(to)).toEqual(await contents(from));
	});
	test('a course that was dropped stays dropped, and a resend of one changes nothing', async () => {
		const store = await filled(engine);
		await keepCourse(store, { id: 'c1', name: 'Another', phases: [{ id: 'b' }] }, 'ada');
		expect(await listCourses(store)).toEqual([
			{ id: 'c1', name: 'Usual', phases: [{ id: 'a', kind: 'observe' }] }
		]);
		expect(await dropCourse(store, 'c1')).toBe(true);
		expect(await dropCourse(store, 'c1')).toBe(false);
		expect(await listCourses(store)).toEqual([]);
	});
	test('carries on a history that stopped here', async () => {
		const from = await filled(engine);
		const to = await freshStore(engine);
		await importAll(to, await exportAll(from), 'ada');
		await saveEdits(from, 'r1', { id: 'e2', base: 2, edits: [{ path: ['name'], to: 'Later' }], who: 'bo' });
		await appendLog(from, 'r1', [{ ...entry, id: '2' }], 'bo');
		expect(await importAll(to, await exportAll(from), 'ada')).toMatchObject({
			value: { extended: 1, entries: 1 }
		});
		expect((await getRun(to, 'r1'))?.name).toBe('Later');
		expect(await history(to, 'r1')).toEqual(await history(from, 'r1'));
		expect(await readLog(to, 'r1')).toHaveLength(2);
	});
	test.each<[string, (run: Record<string, unknown>) => unknown]>([
		['an unknown key', (run) => (run.extra = 1)],
		['a missing version', (run) => (run.version = 3)],
		['a document its history does not lead to', (run) => (run.document = { ...plan, name: 'Other' })],
		[
			'an edit that leads nowhere',
			(run) => ((run.history as { edits: unknown }[])[1]!.edits = [{ path: ['x', 'y'], to: 1 }])
		],
		['a log entry without an instant', (run) => (run.log = [{ id: 'z', at: 'noon', kind: 'done' }])],
		[
			'a key that reaches into the prototype',
			(run) => ((run.history as { edits: unknown }[])[1]!.edits = [{ path: ['__proto__'], to: 1 }])
		]
	])('with %s is refused whole', async (_, spoil) => {
		const store = await filled(engine);
		const before = await contents(store);
		const file = JSON.parse(JSON.stringify(await exportAll(store))) as { runs: Record<string, unknown>[] };
		const bad = structuredClone(file.runs[0]!);
		spoil(bad);
		bad.id = 'r9';
		file.runs = [{ ...file.runs[0], id: 'r8' }, bad];
		const answer = await importAll(store, file, 'ada');
		expect(answer).toMatchObject({ ok: false });
		expect(await contents(store)).toEqual(before);
	});
	test('whose history parted from ours is refused by name', async () => {
		const ours = await filled(engine);
		const theirs = await freshStore(engine);
		await importAll(theirs, await exportAll(ours), 'ada');
		await saveEdits(ours, 'r1', { id: 'x', base: 2, edits: [{ path: ['name'], to: 'Ours' }], who: 'bo' });
		await saveEdits(theirs, 'r1', { id: 'y', base: 2, edits: [{ path: ['name'], to: 'Theirs' }], who: 'bo' });
		const before = await contents(ours);
		expect(await importAll(ours, await exportAll(theirs), 'ada')).toEqual({
			ok: false,
			sentence: 'run r1: its history here is another from version 3 on'
		});
		expect(await contents(ours)).toEqual(before);
	});
});
