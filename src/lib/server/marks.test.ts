import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { saveEdits } from './edits.ts';
import { engines, freshDatabase } from './fresh-store.ts';
import { appendLog, createRun, dayRound, restoreVersion, setDeleted, type Store } from './index.ts';
import { marksOf } from './marks.ts';
import { openStore } from './store.ts';

const document = {
	format: 'lazaret-plan/1',
	name: 'Trial',
	timeZone: 'UTC',
	tank: { name: 'Q1', net: '100 L' },
	phases: [{ id: 'a', kind: 'observe', starts: 'on 2026-11-26', lasts: '9 d', test: 'NH3 daily' }]
};
const who = 'ada';

/** Two app servers on one store, as different processes would open it. */
async function pairOn(engine: Store['engine']): Promise<[Store, Store]> {
	const folder = mkdtempSync(join(tmpdir(), 'lazaret-marks-'));
	onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
	const databaseUrl = engine === 'postgres' ? await freshDatabase() : undefined;
	const now = () => '2026-11-27T08:30:10.000Z';
	const one = await openStore({ folder, now, databaseUrl });
	onTestFinished(() => one.close());
	const other = await openStore({ folder, now, databaseUrl });
	onTestFinished(() => other.close());
	return [one, other];
}

const rename = (store: Store, id: string, base: number, to: string) =>
	saveEdits(store, 'b', { id, base, edits: [{ path: ['tank', 'name'], to }], who });
const entry = { id: 'l', at: '2026-11-27T08:00:00Z', kind: 'topoff', litres: '1 L' };

/** Each changes what is shown; the last two as a backup put back does, that counts up to the same numbers. */
const writes: ((store: Store) => Promise<unknown>)[] = [
	(store) => createRun(store, { id: 'a', document, who }),
	(store) => createRun(store, { id: 'b', document, who }),
	(store) => rename(store, 'e1', 1, 'Q7'),
	(store) => appendLog(store, 'b', [entry], who),
	(store) => restoreVersion(store, 'b', 1, { id: 'r1', who }),
	(store) => setDeleted(store, 'a', true, { id: 'd1', who }),
	(store) => setDeleted(store, 'a', false, { id: 'd2', who }),
	(store) =>
		store.db.updateTable('log').set({ received: '2026-11-27T09:00:00.000Z' }).where('id', '=', 'l').execute(),
	(store) =>
		store.db
			.updateTable('run')
			.set({ updated: '2026-11-27T09:00:00.000Z', document: JSON.stringify(document) })
			.where('id', '=', 'b')
			.execute()
];

test.each(engines)(
	'marks on %s are others after every write, whoever made it, and only then',
	async (engine) => {
		const [one, other] = await pairOn(engine);
		const seen = new Set([(await marksOf(one)).all]);
		for (const [n, write] of writes.entries()) {
			await write(n % 2 === 0 ? one : other);
			const { all } = await marksOf(one);
			expect(seen).not.toContain(all);
			expect((await marksOf(other)).all).toBe(all);
			await one.db.selectFrom('run').selectAll().execute();
			expect((await marksOf(one)).all).toBe(all);
			seen.add(all);
		}
	}
);

test.each(engines)(
	'a run taken off and one made between two looks are not taken for nothing on %s',
	async (engine) => {
		const [one, other] = await pairOn(engine);
		await createRun(one, { id: 'a', document, who });
		await dayRound(one);
		await setDeleted(other, 'a', true, { id: 'd', who });
		await createRun(other, { id: 'b', document: { ...document, tank: { name: 'Q7' } }, who });
		expect((await dayRound(one)).tanks.map(({ run, tank }) => [run, tank])).toEqual([['b', 'Q7']]);
	}
);

test.each(engines)(
	'whoever looks at either server after a write was answered sees it on %s, while all write at once',
	async (engine) => {
		const pair = await pairOn(engine);
		await createRun(pair[0], { id: 'b', document, who });
		let acknowledged = 1;
		// two connections of one process would wait for each other's lock on the file for ever
		const writers = engine === 'postgres' ? pair : [pair[0]];
		const write = async (store: Store, hand: number) => {
			for (let n = 0; n < 6; n++) {
				const saved = await rename(store, `h${hand}-${n}`, acknowledged, `Q${hand}-${n}`);
				if (saved.kind === 'saved') acknowledged = Math.max(acknowledged, saved.version);
			}
		};
		const looked: { known: number; shown: string }[] = [];
		const look = async (store: Store) => {
			for (let n = 0; n < 12; n++) {
				const known = acknowledged;
				looked.push({ known, shown: (await dayRound(store)).tanks[0]?.tank ?? '' });
			}
		};
		const hands = [0, 1, 2, 3].map((hand) => write(writers[hand % writers.length] ?? pair[0], hand));
		await Promise.all([...hands, ...pair.map(look)]);
		const saves = await pair[0].db
			.selectFrom('edit')
			.select(['version', 'edits'])
			.where('run', '=', 'b')
			.orderBy('version')
			.execute();
		const versionOf = new Map(
			saves.flatMap(({ version, edits }) =>
				(JSON.parse(edits) as { to: string }[]).map(({ to }) => [to, version] as const)
			)
		);
		versionOf.set('Q1', 1);
		for (const { known, shown } of looked) expect(versionOf.get(shown)).toBeGreaterThanOrEqual(known);
		expect(looked.length).toBe(24);
		expect(new Set(looked.map(({ shown }) => shown)).size).toBeGreaterThan(1);
	}
);
