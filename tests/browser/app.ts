import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test as base } from '@playwright/test';

/** The built app, running with a data folder of its own. */
export interface App {
	url: string;
	folder: string;
	/** ends the process and waits for it */
	stop: (signal?: NodeJS.Signals) => Promise<void>;
}

const server = join(import.meta.dirname, '../../build/server/server.js');

/** Starts the built app on a free port; resolves when it says that it is ready. */
export async function startApp(
	folder = mkdtempSync(join(tmpdir(), 'lazaret-')),
	env: NodeJS.ProcessEnv = {}
): Promise<App> {
	const child = spawn(process.execPath, [server], {
		env: { ...process.env, LAZARET_DATA: folder, HOST: '127.0.0.1', PORT: '0', DATABASE_URL: '', ...env },
		stdio: ['ignore', 'pipe', 'pipe']
	});
	const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
	const url = await firstUrl(child);
	return {
		url,
		folder,
		stop: (signal = 'SIGTERM') => {
			child.kill(signal);
			return gone;
		}
	};
}

function firstUrl(child: ChildProcess): Promise<string> {
	return new Promise((resolve, reject) => {
		let said = '';
		const listen = (data: Buffer) => {
			said += data.toString();
			const url = /ready on (http:\/\/\S+)/.exec(said)?.[1];
			if (url) resolve(url);
		};
		child.stdout?.on('data', listen);
		child.stderr?.on('data', listen);
		child.once('exit', (code) => reject(new Error(`the app ended with ${code}: ${said}`)));
	});
}

/** `test` with an app of its own, empty, as its base address. */
export const test = base.extend<{ app: App }>({
	// the runner reads which fixtures are asked for from this pattern: it has to be one
	app: async ({}, use) => {
		const app = await startApp();
		await use(app);
		await app.stop();
		rmSync(app.folder, { recursive: true, force: true });
	},
	baseURL: async ({ app }, use) => use(app.url)
});

export { expect } from '@playwright/test';
