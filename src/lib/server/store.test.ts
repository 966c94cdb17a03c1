import { readFileSync, writeFileSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Document } from './document.ts';
import { documentAt, history, restoreVersion, saveEdits, setDeleted } from './edits.ts';
import { engines, freshStore } from './fresh-store.ts';
import { appendLog, readLog } from './log.ts';
import { tables } from './backup.ts';
import { migrate, steps } from './migrations.ts';
import { createRun, getRun, listRuns, openRuns } from './runs.ts';
import { openStore, sqliteName, type Store } from './store.ts';

const plan: Document = {
	format: 'lazaret-plan/1',
	name: 'Trial',
	tank: { net: '100 L' },
	phases: [
		{ id: 'settle', kind: 'observe', lasts: '3 d' },
		{ id: 'watch', kind: 'observe', lasts: '14 d' }
	]
};

const started = async (engine: Store['engine']) => {
	const store = await freshStore(engine);
	await createRun(store, { id: 'r1', document: plan, who: 'ada' });
	return store;
};
const lasts = (row: number, to: string) => [{ path: ['phases', row, 'lasts'], to, was: 'anything' }];

describe.each(engines)('runs on %s', (engine) => {
	test('a run that was made is there, once, whoever sends it again', async () => {
		const store = await started(engine);
		const again = await createRun(store, { id: 'r1', document: { ...plan, name: 'Other' }, who: 'bo' });
		expect(again).toMatchObject({ ok: true, made: false, run: { name: 'Trial', version: 1 } });
		expect(await listRuns(store)).toHaveLength(1);
		expect((await getRun(store, 'r1'))?.document).toEqual(plan);
		expect(await getRun(store, 'r2')).toBeNull();
	});
	test.each([
		['no object', 7],
		['another format', { ...plan, format: 'x/1' }],
		['a number for a name', { format: 'lazaret-plan/1', name: 7 }],
		['a log of its own', { ...plan, log: [] }],
		['a row twice', { ...plan, phases: [{ id: 'a' }, { id: 'a' }] }],
		['501 phases', { ...plan, phases: Array.from({ length: 501 }, (_, i) => ({ id: `p${i}` })) }],
		['a megabyte', { ...plan, note: 'x'.repeat(1_000_001) }],
		['a thousand levels', { ...plan, deep: JSON.parse('['.repeat(1000) + ']'.repeat(1000)) as unknown }]
	])('refuses %s and stores nothing', async (_, document) => {
		const store = await freshStore(engine);
		const answer = await createRun(store, { id: 'r1', document, who: 'ada' });
		expect(answer).toMatchObject({ ok: false, sentence: expect.any(String) as string });
		expect(await listRuns(store)).toEqual([]);
	});
	test('a deleted run leaves the lists and comes back whole', async () => {
		const store = await started(engine);
		await setDeleted(store, 'r1', true, { id: 'd1', who: 'ada' });
		expect(await listRuns(store)).toEqual([]);
		expect(await openRuns(store)).toEqual([]);
		expect(await listRuns(store, 'deleted')).toHaveLength(1);
		expect(await saveEdits(store, 'r1', { id: 'e', base: 2, edits: lasts(0, '4 d'), who: 'bo' })).toEqual({
			kind: 'no-run'
		});
		await setDeleted(store, 'r1', false, { id: 'd2', who: 'ada' });
		expect((await openRuns(store))[0]?.document).toEqual(plan);
		expect((await history(store, 'r1')).map((row) => row.what)).toEqual(['undelete', 'delete', 'create']);
	});
});

