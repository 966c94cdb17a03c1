import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

type Environment = Record<string, string | undefined>;

/** Something stands between the app and a stored password; its message is the sentence for the keeper. */
export class KeyTrouble extends Error {}

/** Where the key that locks stored passwords stands: `LAZARET_KEY_FILE`, else a file in the data folder. */
export const keyFile = (folder: string, env: Environment): string =>
	env.LAZARET_KEY_FILE || join(folder, 'calendar.key');

const keyBytes = 32;

/**
 * The key: `LAZARET_KEY` (base64), else the key file. It never stands in the database or a backup. `make` writes a
 * new file, for its owner only, where there is none; without it a missing key is trouble.
 */
function keyOf(folder: string, env: Environment, make: boolean): Buffer {
	if (env.LAZARET_KEY) return checked(Buffer.from(env.LAZARET_KEY, 'base64'), 'LAZARET_KEY');
	const path = keyFile(folder, env);
	try {
		return checked(Buffer.from(readFileSync(path, 'utf8').trim(), 'base64'), path);
	} catch (error) {
		if (error instanceof KeyTrouble) throw error;
		const { code = 'unknown error' } = error as NodeJS.ErrnoException;
		if (code !== 'ENOENT') throw new KeyTrouble(`The key file ${path} cannot be read (${code}).`);
		if (!make) {
			throw new KeyTrouble(
				`The key that unlocks stored passwords is missing: ${path} is not there. Put it back, or type the password again.`
			);
		}
		return madeKey(path, folder, env);
	}
}

function checked(key: Buffer, place: string): Buffer {
	if (key.length === keyBytes) return key;
	throw new KeyTrouble(`${place} holds no key: expected ${keyBytes} bytes in base64.`);
}

function madeKey(path: string, folder: string, env: Environment): Buffer {
	const key = randomBytes(keyBytes);
	try {
		writeFileSync(path, `${key.toString('base64')}\n`, { mode: 0o600, flag: 'wx' });
		return key;
	} catch (error) {
		const { code = 'unknown error' } = error as NodeJS.ErrnoException;
		// another request made it a moment ago
		if (code === 'EEXIST') return keyOf(folder, env, false);
		throw new KeyTrouble(`The key file ${path} cannot be written (${code}): nothing was stored.`);
	}
}

/** Locks a text (AES-256-GCM). `owner` is bound into it: a row copied to another owner does not open. */
export function seal(text: string, owner: string, folder: string, env: Environment = process.env): string {
	const nonce = randomBytes(12);
	const cipher = createCipheriv('aes-256-gcm', keyOf(folder, env, true), nonce);
	cipher.setAAD(Buffer.from(owner));
	const locked = Buffer.concat([cipher.update(text, 'utf8'), cipher.final()]);
	return Buffer.concat([nonce, cipher.getAuthTag(), locked]).toString('base64');
}

/** Opens what `seal` locked. Throws `KeyTrouble` when the key is missing or another one. */
export function unseal(
	sealed: string,
	owner: string,
	folder: string,
	env: Environment = process.env
): string {
	const key = keyOf(folder, env, false);
	const bytes = Buffer.from(sealed, 'base64');
	try {
		const decipher = createDecipheriv('aes-256-gcm', key, bytes.subarray(0, 12));
		decipher.setAAD(Buffer.from(owner));
		decipher.setAuthTag(bytes.subarray(12, 28));
		return Buffer.concat([decipher.update(bytes.subarray(28)), decipher.final()]).toString('utf8');
	} catch {
		throw new KeyTrouble(
			'The stored password was locked with another key: put that key back, or type the password again.'
		);
	}
}
