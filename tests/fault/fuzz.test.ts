import { rmSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { accessTable } from '../../src/lib/server/index.ts';
import { newFolder, startApp, type App } from '../built-app.ts';

/*
 * Seeded nonsense over the boundaries that take text from outside. Nothing may crash, answer 5xx, leak a stack
 * trace, or change the store by an answer that was not a success. The routes are those of the table of access: one
 * that takes something needs a line below, what it would take if all were well.
 */
const inputs = Number(process.env.FUZZ_INPUTS ?? 10_000);
const document = {
	format: 'lazaret-plan/1',
	name: 'Fuzz',
	timeZone: 'UTC',
	tank: { net: '100 L', pH: 8.1 },
	phases: [{ id: 'a', kind: 'observe', starts: 'on 2027-01-01', lasts: '3 d' }]
};
const entry = { id: 'x', at: '2027-01-01T08:00:00Z', kind: 'reading', what: 'NH3', value: '0.1 mg/L' };
// a port that nothing listens on: what looks like an address is asked, and answers at once
const login = { server: 'http://127.0.0.1:9/dav', user: 'u', password: 'p' };
const bytes = (...first: number[]) => String.fromCharCode(...first, ...Array<number>(60).fill(7));

/** JSON by route; a string is a body as it is, a list the fields of a form, behind the name of its action. */
const bodies: Record<string, unknown> = {
	'POST /api/calendars/accounts': { ...login, create: 'c', scope: {} },
	'POST /api/calendars/accounts/[id]': { act: 'sync', agreed: 'delete' },
	'POST /api/calendars/look': login,
	'POST /api/calendars/proposals/[id]': { accept: true },
	'POST /api/courses': { id: 'c', name: 'c', phases: document.phases },
	'POST /api/demo': {},
	'POST /api/feeds': { name: 'f', scope: { run: 'r', kinds: ['dose'], per: 'task', alarms: { dose: 15 } } },
	'POST /api/feeds/[id]': {},
	'POST /api/import': { format: 'lazaret-all/1', exported: '2027-01-01T00:00:00Z', runs: [] },
	'PUT /api/photos/[id]': bytes(0xff, 0xd8, 0xff, 0xe0),
	'POST /api/runs': { id: 'fuzz', document },
	'PATCH /api/runs/[id]': { id: 'd', deleted: false },
	'POST /api/runs/[id]/edits': {
		id: 'e',
		base: 1,
		edits: [{ path: ['phases', 0, 'lasts'], to: '4 d', was: '3 d' }]
	},
	'POST /api/runs/[id]/log': { entries: [entry] },
	'POST /api/runs/[id]/restore': { id: 'b', version: 1 },
	'POST /api/runs/[id]/slips': {
		id: 'w',
		at: '2026-11-20T08:00:00Z',
		task: 'a/observe/1',
		taken: 'now',
		shown: { release: null, danger: null, edits: [] }
	},
	'POST /enter': ['enter', { name: 'nobody', passphrase: 'wrong' }],
	'POST /people': ['role', { person: 'nobody', role: 'viewer' }],
	'POST /people/me': ['passphrase', { old: 'wrong', fresh: 'tide tables and kelp' }],
	'POST /runs/[id]/history': ['', { act: 'a', version: '1' }]
};

const routes = Object.entries(accessTable).flatMap(([path, row]) =>
	Object.keys(row).map((method) => ({ method, path, key: `${method} ${path}` }))
);
const reading = routes.filter(({ method }) => method === 'GET');
const writing = routes.filter(({ key }) => key in bodies);
const queries = ['limit', 'before', 'version', 'since', 'deleted', 'run', 'to', 'task', 'kinds', 'tank'];

test('no route that takes something is left out', () => {
	const taking = routes.filter(({ method }) => method !== 'GET' && method !== 'DELETE');
	expect(taking.map(({ key }) => key).filter((key) => !(key in bodies))).toEqual([]);
	expect(Object.keys(bodies).filter((key) => !routes.some((route) => route.key === key))).toEqual([]);
});

const nasty = fc.oneof(
	fc.constantFrom<unknown>(
		null,
		true,
		-0,
		1e308,
		-1,
		0.5,
		'',
		'\u0000',
		'\ud800',
		'🐠'.repeat(50),
		'__proto__',
		'../..',
		'=1+1',
		[],
		{},
		'NaN'
	),
	fc.string({ unit: 'binary', maxLength: 60 }),
	fc.jsonValue({ maxDepth: 4 }),
	fc.integer(),
	fc.string({ maxLength: 5000, minLength: 4000 })
);
type Step = { at: number; how: 'replace' | 'remove' | 'add' | 'wrap'; value: unknown };
const steps = fc.array(
	fc.record<Step>({
		at: fc.nat(200),
		how: fc.constantFrom('replace', 'remove', 'add', 'wrap'),
		value: nasty
	}),
	{ minLength: 1, maxLength: 4 }
);

/** Every place in a JSON value, as its holder and key. */
function places(
	value: unknown,
	found: [Record<string, unknown>, string][] = []
): [Record<string, unknown>, string][] {
	if (typeof value !== 'object' || value === null) return found;
	for (const key of Object.keys(value)) {
		found.push([value as Record<string, unknown>, key]);
		places((value as Record<string, unknown>)[key], found);
	}
	return found;
}

function spoil(body: unknown, changes: readonly Step[]): unknown {
	const copy: unknown = structuredClone(body);
	for (const { at, how, value } of changes) {
		const all = places(copy);
		const [holder, key] = all[at % all.length] ?? [];
		if (!holder || key === undefined) return value;
		if (how === 'remove') delete holder[key];
		else if (how === 'add') holder[`k${at}`] = value;
		else holder[key] = how === 'wrap' ? [holder[key], value] : value;
	}
	return copy;
}

/** A request as it goes out. */
interface Asked {
	method: string;
	path: string;
	type: string;
	body: string | Uint8Array<ArrayBuffer> | null;
}

/** Places in an address: mostly what is there, else nonsense. */
const filled = (path: string, noise: string) =>
	path.replace(/\[[^\]]+\]/g, () =>
		noise === '' ? (path.includes('version') ? '1' : 'r') : encodeURIComponent(noise.toWellFormed())
	);
