import { randomBytes } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { KeyTrouble, keyFile, seal, unseal } from './caldav-key.ts';

function freshFolder(): string {
	const folder = mkdtempSync(join(tmpdir(), 'lazaret-key-'));
	onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
	return folder;
}

const secret = 'salt and water — 潮';

test('a password comes back with its key, and stands nowhere in what is kept', () => {
	const folder = freshFolder();
	const sealed = seal(secret, 'a', folder, {});
	expect(Buffer.from(sealed, 'base64').toString()).not.toContain('salt');
	expect(unseal(sealed, 'a', folder, {})).toBe(secret);
	expect(seal(secret, 'a', folder, {})).not.toBe(sealed);
	const key = keyFile(folder, {});
	expect(statSync(key).mode & 0o777).toBe(0o600);
	expect(Buffer.from(readFileSync(key, 'utf8'), 'base64')).toHaveLength(32);
});

test('a changed byte, another owner or another key opens nothing', () => {
	const folder = freshFolder();
	const sealed = seal(secret, 'a', folder, {});
	const bytes = Buffer.from(sealed, 'base64');
	for (const at of [0, 13, 30]) {
		const broken = Buffer.from(bytes);
		broken[at] = (broken[at] ?? 0) ^ 1;
		expect(() => unseal(broken.toString('base64'), 'a', folder, {})).toThrow(KeyTrouble);
	}
	expect(() => unseal(sealed, 'b', folder, {})).toThrow(/another key/);
	writeFileSync(keyFile(folder, {}), randomBytes(32).toString('base64'));
	expect(() => unseal(sealed, 'a', folder, {})).toThrow(/another key: put that key back, or type/);
});

test('a missing key is one plain sentence, and is not replaced behind the keeper’s back', () => {
	const folder = freshFolder();
	const sealed = seal(secret, 'a', folder, {});
	rmSync(keyFile(folder, {}));
	expect(() => unseal(sealed, 'a', folder, {})).toThrow(
		`The key that unlocks stored passwords is missing: ${keyFile(folder, {})} is not there. Put it back, or type the password again.`
	);
	expect(() => statSync(keyFile(folder, {}))).toThrow();
});

test('the key may come from a file elsewhere, or from the environment', () => {
	const [folder, other] = [freshFolder(), freshFolder()];
	const file = { LAZARET_KEY_FILE: join(other, 'key') };
	const sealed = seal(secret, 'a', folder, file);
	expect(unseal(sealed, 'a', folder, file)).toBe(secret);
	expect(() => statSync(keyFile(folder, {}))).toThrow();
	const env = { LAZARET_KEY: readFileSync(file.LAZARET_KEY_FILE, 'utf8') };
	expect(unseal(sealed, 'a', folder, env)).toBe(secret);
	expect(() => seal(secret, 'a', folder, { LAZARET_KEY: 'short' })).toThrow(
		'LAZARET_KEY holds no key: expected 32 bytes in base64.'
	);
	expect(() => seal(secret, 'a', folder, { LAZARET_KEY_FILE: join(other, 'no', 'key') })).toThrow(
		/cannot be written \(ENOENT\): nothing was stored/
	);
});
