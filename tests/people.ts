import { DatabaseSync } from 'node:sqlite';
import { join } from 'node:path';
import { randomBytes, randomUUID, scryptSync } from 'node:crypto';

/** What everybody of a test enters with. */
export const passphrase = 'tide tables and kelp';

/** Names people in the data folder of an app, as its command line would but at the least cost of the hash. */
export function namePeople(folder: string, people: Record<string, 'keeper' | 'helper' | 'viewer'>): void {
	const file = new DatabaseSync(join(folder, 'lazaret.sqlite'), { timeout: 5000 });
	const add = file.prepare(
		'insert into person (id, name, folded, role, pass, created) values (?, ?, ?, ?, ?, ?)'
	);
	for (const [name, role] of Object.entries(people)) {
		const salt = randomBytes(16);
		const key = scryptSync(passphrase, salt, 32, { N: 2, r: 8, p: 1 });
		const pass = ['scrypt', 2, 8, 1, salt.toString('base64url'), key.toString('base64url')].join('$');
		add.run(randomUUID(), name, name.toLowerCase(), role, pass, new Date().toISOString());
	}
	file.close();
}

/** Enters as a page's form would; the answer's cookie, ready to be sent, or what was said instead. */
export async function enterAs(
	url: string,
	name: string,
	given = passphrase
): Promise<{ cookie: string; answer: Response }> {
	const answer = await fetch(`${url}/enter?/enter&to=/runs`, {
		method: 'POST',
		headers: { origin: url, accept: 'text/html', 'content-type': 'application/x-www-form-urlencoded' },
		body: new URLSearchParams({ name, passphrase: given }),
		redirect: 'manual'
	});
	return { cookie: (answer.headers.get('set-cookie') ?? '').split(';')[0] ?? '', answer };
}