const noise = (maxLength: number) => fc.string({ unit: 'binary', maxLength });
const mostlyRight = fc.oneof({ weight: 4, arbitrary: fc.constant('') }, { weight: 1, arbitrary: noise(30) });

/** A body with changes made to it, or cut short with something stuck on. */
function bodyOf(sample: unknown, changes: readonly Step[], cut: number | null, tail: string) {
	if (typeof sample === 'string') {
		const raw = Buffer.from(sample, 'latin1');
		return {
			type: 'image/jpeg',
			body: Uint8Array.from(Buffer.concat([raw.subarray(cut ?? 2), Buffer.from(tail)]))
		};
	}
	if (Array.isArray(sample)) {
		const fields = spoil(sample[1], changes);
		const text = typeof fields === 'object' && fields !== null ? Object.entries(fields) : [];
		const form = new URLSearchParams(text.map(([name, value]): [string, string] => [name, String(value)]));
		return { type: 'application/x-www-form-urlencoded', body: form.toString() };
	}
	const text =
		cut === null ? JSON.stringify(spoil(sample, changes)) : JSON.stringify(sample).slice(0, cut) + tail;
	return { type: 'application/json', body: text };
}

const write = fc
	.tuple(fc.constantFrom(...writing), mostlyRight, steps, fc.option(fc.nat(300), { freq: 8 }), noise(8))
	.map(([{ method, path, key }, place, changes, cut, tail]): Asked => {
		const sample = bodies[key];
		const action = Array.isArray(sample) && sample[0] ? `?/${sample[0]}` : '';
		const query = key.includes('photos') ? '?run=r' : action;
		return { method, path: filled(path, place) + query, ...bodyOf(sample, changes, cut, tail) };
	});

const read = fc
	.tuple(fc.constantFrom(...reading), mostlyRight, fc.constantFrom(...queries), noise(30))
	.map(([{ method, path }, place, name, value]): Asked => ({
		method,
		path: `${filled(path, place)}?${name}=${encodeURIComponent(value.toWellFormed())}`,
		type: 'text/plain',
		body: null
	}));

const request = fc.oneof({ weight: 9, arbitrary: write }, { weight: 2, arbitrary: read });

const everything = async (app: App) => {
	const { runs } = (await (await fetch(`${app.url}/api/export`)).json()) as { runs: unknown };
	return JSON.stringify(runs);
};

