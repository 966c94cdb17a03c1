import { execFileSync } from 'node:child_process';
import { rmSync } from 'node:fs';
import { DatabaseSync } from 'node:sqlite';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { newFolder, startApp } from '../built-app.ts';
import { freshPostgres } from './postgres.ts';
import { makeRun, missing, nothing, pause, storm } from './storm.ts';

/** How often each engine's app is killed; `npm run faults:200` for the long run. */
const kills = Number(process.env.KILLS ?? 40);
const timeout = Math.max(900_000, kills * 20_000);
const clusterScript = join(import.meta.dirname, '../../.ci/postgres');
/**
 * Waits until the storm has had some writes acknowledged, so that a slow machine is killed in its midst too, and then
 * for a moment more. Both are spread, and the same in each run of the suite; 20 s at most.
 */
async function inTheMidst(round: number, seen: ReturnType<typeof nothing>): Promise<void> {
	const wished = seen.writes + 8 + ((round * 5) % 24);
	const latest = Date.now() + 20_000;
	while (seen.writes < wished && Date.now() < latest) await pause(5);
	await pause((round * 37) % 60);
}

test(`SQLite: ${kills} kills in mid-storm lose nothing that was acknowledged`, { timeout }, async () => {
	const folder = newFolder();
	const seen = nothing();
	for (let round = 0; round < kills; round++) {
		const app = await startApp(folder, { LAZARET_BACKUPS: '0' });
		const run = `r${Math.floor(round / 10)}`;
		await makeRun(app.url, run);
		const going = storm(app.url, run, round, 25_000, seen);
		await inTheMidst(round, seen);
		await app.stop('SIGKILL');
		await going;
		await check(folder, {}, run, seen);
		if (round % 10 === 9) Object.assign(seen, { ...nothing(), writes: seen.writes });
		const file = new DatabaseSync(join(folder, 'lazaret.sqlite'));
		expect(file.prepare('pragma integrity_check').get()).toEqual({ integrity_check: 'ok' });
		file.close();
	}
	console.log(`SQLite: ${kills} kills, ${seen.writes} acknowledged writes, none lost`);
	expect(seen.writes).toBeGreaterThan(kills * 4);
	rmSync(folder, { recursive: true });
});

async function check(folder: string, env: NodeJS.ProcessEnv, run: string, seen: ReturnType<typeof nothing>) {
	const again = await startApp(folder, { LAZARET_BACKUPS: '0', ...env });
	expect(await missing(again.url, run, seen)).toEqual([]);
	await again.stop();
}

test(
	`PostgreSQL: ${kills} kills of the app, each tenth of the database, lose nothing acknowledged`,
	{ timeout },
	async () => {
		const database = await freshPostgres();
		const folder = newFolder();
		const env = { DATABASE_URL: database.url, LAZARET_BACKUPS: '0' };
		const seen = nothing();
		for (let round = 0; round < kills; round++) {
			const app = await startApp(folder, env);
			const run = `r${Math.floor(round / 10)}`;
			await makeRun(app.url, run);
			const going = storm(app.url, run, round, 25_000, seen, round % 10 === 9 ? 40 : Infinity);
			await inTheMidst(round, seen);
			// pulling the database's plug: the app has to wait for it, and go on without hands
			if (round % 10 === 9) execFileSync(clusterScript, ['restart', database.folder, 'immediate']);
			else await app.stop('SIGKILL');
			await going;
			if (round % 10 === 9) {
				const before = seen.writes;
				// the first answers wait until the database takes connections again
				await storm(app.url, run, round + kills, 8000, seen, 16);
				expect(seen.writes, app.said()).toBeGreaterThan(before);
				await app.stop('SIGKILL');
			}
			await check(folder, env, run, seen);
			if (round % 10 === 9) Object.assign(seen, { ...nothing(), writes: seen.writes });
		}
		console.log(`PostgreSQL: ${kills} kills, ${seen.writes} acknowledged writes, none lost`);
		expect(seen.writes).toBeGreaterThan(kills * 4);
		await database.drop();
		rmSync(folder, { recursive: true });
	}
);