describe.each(engines)('saves on %s', (engine) => {
	test('makes a version and keeps what stood there', async () => {
		const store = await started(engine);
		const saved = await saveEdits(store, 'r1', { id: 'e1', base: 1, edits: lasts(0, '4 d'), who: 'ada' });
		expect(saved).toEqual({ kind: 'saved', version: 2, news: null });
		expect((await getRun(store, 'r1'))?.document.phases).toMatchObject([{ lasts: '4 d' }, { lasts: '14 d' }]);
		const [latest] = await history(store, 'r1');
		expect(latest).toMatchObject({ version: 2, who: 'ada', what: 'edit' });
		expect(latest?.edits).toEqual([{ path: ['phases', 0, 'lasts'], to: '4 d', was: '3 d' }]);
	});
	test('sent again adds nothing, even after others saved', async () => {
		const store = await started(engine);
		const save = { id: 'e1', base: 1, edits: lasts(0, '4 d'), who: 'ada' };
		await saveEdits(store, 'r1', save);
		const again = await saveEdits(store, 'r1', save);
		expect(again).toMatchObject({ kind: 'saved', version: 2, news: { saves: [{ version: 2, id: 'e1' }] } });
		await saveEdits(store, 'r1', { id: 'e2', base: 2, edits: lasts(0, '5 d'), who: 'bo' });
		const third = await saveEdits(store, 'r1', save);
		expect(third).toMatchObject({
			kind: 'saved',
			version: 3,
			news: {
				document: { phases: [{ lasts: '5 d' }, {}] },
				saves: [
					{ version: 2, id: 'e1', who: 'ada' },
					{ version: 3, id: 'e2', who: 'bo' }
				]
			}
		});
		expect(await history(store, 'r1')).toHaveLength(3);
	});
	test('on an older version follows the rows', async () => {
		const store = await started(engine);
		const row = { id: 'new', kind: 'observe' };
		await saveEdits(store, 'r1', {
			id: 'e1',
			base: 1,
			edits: [{ path: ['phases', 0], to: row }],
			who: 'ada'
		});
		const saved = await saveEdits(store, 'r1', { id: 'e2', base: 1, edits: lasts(1, '20 d'), who: 'bo' });
		expect(saved).toMatchObject({ kind: 'saved', version: 3 });
		const phases = (await getRun(store, 'r1'))?.document.phases;
		expect(phases).toEqual([
			row,
			{ id: 'settle', kind: 'observe', lasts: '3 d' },
			{ id: 'watch', kind: 'observe', lasts: '20 d' }
		]);
	});
	test('of the same cell asks, showing both, and changes nothing', async () => {
		const store = await started(engine);
		await saveEdits(store, 'r1', { id: 'e1', base: 1, edits: lasts(0, '4 d'), who: 'ada' });
		const answer = await saveEdits(store, 'r1', { id: 'e2', base: 1, edits: lasts(0, '6 d'), who: 'bo' });
		expect(answer).toMatchObject({
			kind: 'clash',
			news: { version: 2, saves: [{ version: 2, id: 'e1', who: 'ada' }] },
			clashes: [{ path: ['phases', 0, 'lasts'], theirs: '4 d', yours: '6 d' }]
		});
		expect((await getRun(store, 'r1'))?.version).toBe(2);
	});
	test('of a row with the id of one that another put in meanwhile tells the news, and changes nothing', async () => {
		const store = await started(engine);
		const row = (lasts: string) => [{ path: ['phases', 2], to: { id: 'row', kind: 'observe', lasts } }];
		await saveEdits(store, 'r1', { id: 'e1', base: 1, edits: row('1 d'), who: 'ada' });
		const answer = await saveEdits(store, 'r1', { id: 'e2', base: 1, edits: row('2 d'), who: 'bo' });
		expect(answer).toMatchObject({ kind: 'clash', news: { version: 2, saves: [{ id: 'e1' }] }, clashes: [] });
		expect((await getRun(store, 'r1'))?.version).toBe(2);
	});
	test.each([
		['a row that is not there', [{ path: ['phases', 9, 'lasts'], to: 'x' }]],
		['a name in a list', [{ path: ['phases', 'first'], to: 'x' }]],
		['a number in an object', [{ path: [0], to: 'x' }]],
		['inside a text', [{ path: ['name', 'x'], to: 'x' }]],
		['the format', [{ path: ['format'], to: 'x' }]],
		['a row of the same id', [{ path: ['phases', 0], to: { id: 'watch' } }]],
		['a future version', null]
	])('refuses %s and changes nothing', async (_, edits) => {
		const store = await started(engine);
		const save = { id: 'e1', base: edits ? 1 : 2, edits: edits ?? lasts(0, '4 d'), who: 'ada' };
		expect(await saveEdits(store, 'r1', save)).toMatchObject({ kind: 'refused' });
		expect(await getRun(store, 'r1')).toMatchObject({ version: 1, document: plan });
	});
	test('from forty hands at once all arrive, in one history that replays to the document', async () => {
		const store = await started(engine);
		const save = (n: number) =>
			saveEdits(store, 'r1', { id: `e${n}`, base: 1, edits: [{ path: [`note${n}`], to: n }], who: `w${n}` });
		const answers = await Promise.all(Array.from({ length: 40 }, (_, n) => save(n)));
		expect(answers.every((answer) => answer.kind === 'saved')).toBe(true);
		const run = await getRun(store, 'r1');
		expect(run?.version).toBe(41);
		for (let n = 0; n < 40; n++) expect(run?.document[`note${n}`]).toBe(n);
		expect(await documentAt(store, 'r1', 41)).toEqual(run?.document);
	});
});

