import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { isAbsolute, join, resolve } from 'node:path';

type Environment = Record<string, string | undefined>;

/**
 * The folder the data lives in: `LAZARET_DATA`, else the platform's usual place for an application's data.
 * Only names it; `makeDataFolder` creates it.
 */
export function dataFolder(env: Environment, platform: NodeJS.Platform = process.platform): string {
	if (env.LAZARET_DATA) return resolve(env.LAZARET_DATA);
	const home = homedir();
	if (platform === 'win32') return join(env.LOCALAPPDATA ?? join(home, 'AppData', 'Local'), 'Lazaret');
	if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Lazaret');
	// the XDG base directory rules: a relative path in the variable counts as unset
	const base =
		env.XDG_DATA_HOME && isAbsolute(env.XDG_DATA_HOME) ? env.XDG_DATA_HOME : join(home, '.local', 'share');
	return join(base, 'lazaret');
}

/** Creates the folder, readable by its owner only. Throws an error whose message is one plain sentence. */
export function makeDataFolder(folder: string): void {
	try {
		mkdirSync(folder, { recursive: true, mode: 0o700 });
	} catch (error) {
		const code = (error as NodeJS.ErrnoException).code ?? 'unknown error';
		throw new Error(
			`the data folder ${folder} cannot be made (${code}): set LAZARET_DATA to a folder you may write to`,
			{
				cause: error
			}
		);
	}
}

/** Where the app listens: `HOST` and `PORT`, or one sentence that says what is wrong with them. */
export function listenAddress(env: Environment): { host: string; port: number } | { refused: string } {
	const host = env.HOST || '127.0.0.1';
	const port = Number(env.PORT || 4173);
	if (!Number.isInteger(port) || port < 0 || port > 65535) {
		return { refused: `PORT: saw ${env.PORT}, expected a whole number from 0 to 65535` };
	}
	if (!isLoopback(host)) {
		return {
			refused: `HOST: saw ${host}, expected 127.0.0.1, ::1 or localhost: without a passphrase this app only answers on the machine it runs on`
		};
	}
	return { host, port };
}

/** True for names and addresses that only this machine can reach. */
export function isLoopback(host: string): boolean {
	const bare = host.replace(/^\[|\]$/g, '').toLowerCase();
	return bare === 'localhost' || bare === '::1' || /^127(\.\d{1,3}){3}$/.test(bare);
}
