import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** The built app, running with a data folder of its own. */
export interface App {
	url: string;
	folder: string;
	pid: number;
	/** what it has said so far, on both streams */
	said: () => string;
	/** ends the process and waits for it */
	stop: (signal?: NodeJS.Signals) => Promise<void>;
}

export const serverEntry = join(import.meta.dirname, '../build/server/server.js');

/** An empty data folder; who asks removes it. */
export const newFolder = (): string => mkdtempSync(join(tmpdir(), 'lazaret-'));

/** Starts the built app on a free port; resolves when it says that it is ready, else throws what it said. */
export async function startApp(folder = newFolder(), env: NodeJS.ProcessEnv = {}): Promise<App> {
	const child = spawn(process.execPath, [serverEntry], {
		env: { ...process.env, LAZARET_DATA: folder, HOST: '127.0.0.1', PORT: '0', DATABASE_URL: '', ...env },
		stdio: ['ignore', 'pipe', 'pipe']
	});
	const output: string[] = [];
	const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
	const url = await readyUrl(child, output);
	const stop = (signal: NodeJS.Signals = 'SIGTERM') => {
		child.kill(signal);
		return gone;
	};
	return { url, folder, pid: child.pid ?? 0, said: () => output.join(''), stop };
}

function readyUrl(child: ChildProcess, output: string[]): Promise<string> {
	return new Promise((resolve, reject) => {
		const listen = (data: Buffer) => {
			output.push(data.toString());
			const url = /ready on (http:\/\/\S+)/.exec(output.join(''))?.[1];
			if (url) resolve(url);
		};
		child.stdout?.on('data', listen);
		child.stderr?.on('data', listen);
		child.once('exit', (code) => reject(new Error(`the app ended with ${code}: ${output.join('')}`)));
	});
}
