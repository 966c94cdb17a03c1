import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { Kysely } from 'kysely';
import pg from 'pg';
import { describe, expect, onTestFinished, test } from 'vitest';
import { restoreBackup } from './backup.ts';
import { documentAt, history, saveEdits } from './edits.ts';
import { engines, freshDatabase, freshStore } from './fresh-store.ts';
import { appendLog, readLog } from './log.ts';
import { migrate, steps } from './migrations.ts';
import { getRun, listRuns } from './runs.ts';
import { openSqlite, sqliteDialect } from './sqlite.ts';
import { openStore, sqliteName, type Store } from './store.ts';

const fixtures = join(import.meta.dirname, '../../../tests/fixtures/store');
const names = Object.keys(steps);
const fixtureOf = (step: string) => readFileSync(join(fixtures, `${step}.sql`), 'utf8');

/** A data folder, or a database, as the version that ended with `step` left it. */
async function left(
	engine: Store['engine'],
	step: string
): Promise<{ folder: string; databaseUrl?: string }> {
	const folder = mkdtempSync(join(tmpdir(), 'lazaret-left-'));
	onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
	if (engine === 'sqlite') {
		const file = new DatabaseSync(join(folder, sqliteName));
		file.exec(fixtureOf(step));
		file.close();
		return { folder };
	}
	const databaseUrl = await freshDatabase();
	const client = new pg.Client({ connectionString: databaseUrl });
	await client.connect();
	await client.query(fixtureOf(step));
	await client.end();
	return { folder, databaseUrl };
}

/** Every row the fixture says it wrote, by table. */
function rowsOf(step: string): Map<string, Record<string, unknown>[]> {
	const file = new DatabaseSync(':memory:');
	file.exec(fixtureOf(step));
	const tables = file.prepare("select name from sqlite_master where type = 'table'").all();
	return new Map(
		tables.map(({ name }) => [
			String(name),
			file
				.prepare(`select * from "${String(name)}" order by 1, 2`)
				.all()
				.map((row) => ({ ...row }))
		])
	);
}

test('every version but the newest is kept as a fixture: node tests/fixtures/store/dump.ts STEP writes it', () => {
	const missing = names.slice(0, -1).filter((step) => !existsSync(join(fixtures, `${step}.sql`)));
	expect(missing).toEqual([]);
});

const kept = names.filter((step) => existsSync(join(fixtures, `${step}.sql`)));

describe.each(engines)('a store of an earlier version on %s', { timeout: 30_000 }, (engine) => {
	test.each(kept)('%s comes to the newest with every row as it was', async (step) => {
		const store = await openStore(await left(engine, step));
		onTestFinished(() => store.close());
		const done = await store.db.selectFrom('migration').select('name').execute();
		expect(done.map(({ name }) => name).toSorted()).toEqual(names.toSorted());
		let rows = 0;
		for (const [table, expected] of rowsOf(step)) {
			if (table === 'migration') continue;
			const found = await store.db
				.selectFrom(table as 'run')
				.selectAll()
				.execute();
			for (const row of expected) {
				expect(found, table).toContainEqual(expect.objectContaining(row));
				rows++;
			}
			expect(found, table).toHaveLength(expected.length);
		}
		expect(rows).toBeGreaterThanOrEqual(9);
	});

	test.each(kept)('%s goes on being used: read, edited, logged, looked back at', async (step) => {
		const options = await left(engine, step);
		const store = await openStore(options);
		expect((await listRuns(store)).map(({ name }) => name)).toEqual(["Keeper's trial"]);
		expect((await listRuns(store, 'deleted')).map(({ id }) => id)).toEqual(['r2']);
		expect((await readLog(store, 'r1')).map(({ id }) => id)).toEqual(['l1', 'l2']);
		expect(await documentAt(store, 'r1', 1)).toMatchObject({ name: 'Trial' });
		expect(await documentAt(store, 'r1', 3)).toEqual((await getRun(store, 'r1'))?.document);
		const edits = [{ path: ['name'], to: 'Later' }];
		expect(await saveEdits(store, 'r1', { id: 'new', base: 2, edits, who: 'kim' })).toMatchObject({
			kind: 'clash'
		});
		expect(await saveEdits(store, 'r1', { id: 'new', base: 3, edits, who: 'kim' })).toMatchObject({
			kind: 'saved',
			version: 4
		});
		const entry = { id: 'l3', at: '2026-11-05T09:00:00Z', kind: 'topoff', litres: '1 L' };
		expect(await appendLog(store, 'r1', [entry], 'kim')).toEqual({ ok: true, added: 1 });
		await store.close();
		// and again by an app that finds nothing to migrate
		const again = await openStore(options);
		onTestFinished(() => again.close());
		expect((await history(again, 'r1')).map(({ version }) => version)).toEqual([4, 3, 2, 1]);
	});
});

// on SQLite a second opener in the same process would hold up the first it waits for
test.each(engines.filter((engine) => engine === 'postgres'))(
	'two apps that start at once on %s migrate it once',
	{ timeout: 60_000 },
	async (engine) => {
		const options = await left(engine, names[0] ?? '');
		const stores = await Promise.all([openStore(options), openStore(options)]);
		for (const store of stores) expect(await listRuns(store)).toHaveLength(1);
		for (const store of stores) await store.close();
	}
);

test.each(kept)('a backup of version %s is restored into the newest', async (step) => {
	const { folder } = await left('sqlite', step);
	const file = join(folder, 'backup.sqlite');
	copyFileSync(join(folder, sqliteName), file);
	const store = await freshStore('sqlite');
	expect(await restoreBackup(store, file)).toMatchObject({
		ok: true,
		held: { runs: 2, saves: 5, entries: 2 }
	});
	expect(await documentAt(store, 'r1', 3)).toMatchObject({ name: "Keeper's trial" });
});

test('a fixture is what its steps make, column by column', async () => {
	const columns = (file: DatabaseSync) =>
		file
			.prepare(
				"select m.name as 'table', p.name, p.type, p.\"notnull\", p.pk from sqlite_master m, pragma_table_info(m.name) p where m.type = 'table' order by 1, p.cid"
			)
			.all()
			.map((row) => ({ ...row }));
	for (const step of kept) {
		const file = new DatabaseSync(':memory:');
		file.exec(fixtureOf(step));
		const made = openSqlite(':memory:');
		await migrate(
			new Kysely({ dialect: sqliteDialect(made) }),
			'sqlite',
			'now',
			names.slice(0, names.indexOf(step) + 1)
		);
		expect(columns(file), step).toEqual(columns(made));
	}
});
