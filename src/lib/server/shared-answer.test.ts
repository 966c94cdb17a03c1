import { randomBytes } from 'node:crypto';
import { expect, test } from 'vitest';
import { freshStore } from './fresh-store.ts';
import { appendLog, createRun, sharedAnswer, type Store } from './index.ts';

const document = { format: 'lazaret-plan/1', name: 'Trial', tank: { net: '100 L' } };
const who = 'ada';

/** A store whose clock stands, with one run. */
async function standing(): Promise<Store> {
	const store = { ...(await freshStore('sqlite')), now: () => '2026-11-27T08:30:10.000Z' };
	await createRun(store, { id: 'a', document, who });
	return store;
}
const write = (store: Store, id: string) =>
	appendLog(store, 'a', [{ id, at: '2026-11-27T08:00:00Z', kind: 'topoff', litres: '1 L' }], who);

type Make = Parameters<typeof sharedAnswer>[1];
const ask = (store: Store, alike: string, make: Make, encoding = 'identity') =>
	sharedAnswer(
		{ store, alike, request: new Request('http://a/', { headers: { 'accept-encoding': encoding } }) },
		make
	);

/** Answers with how many times it was asked to. */
function counting(init: ResponseInit = {}) {
	let made = 0;
	const make: Make = async () => new Response(`number ${++made}`, init);
	return make;
}

/** A page as the app makes it, by its nonce. */
const pageWith =
	(nonce: string, html: string): Make =>
	async (take) =>
		new Response(take(html), {
			headers: { 'content-security-policy': `script-src 'self' 'nonce-${nonce}'`, etag: '"old"' }
		});

test('is made once for all who ask alike at once, and apart for those who do not', async () => {
	const store = await standing();
	const make = counting();
	const said = await Promise.all(
		['ada', 'ada', 'ben', 'ada', 'ben'].map(async (alike) => (await ask(store, alike, make)).text())
	);
	expect(said).toEqual(['number 1', 'number 1', 'number 2', 'number 1', 'number 2']);
	expect(await (await ask(store, 'ada', make)).text()).toBe('number 1');
});

test('is made anew after every write, and in the next minute', async () => {
	const store = await standing();
	const make = counting();
	const said = async (one: Store) => (await ask(one, 'ada', make)).text();
	expect(await said(store)).toBe('number 1');
	await write(store, 'l1');
	expect(await said(store)).toBe('number 2');
	expect(await said(store)).toBe('number 2');
	const later = { ...store, now: () => '2026-11-27T08:31:00.000Z' };
	expect(await said(later)).toBe('number 3');
});

test('whoever asks after a write does not get what was begun before it; a crowd shares what comes next', async () => {
	const store = await standing();
	const { promise, resolve } = Promise.withResolvers<string>();
	const begun = Promise.withResolvers<void>();
	const slow = ask(store, 'ada', async () => (begun.resolve(), new Response(await promise)));
	await begun.promise;
	const make = counting();
	const later: Promise<Response>[] = [];
	for (const id of ['l1', 'l2', 'l3']) {
		await write(store, id);
		later.push(ask(store, 'ada', make), ask(store, 'ada', make));
	}
	expect(await (await ask(store, 'ben', make)).text()).toBe('number 1');
	resolve('before');
	expect(await (await slow).text()).toBe('before');
	const said = await Promise.all(later.map(async (answer) => (await answer).text()));
	expect(new Set(said)).toEqual(new Set(['number 2']));
});

test.each([
	['trouble', { status: 500 }],
	['a way elsewhere', { status: 303, headers: { location: '/enter' } }],
	['a cookie', { headers: { 'set-cookie': 'one=alone' } }]
])('%s is for one alone', async (_, init) => {
	const store = await standing();
	const make = counting(init);
	const answers = await Promise.all([1, 2, 3].map(() => ask(store, 'ada', make)));
	const said = await Promise.all(answers.map((answer) => answer.text()));
	expect(said.toSorted()).toEqual(['number 1', 'number 2', 'number 3']);
	expect(answers.map(({ status }) => status)).toEqual(Array(3).fill('status' in init ? init.status : 200));
});

test('what throws throws for who asked first, and the others are answered', async () => {
	const store = await standing();
	let asked = 0;
	const make: Make = async () => {
		if (++asked === 1) throw new Error('once');
		return new Response('again');
	};
	const [first, second] = await Promise.allSettled([ask(store, 'ada', make), ask(store, 'ada', make)]);
	expect(first).toMatchObject({ status: 'rejected', reason: { message: 'once' } });
	expect(second.status === 'fulfilled' && (await second.value.text())).toBe('again');
});

test('a script is let in by what it is: no nonce is given out twice', async () => {
	const store = await standing();
	const html = `<p>a</p><script nonce="n0nce">alert('Hello, world.');</script><script src="b"></script>`;
	for (const answer of [
		await ask(store, 'ada', pageWith('n0nce', html)),
		await ask(store, 'ada', pageWith('other', html))
	]) {
		// the worked example of Content Security Policy Level 2 (W3C), section 7.17.2
		expect(answer.headers.get('content-security-policy')).toBe(
			"script-src 'self' 'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='"
		);
		expect(answer.headers.get('etag')).not.toBe('"old"');
		expect(await answer.text()).toBe(html.replace(' nonce="n0nce"', ' '.repeat(' nonce="n0nce"'.length)));
	}
});

test('a page whose nonce stands on more than scripts is not shared, and stays as it is', async () => {
	const store = await standing();
	for (const nonce of ['one', 'two']) {
		const html = `<style nonce="${nonce}"></style><script nonce="${nonce}">1</script>`;
		const answer = await ask(store, 'ada', pageWith(nonce, html));
		expect(answer.headers.get('content-security-policy')).toContain(`'nonce-${nonce}'`);
		expect(await answer.text()).toBe(html);
	}
});

test('is zipped for who takes it, with a tag of its own', async () => {
	const store = await standing();
	const text = 'litres of water '.repeat(500);
	const make: Make = async () => new Response(text, { headers: { 'content-type': 'text/plain' } });
	const plain = await ask(store, 'ada', make);
	const zipped = await ask(store, 'ada', make, 'br, gzip');
	expect(plain.headers.get('content-encoding')).toBeNull();
	expect(await plain.text()).toBe(text);
	expect(zipped.headers.get('content-encoding')).toBe('gzip');
	const stream = zipped.body?.pipeThrough(new DecompressionStream('gzip'));
	expect(await new Response(stream).text()).toBe(text);
	for (const { headers } of [plain, zipped]) expect(headers.get('vary')).toBe('accept-encoding');
	expect(Number(zipped.headers.get('content-length'))).toBeLessThan(text.length / 10);
	expect(zipped.headers.get('etag')).not.toBe(plain.headers.get('etag'));
});

test('what is kept is bounded: the first answer is forgotten when there are too many', async () => {
	const store = await standing();
	const make = counting();
	await ask(store, 'first', make);
	const large: Make = async () => new Response(randomBytes(1024 * 1024).toString('base64'));
	for (let n = 0; n < 8; n++) await ask(store, `large ${n}`, large);
	expect(await (await ask(store, 'first', make)).text()).toBe('number 1');
	for (let n = 8; n < 20; n++) await ask(store, `large ${n}`, large);
	expect(await (await ask(store, 'first', make)).text()).toBe('number 2');
});
