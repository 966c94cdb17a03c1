import { mkdirSync } from 'node:fs';
import { isIP } from 'node:net';
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

const hostName = /^(?=.{1,253}$)[a-z0-9](?:[a-z0-9-]*[a-z0-9])?(?:\.[a-z0-9](?:[a-z0-9-]*[a-z0-9])?)*$/i;

/**
 * Where the app listens: `HOST` and `PORT`; or one sentence about the first variable that cannot be understood.
 * An address that others can reach also asks for a passphrase, which only the store knows of.
 */
export function listenAddress(env: Environment): { host: string; port: number } | { refused: string } {
	const refused = wrongVariable(env);
	if (refused !== null) return { refused };
	return { host: (env.HOST || '127.0.0.1').replace(/^\[|\]$/g, ''), port: Number(env.PORT || 4173) };
}

function wrongVariable(env: Environment): string | null {
	const { PORT = '', HOST = '', LAZARET_HOSTS = '', LAZARET_BACKUPS = '', TRUST_PROXY = '' } = env;
	if (PORT !== '' && !(/^\d{1,5}$/.test(PORT) && Number(PORT) <= 65_535))
		return seen('PORT', PORT, 'a whole number from 0 to 65535');
	if (HOST !== '' && !isIP(HOST.replace(/^\[|\]$/g, '')) && !hostName.test(HOST))
		return seen('HOST', HOST, 'an address of this machine, such as 127.0.0.1 or 0.0.0.0');
	const odd = LAZARET_HOSTS.split(',').find(
		(name) => name.trim() && !isIP(name.trim()) && !hostName.test(name.trim())
	);
	if (odd !== undefined)
		return seen('LAZARET_HOSTS', odd, 'names without scheme or port, separated by commas');
	if (LAZARET_BACKUPS !== '' && !/^\d{1,4}$/.test(LAZARET_BACKUPS))
		return seen('LAZARET_BACKUPS', LAZARET_BACKUPS, 'how many days are kept, a whole number from 0 to 9999');
	if (!['', '0', '1'].includes(TRUST_PROXY)) return seen('TRUST_PROXY', TRUST_PROXY, '1, 0 or nothing');
	return null;
}

const seen = (name: string, value: string, expected: string) =>
	`${name}: saw ${value.replace(/[\p{Cc}\u2028\u2029]+/gu, ' ').slice(0, 80)}, expected ${expected}`;

/** True for names and addresses that only this machine can reach. */
export function isLoopback(host: string): boolean {
	const bare = host.replace(/^\[|\]$/g, '').toLowerCase();
	return bare === 'localhost' || bare === '::1' || /^127(\.\d{1,3}){3}$/.test(bare);
}