describe.each(engines)('history on %s', (engine) => {
	test('reaches back to the beginning, and any version can be the newest again', async () => {
		const store = await started(engine);
		for (let n = 0; n < 5; n++) {
			await saveEdits(store, 'r1', { id: `e${n}`, base: n + 1, edits: lasts(0, `${n + 4} d`), who: 'ada' });
		}
		await saveEdits(store, 'r1', {
			id: 'cut',
			base: 6,
			edits: [{ path: ['phases', 1], was: 1 }],
			who: 'ada'
		});
		expect(await documentAt(store, 'r1', 1)).toEqual(plan);
		expect((await documentAt(store, 'r1', 3))?.phases).toMatchObject([{ lasts: '5 d' }, { lasts: '14 d' }]);
		expect(await documentAt(store, 'r1', 8)).toBeNull();
		expect(await documentAt(store, 'r1', 0)).toBeNull();
		expect(await restoreVersion(store, 'r1', 1, { id: 'back', who: 'bo' })).toMatchObject({
			kind: 'saved',
			version: 8
		});
		expect(await restoreVersion(store, 'r1', 1, { id: 'back', who: 'bo' })).toMatchObject({
			kind: 'saved',
			version: 8
		});
		expect((await getRun(store, 'r1'))?.document).toEqual(plan);
		expect(await documentAt(store, 'r1', 8)).toEqual(plan);
		expect((await documentAt(store, 'r1', 7))?.phases).toHaveLength(1);
		expect((await history(store, 'r1', 2)).map((row) => [row.version, row.what])).toEqual([
			[8, 'restore'],
			[7, 'edit']
		]);
		expect((await history(store, 'r1', 2, 7)).map((row) => row.version)).toEqual([6, 5]);
	});
});

describe.each(engines)('the log on %s', (engine) => {
	const entry = (id: string, at: string) => ({ id, at, kind: 'missed', task: 'settle/test/1' });
	test('takes each entry once and gives them back in the order they happened', async () => {
		const store = await started(engine);
		const late = entry('b', '2026-11-30T08:00:00-06:00');
		const early = entry('c', '2026-11-30T13:00:00Z');
		const tie = entry('a', '2026-11-30T14:00:00Z');
		expect(await appendLog(store, 'r1', [late, early, late], 'ada')).toEqual({ ok: true, added: 2 });
		expect(await appendLog(store, 'r1', [{ ...late, kind: 'done' }, tie], 'ada')).toEqual({
			ok: true,
			added: 1
		});
		expect(await readLog(store, 'r1')).toEqual([early, tie, late]);
		expect(await appendLog(store, 'none', [late], 'ada')).toBeNull();
	});
	test.each([
		[
			'a medicine the run has not',
			{ kind: 'dose', medicine: 'cu', amount: '1 mL' },
			/^x: medicine: saw cu, expected/
		],
		['a volume that is none', { kind: 'topoff', litres: '-1 L' }, /^x: litres: saw -1 L, expected/],
		[
			'a correction of nothing',
			{ kind: 'correct', entry: 'gone', void: true },
			/^x: entry: saw gone, expected/
		],
		[
			'a day that never was',
			{ kind: 'missed', task: 'a/test/1', at: '2026-02-30T08:00:00Z' },
			/^x: at: saw 2026-02-30/
		]
	])('refuses %s, and the good entry sent with it', async (_, body, sentence) => {
		const store = await started(engine);
		const bad = { id: 'x', at: '2026-11-30T08:00:00Z', ...body };
		const answer = await appendLog(store, 'r1', [entry('a', '2026-11-30T08:00:00Z'), bad], 'ada');
		expect(answer).toMatchObject({ ok: false, sentence: expect.stringMatching(sentence) as string });
		expect(await readLog(store, 'r1')).toEqual([]);
	});
});

