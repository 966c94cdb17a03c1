import { randomBytes, scrypt, timingSafeEqual, type ScryptOptions } from 'node:crypto';

/*
 * Scrypt at N = 2^15, r = 8, p = 3: one of the settings of equal strength in the OWASP Password Storage Cheat Sheet
 * (2023), and the one that asks the least memory, 32 MB, of a small machine.
 */
const cost = { N: 2 ** 15, r: 8, p: 3 };
const keyBytes = 32;

/** Shortest and longest passphrase, characters. NIST SP 800-63B (rev. 3) 5.1.1.2 asks at least 8 and at most no less than 64. */
export const passphraseLength = { least: 12, most: 200 };

/** One sentence about why a passphrase will not do, null when it will. */
export function passphraseTrouble(passphrase: string, name: string): string | null {
	const { least, most } = passphraseLength;
	const characters = [...formOf(passphrase)];
	if (characters.length < least)
		return `Saw ${characters.length} characters, expected at least ${least}: several words are easier to keep than signs.`;
	if (characters.length > most) return `Saw more than ${most} characters, expected fewer.`;
	if (new Set(characters).size < 5)
		return 'Saw the same few characters over and over, expected several words.';
	const holdsName = formOf(passphrase).toLowerCase().includes(formOf(name).toLowerCase());
	if (holdsName && characters.length - [...name].length < least)
		return 'Saw little more than the name, expected something that others do not know.';
	return null;
}

/** The same letters typed on two keyboards may come as different code points (NIST SP 800-63B 5.1.1.2: NFKC). */
const formOf = (text: string): string => text.normalize('NFKC');

/** What is kept of a passphrase: `scrypt$N$r$p$salt$key`. */
export async function hashPassphrase(passphrase: string): Promise<string> {
	const salt = randomBytes(16);
	const key = await derive(passphrase, salt, cost);
	return ['scrypt', cost.N, cost.r, cost.p, salt.toString('base64url'), key.toString('base64url')].join('$');
}

/** True when the passphrase is the one of the hash; a hash that cannot be read fits none. */
export async function fitsHash(passphrase: string, hash: string): Promise<boolean> {
	const read = /^scrypt\$(\d{1,7})\$(\d{1,2})\$(\d{1,2})\$([\w-]{22})\$([\w-]{43})$/.exec(hash);
	if (!read) return false;
	const [, N, r, p, salt = '', kept = ''] = read;
	const asked = { N: Number(N), r: Number(r), p: Number(p) };
	if (128 * asked.N * asked.r > 2 ** 28) return false;
	const key = await derive(passphrase, Buffer.from(salt, 'base64url'), asked);
	return timingSafeEqual(key, Buffer.from(kept, 'base64url'));
}

/** Spends what a right name would cost, so that the time of an answer does not tell which names there are. */
export const fitsNobody = (passphrase: string): Promise<boolean> =>
	derive(passphrase, Buffer.alloc(16), cost).then(() => false);

/** Too many are trying at once. */
export class Crowded extends Error {}

const mostWaiting = 16;
let waiting = 0;
let last: Promise<unknown> = Promise.resolve();

/** One at a time, so that a crowd of guesses costs 32 MB and one core, not the machine. */
function derive(passphrase: string, salt: Buffer, { N, r, p }: ScryptOptions): Promise<Buffer> {
	if (waiting >= mostWaiting) return Promise.reject(new Crowded('too many passphrases at once'));
	waiting++;
	const options = { N, r, p, maxmem: 2 ** 29 };
	const turn = last.then(
		() =>
			new Promise<Buffer>((resolve, reject) => {
				scrypt(formOf(passphrase), salt, keyBytes, options, (error, key) =>
					error ? reject(error) : resolve(key)
				);
			})
	);
	last = turn.catch(() => undefined).finally(() => waiting--);
	return turn;
}
