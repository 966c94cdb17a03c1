import { execFile, execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { accessSync, constants, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { promisify } from 'node:util';

/** The Debian package of each program; a missing one fails the suite with this name. */
const packages: Record<string, string> = {
	khal: 'khal',
	todoman: 'todoman',
	vdirsyncer: 'vdirsyncer',
	radicale: 'radicale',
	xandikos: 'xandikos'
};

/** Debian's own Python: it has the packages python3-icalendar, python3-vobject, python3-gi and gir1.2-ical-3.0. */
const python = '/usr/bin/python3';

/** The path of a program. Throws, naming the package, when it is not there: a proof that was skipped is none. */
function programPath(name: string): string {
	for (const folder of ['/usr/bin', ...(process.env.PATH ?? '').split(delimiter)]) {
		const path = join(folder, name);
		try {
			accessSync(path, constants.X_OK);
			return path;
		} catch {
			continue;
		}
	}
	throw new Error(`${name} is missing: apt-get install ${packages[name] ?? name}`);
}

const execute = promisify(execFile);

/** Runs a program to its end, at most two minutes, and gives its stdout. Throws with its stderr when it fails. */
export async function run(
	name: string,
	args: readonly string[],
	env: Record<string, string> = {}
): Promise<string> {
	const { stdout } = await execute(programPath(name), args, {
		encoding: 'utf8',
		env: { ...process.env, LC_ALL: 'C.UTF-8', TZ: 'UTC', ...env },
		maxBuffer: 1e8,
		timeout: 120_000
	});
	return stdout;
}

/** What one reader saw of a file: `[uid, title, start, description]` of each event, or its complaint. */
export type Seen = [uid: string, title: string, start: string, description: string][] | string;

/** Files as python3-icalendar, python3-vobject and libical read them. */
export function readWithThree(paths: readonly string[]): Record<string, Record<string, Seen>> {
	const script = join(import.meta.dirname, 'readers.py');
	const json = execFileSync(python, [script, ...paths], { encoding: 'utf8', maxBuffer: 1e9 });
	return JSON.parse(json) as Record<string, Record<string, Seen>>;
}

/** A folder that goes with the test. */
export function folder(): { path: string; remove: () => void } {
	const path = mkdtempSync(join(tmpdir(), 'lazaret-clients-'));
	return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

export function freePort(): Promise<number> {
	return new Promise((resolve, reject) => {
		const probe = createServer();
		probe.once('error', reject);
		probe.listen(0, '127.0.0.1', () => {
			const address = probe.address();
			probe.close(() => resolve(typeof address === 'object' && address ? address.port : 0));
		});
	});
}

export interface Server {
	url: string;
	stop: () => Promise<void>;
}

/** Starts a server program and waits until it answers. */
export async function serve(name: string, args: (port: number) => string[], port?: number): Promise<Server> {
	const at = port ?? (await freePort());
	const child = spawn(programPath(name), args(at), { stdio: 'ignore', env: { ...process.env, TZ: 'UTC' } });
	const url = `http://127.0.0.1:${at}`;
	await answering(url, child);
	return { url, stop: () => stopped(child) };
}

async function answering(url: string, child: ChildProcess): Promise<void> {
	for (const end = Date.now() + 60_000; Date.now() < end;) {
		if (child.exitCode !== null) throw new Error(`the server ended with ${child.exitCode}`);
		const answer = await fetch(url, { redirect: 'manual' }).catch(() => null);
		if (answer) return;
		await new Promise((resolve) => setTimeout(resolve, 100));
	}
	child.kill();
	throw new Error(`no answer from ${url}`);
}

function stopped(child: ChildProcess): Promise<void> {
	return new Promise((resolve) => {
		if (child.exitCode !== null) return resolve();
		child.once('exit', () => resolve());
		child.kill();
	});
}