test(`${inputs} seeded inputs: no crash, no 5xx, no change of the store by what was refused`, async () => {
	const app = await startApp(newFolder(), { LAZARET_BACKUPS: '0' });
	const post = (path: string, body: unknown) =>
		fetch(app.url + path, {
			method: 'POST',
			headers: { 'content-type': 'application/json' },
			body: JSON.stringify(body)
		});
	await post('/api/runs', { id: 'r', document });
	const seen = new Map<number, number>();
	let before = await everything(app);
	let accepted = false;
	let asked = 0;
	await fc.assert(
		fc.asyncProperty(request, async ({ method, path, type, body }) => {
			// a form is taken from a page of the app alone
			const headers = { 'content-type': type, origin: app.url, accept: 'text/html, application/json' };
			const go = () => fetch(app.url + path, { method, headers, body, redirect: 'manual' });
			// a connection that idled may be closed just as it is taken again; an app that fell fails the second time too
			const answer = await go().catch(go);
			const text = await answer.text();
			seen.set(answer.status, (seen.get(answer.status) ?? 0) + 1);
			expect(answer.status, `${method} ${path} ${String(body).slice(0, 2000)}`).toBeLessThan(500);
			if (answer.status >= 400) expect(text).not.toMatch(/node_modules|\.js:\d+:\d+/);
			accepted ||= method !== 'GET' && answer.status < 400;
			// what was refused since the last look has changed nothing
			if (++asked % 50 !== 0) return;
			const after = await everything(app);
			if (!accepted) expect(after).toBe(before);
			before = after;
			accepted = false;
		}),
		{ seed: 20261125, numRuns: inputs, endOnFailure: true }
	);
	console.log(
		`answers: ${[...seen]
			.sort(([a], [b]) => a - b)
			.map(([status, count]) => `${status} x ${count}`)
			.join(', ')}`
	);
	expect((seen.get(422) ?? 0) + (seen.get(400) ?? 0)).toBeGreaterThan(inputs / 4);
	await app.stop();
	rmSync(app.folder, { recursive: true });
});

/** How pictures begin: ITU-T T.81 annex B (JPEG), PNG specification 5.2. What is told by its bytes is no picture else. */
const begin: Record<string, [status: number, bytes: Uint8Array<ArrayBuffer>]> = {
	'a JPEG': [201, Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0, 16)],
	'the first half of how a JPEG begins': [422, Uint8Array.of(0xff, 0xd8)],
	'a PNG cut short in its first eight bytes': [422, Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d)],
	nothing: [422, new Uint8Array(0)],
	'an SVG called JPEG': [
		422,
		new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>')
	],
	'a page called JPEG': [422, new TextEncoder().encode('<!doctype html><script>alert(1)</script>')],
	'a page behind one byte': [422, new TextEncoder().encode('\u00ff<html><script>alert(1)</script>')],
	'a GIF': [422, new TextEncoder().encode('GIF89a......')],
	'a JPEG of more than 2 MB': [
		413,
		Uint8Array.from({ length: 2_000_001 }, (_, i) => [0xff, 0xd8, 0xff][i] ?? 0)
	]
};

test('an upload is told by its bytes and its size, whatever it is called', async () => {
	const app = await startApp(newFolder(), { LAZARET_BACKUPS: '0' });
	const run = { id: 'r', document };
	const json = { 'content-type': 'application/json' };
	await fetch(`${app.url}/api/runs`, { method: 'POST', headers: json, body: JSON.stringify(run) });
	for (const [n, [name, [status, body]]] of Object.entries(begin).entries()) {
		const path = `${app.url}/api/photos/p${n}`;
		const headers = { 'content-type': 'image/jpeg' };
		const answer = await fetch(`${path}?run=r`, { method: 'PUT', headers, body });
		expect([name, answer.status]).toEqual([name, status]);
		const back = await fetch(path);
		expect([name, back.status]).toEqual([name, status === 201 ? 200 : 404]);
		if (status !== 201) continue;
		expect(back.headers.get('content-type')).toBe('image/jpeg');
		expect(back.headers.get('x-content-type-options')).toBe('nosniff');
		expect(back.headers.get('content-security-policy')).toContain('sandbox');
	}
	await app.stop();
	rmSync(app.folder, { recursive: true });
});
