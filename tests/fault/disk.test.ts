import { execFileSync } from 'node:child_process';
import { mkdirSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { DatabaseSync } from 'node:sqlite';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { newFolder, startApp } from '../built-app.ts';
import { makeRun, missing, nothing, storm } from './storm.ts';

/** A file system of its own in memory, `megabytes` large; needs root, as CI has. */
function smallDisk(megabytes: number): string {
	const folder = newFolder();
	execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${megabytes}m`, 'tmpfs', folder]);
	onTestFinished(() => {
		execFileSync('umount', ['-l', folder]);
		rmSync(folder, { recursive: true });
	});
	return folder;
}

const json = { 'content-type': 'application/json' };
const log = (url: string, id: string) =>
	fetch(`${url}/api/runs/r/log`, {
		method: 'POST',
		headers: json,
		body: JSON.stringify({
			entries: [{ id, at: '2026-11-30T08:00:00Z', kind: 'topoff', litres: '1 L', note: 'x'.repeat(3000) }]
		})
	});

test('a disk that fills up: told plainly, nothing lost, and it goes on when there is room', async () => {
	const folder = smallDisk(4);
	const app = await startApp(folder, { LAZARET_BACKUPS: '0' });
	onTestFinished(() => app.stop());
	await makeRun(app.url, 'r');
	const seen = nothing();
	const ballast = join(folder, 'ballast');
	const { bavail, bsize } = statfsSync(folder);
	writeFileSync(ballast, Buffer.alloc(Math.max(0, bavail * bsize - 300_000)));
	let refused: Response | null = null;
	for (let n = 0; n < 2000 && !refused; n++) {
		const answer = await log(app.url, `e${n}`);
		if (answer.ok) seen.entries.add(`e${n}`);
		else refused = answer;
	}
	expect(refused?.status).toBe(503);
	expect(await refused?.json()).toEqual({
		error: { code: 'disk-full', message: 'The disk is full. Nothing was saved; make room and try again.' }
	});
	expect(seen.entries.size).toBeGreaterThan(0);
	expect((await fetch(`${app.url}/api/runs/r`)).status).toBe(200);
	rmSync(ballast);
	expect((await log(app.url, 'after')).status).toBe(200);
	seen.entries.add('after');
	expect(await missing(app.url, 'r', seen)).toEqual([]);
});

test('a disk that is full at start: one sentence', async () => {
	const folder = smallDisk(1);
	writeFileSync(join(folder, 'ballast'), Buffer.alloc(1024 * 1024 - 8192));
	await expect(startApp(folder)).rejects.toThrow(/lazaret: [^\n]*(disk is full|may be full)[^\n]*\n$/);
});

test('a folder that is read-only: told plainly at start, and all is there when it may be written again', async () => {
	const folder = smallDisk(8);
	const data = join(folder, 'data');
	mkdirSync(data);
	const app = await startApp(data, { LAZARET_BACKUPS: '0' });
	await makeRun(app.url, 'r');
	expect((await log(app.url, 'a')).status).toBe(200);
	await app.stop();
	execFileSync('mount', ['-o', 'remount,ro', folder]);
	await expect(startApp(data)).rejects.toThrow(/lazaret: [^\n]*cannot be (written|made)[^\n]*\n$/);
	execFileSync('mount', ['-o', 'remount,rw', folder]);
	const again = await startApp(data, { LAZARET_BACKUPS: '0' });
	const seen = nothing();
	seen.entries.add('a');
	expect(await missing(again.url, 'r', seen)).toEqual([]);
	await again.stop();
});

test('a page torn out of the file: the app refuses to start and names the way back', async () => {
	const folder = newFolder();
	const app = await startApp(folder);
	await makeRun(app.url, 'r');
	const seen = nothing();
	await storm(app.url, 'r', 0, 800, seen);
	await app.stop();
	const path = join(folder, 'lazaret.sqlite');
	const file = new DatabaseSync(path);
	file.exec('pragma wal_checkpoint(truncate)');
	file.close();
	execFileSync('dd', [
		'if=/dev/urandom',
		`of=${path}`,
		'bs=4096',
		'seek=3',
		'count=2',
		'conv=notrunc',
		'status=none'
	]);
	await expect(startApp(folder)).rejects.toThrow(
		/lazaret: the data in [^\n]* is damaged [^\n]*restore BACKUP[^\n]*\n$/
	);
	rmSync(folder, { recursive: true });
});

test('a clock set back a day: nothing is lost, and history keeps its order', async () => {
	const folder = newFolder();
	const app = await startApp(folder, { LAZARET_BACKUPS: '0' });
	await makeRun(app.url, 'r');
	const seen = nothing();
	await storm(app.url, 'r', 0, 400, seen);
	await app.stop();
	const library = execFileSync('bash', ['-c', 'ls /usr/lib/*/faketime/libfaketime.so.1'], {
		encoding: 'utf8'
	}).trim();
	const back = await startApp(folder, {
		LAZARET_BACKUPS: '0',
		LD_PRELOAD: library,
		FAKETIME: '-1d',
		FAKETIME_DONT_FAKE_MONOTONIC: '1'
	});
	await storm(back.url, 'r', 1, 400, seen);
	expect(await missing(back.url, 'r', seen)).toEqual([]);
	const { history } = (await (await fetch(`${back.url}/api/runs/r/history?limit=1000`)).json()) as {
		history: { version: number; at: string }[];
	};
	const versions = history.map((row) => row.version);
	expect(versions).toEqual(versions.toSorted((a, b) => b - a));
	// the clock really was set back: the latest save is dated before the first
	expect(Date.parse(history[0]?.at ?? '')).toBeLessThan(Date.parse(history.at(-1)?.at ?? ''));
	await back.stop();
	rmSync(folder, { recursive: true });
});