describe.each(engines)('the fish that a log on %s takes out', (engine) => {
	const loss = (id: string, count: number) => ({
		id,
		at: '2026-11-30T08:00:00Z',
		kind: 'loss',
		lot: 'a',
		count
	});
	test('are those that the losses sent before have left, corrections of them counted', async () => {
		const store = await started(engine);
		const lots = [{ id: 'a', what: 'gobies', group: 'goby', count: 5 }];
		await createRun(store, { id: 'fish', document: { ...plan, lots }, who: 'ada' });
		const take = (...entries: object[]) =>
			appendLog(store, 'fish', entries as ReturnType<typeof loss>[], 'ada');
		expect(await take(loss('1', 11))).toMatchObject({
			ok: false,
			sentence: expect.stringContaining('saw 11, expected at most 5, as many gobies as are known') as string
		});
		expect(await take(loss('2', 4))).toEqual({ ok: true, added: 1 });
		expect(await take(loss('3', 2))).toMatchObject({ ok: false });
		const one = { kind: 'loss', lot: 'a', count: 1 };
		const right = { id: '4', at: '2026-11-30T09:00:00Z', kind: 'correct', entry: '2', as: one };
		expect(await take(right)).toEqual({ ok: true, added: 1 });
		expect(await take(loss('5', 4))).toEqual({ ok: true, added: 1 });
		expect(await take(loss('6', 1))).toMatchObject({ ok: false });
		expect(
			await take({ ...right, id: '7', at: '2026-11-30T10:00:00Z', as: { ...one, count: 2 } })
		).toMatchObject({
			ok: false
		});
	});
});

describe('the file', () => {
	test('that is damaged is refused with a plain sentence and left as it is', async () => {
		const folder = mkdtempSync(join(tmpdir(), 'lazaret-damaged-'));
		const store = await openStore({ folder });
		for (let n = 0; n < 50; n++) await createRun(store, { id: `r${n}`, document: plan, who: 'ada' });
		await store.close();
		const path = join(folder, sqliteName);
		const bytes = readFileSync(path);
		bytes.fill(0xa5, 4096 * 3, 4096 * 3 + 2048);
		writeFileSync(path, bytes);
		await expect(openStore({ folder })).rejects.toThrow(
			/^the data in .* is damaged \(.*\): .*restore BACKUP/
		);
		expect(readFileSync(path)).toEqual(bytes);
	});
	test('that is no database at all too', async () => {
		const folder = mkdtempSync(join(tmpdir(), 'lazaret-damaged-'));
		writeFileSync(join(folder, sqliteName), 'dear diary '.repeat(1000));
		await expect(openStore({ folder })).rejects.toThrow(/is damaged/);
	});
});

describe.each(engines)('versions of the store on %s', (engine) => {
	test('a store of a newer app is not touched', async () => {
		const store = await freshStore(engine);
		await store.db.insertInto('migration').values({ name: '9-later', applied: 'x' }).execute();
		await expect(migrate(store.db, engine, 'x')).rejects.toThrow(/newer version/);
	});
	test('two that open an empty one at once make its tables once', async () => {
		const store = await freshStore(engine);
		for (const table of ['session', 'attempt', ...tables.toReversed(), 'migration'])
			await store.db.schema.dropTable(table).execute();
		await Promise.all([migrate(store.db, engine, 'a'), migrate(store.db, engine, 'b')]);
		const done = await store.db.selectFrom('migration').select('name').orderBy('name').execute();
		expect(done.map((row) => row.name)).toEqual(Object.keys(steps).sort());
	});
});
