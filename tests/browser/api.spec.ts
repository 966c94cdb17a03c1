import type { APIRequestContext } from '@playwright/test';
import { expect, test } from './app.ts';

/*
 * The JSON endpoints, asked over the wire as a client would. A refusal is a 4xx with one sentence, never a 5xx, and
 * leaves the store as it was.
 */
const document = { format: 'lazaret-plan/1', name: 'Trial', phases: [{ id: 'a', lasts: '3 d' }] };
const make = (request: APIRequestContext, id = 'r1') => request.post('/api/runs', { data: { id, document } });
const state = async (request: APIRequestContext) => {
	const { runs } = (await (await request.get('/api/export')).json()) as { runs: unknown };
	return runs;
};

test('a run is made, edited, logged, looked back at, restored and exported', async ({ request }) => {
	expect((await make(request)).status()).toBe(201);
	expect((await make(request)).status()).toBe(200);
	const edits = [{ path: ['phases', 0, 'lasts'], to: '4 d' }];
	const saved = await request.post('/api/runs/r1/edits', { data: { id: 'e1', base: 1, edits } });
	expect(await saved.json()).toEqual({ version: 2, news: null });
	const entries = [{ id: '1', at: '2026-11-30T08:00:00-06:00', kind: 'missed', task: 'a/test/1' }];
	const logged = await request.post('/api/runs/r1/log', { data: { entries } });
	expect(await logged.json()).toEqual({ added: 1 });
	expect(await (await request.post('/api/runs/r1/log', { data: { entries } })).json()).toEqual({ added: 0 });
	expect(await (await request.get('/api/runs/r1/versions/1')).json()).toEqual({ version: 1, document });
	const back = await request.post('/api/runs/r1/restore', { data: { id: 'back', version: 1 } });
	expect(await back.json()).toEqual({ version: 3 });
	expect(await (await request.get('/api/runs/r1/versions/3')).json()).toEqual({ version: 3, document });
	const { history } = (await (await request.get('/api/runs/r1/history?limit=2')).json()) as {
		history: unknown[];
	};
	expect(history).toMatchObject([
		{ version: 3, what: 'restore' },
		{ version: 2, what: 'edit' }
	]);
	const file = await request.get('/api/runs/r1/export');
	expect(file.headers()['content-disposition']).toBe(
		`attachment; filename="r1.json"; filename*=UTF-8''r1.json`
	);
	expect(await file.json()).toEqual({ id: 'r1', ...document, log: entries });
});

test('two who type into one cell are both shown, and nothing is overwritten', async ({ request }) => {
	await make(request);
	const type = (id: string, to: string) =>
		request.post('/api/runs/r1/edits', { data: { id, base: 1, edits: [{ path: ['name'], to }] } });
	expect((await type('x', 'Theirs')).status()).toBe(200);
	const clash = await type('y', 'Yours');
	expect(clash.status()).toBe(409);
	expect(await clash.json()).toMatchObject({
		error: { code: 'clash', clashes: [{ path: ['name'], theirs: 'Theirs', yours: 'Yours' }], version: 2 }
	});
});

test('what one app exports another takes in, whole, once', async ({ request }) => {
	await make(request);
	const file: unknown = await (await request.get('/api/export')).json();
	const again = await request.post('/api/import', { data: file });
	expect(await again.json()).toEqual({ added: 0, extended: 0, kept: 1, entries: 0 });
});

const json = { 'content-type': 'application/json' };
const refusals: [string, string, string, { data?: unknown; headers?: Record<string, string> }, number][] = [
	['no JSON', 'POST', '/api/runs', { data: Buffer.from('dear diary'), headers: json }, 400],
	[
		'a form',
		'POST',
		'/api/runs',
		{ data: 'id=1', headers: { 'content-type': 'application/x-www-form-urlencoded' } },
		403
	],
	['a text', 'POST', '/api/runs', { data: Buffer.from('{}'), headers: { 'content-type': 'text/csv' } }, 415],
	['no body', 'POST', '/api/runs', { headers: json }, 400],
	['an unknown key', 'POST', '/api/runs', { data: { id: 'x', document, extra: 1 } }, 422],
	['a number as id', 'POST', '/api/runs', { data: { id: 1, document } }, 422],
	['an id with a path in it', 'POST', '/api/runs', { data: { id: '../x', document } }, 422],
	['another format', 'POST', '/api/runs', { data: { id: 'x', document: { ...document, format: 'y' } } }, 422],
	[
		'two megabytes',
		'POST',
		'/api/runs',
		{ data: { id: 'x', document: { ...document, n: 'x'.repeat(2e6) } } },
		413
	],
	[
		'a tower of brackets',
		'POST',
		'/api/runs',
		{ data: Buffer.from('['.repeat(5e4) + ']'.repeat(5e4)), headers: json },
		400
	],
	['a run that is not there', 'GET', '/api/runs/none', {}, 404],
	[
		'edits of no run',
		'POST',
		'/api/runs/none/edits',
		{ data: { id: 'e', base: 1, edits: [{ path: ['name'], to: 'x' }] } },
		404
	],
	[
		'edits that lead nowhere',
		'POST',
		'/api/runs/r1/edits',
		{ data: { id: 'e', base: 1, edits: [{ path: ['q', 'w'], to: 'x' }] } },
		422
	],
	[
		'edits on a future version',
		'POST',
		'/api/runs/r1/edits',
		{ data: { id: 'e', base: 9, edits: [{ path: ['name'], to: 'x' }] } },
		422
	],
	[
		'edits of a prototype',
		'POST',
		'/api/runs/r1/edits',
		{ data: { id: 'e', base: 1, edits: [{ path: ['__proto__', 'x'], to: 1 }] } },
		422
	],
	['no edits', 'POST', '/api/runs/r1/edits', { data: { id: 'e', base: 1, edits: [] } }, 422],
	[
		'a log entry on 30 February',
		'POST',
		'/api/runs/r1/log',
		{ data: { entries: [{ id: 'l', at: '2026-02-30T08:00:00Z', kind: 'done' }] } },
		422
	],
	[
		'a log entry of no kind',
		'POST',
		'/api/runs/r1/log',
		{ data: { entries: [{ id: 'l', at: '2026-02-20T08:00:00Z', kind: 'x' }] } },
		422
	],
	['a version that never was', 'GET', '/api/runs/r1/versions/99', {}, 404],
	['a version that is no number', 'GET', '/api/runs/r1/versions/1e9', {}, 404],
	['half a limit', 'GET', '/api/runs/r1/history?limit=0.5', {}, 400],
	['a restore to nowhere', 'POST', '/api/runs/r1/restore', { data: { id: 'b', version: 99 } }, 404],
	['an import of something else', 'POST', '/api/import', { data: { format: 'lazaret-all/1', runs: 7 } }, 422],
	['an unknown address', 'GET', '/api/nothing', {}, 404],
	['a method that is not there', 'PUT', '/api/runs', { data: {} }, 405]
];
for (const [what, method, path, options, status] of refusals) {
	test(`refuses ${what} with ${status}`, async ({ request }) => {
		await make(request);
		const before = await state(request);
		const answer = await request.fetch(path, { method, ...options });
		expect(answer.status()).toBe(status);
		expect(await answer.text()).not.toMatch(/ at \S+:\d+:\d+|node_modules/);
		expect(await state(request)).toEqual(before);
	});
}

for (const [what, headers] of [
	['a foreign page', { origin: 'http://evil.example' }],
	['a page with no origin of its own', { origin: 'null' }],
	['a foreign site that hides its origin', { 'sec-fetch-site': 'cross-site' }]
] as const) {
	test(`refuses a write from ${what}`, async ({ request }) => {
		const answer = await request.post('/api/runs', { data: { id: 'r1', document }, headers });
		expect(answer.status()).toBe(403);
		expect(await state(request)).toEqual([]);
	});
}

test('answers to no foreign name', async ({ request }) => {
	const answer = await request.get('/api/runs', { headers: { host: 'evil.example' } });
	expect(answer.status()).toBe(421);
});

test('a page of the app itself may write', async ({ page }) => {
	await page.goto('/');
	const status = await page.evaluate(async () => {
		const body = JSON.stringify({ id: 'p1', document: { format: 'lazaret-plan/1', name: 'From a page' } });
		return (
			await fetch('/api/runs', { method: 'POST', body, headers: { 'content-type': 'application/json' } })
		).status;
	});
	expect(status).toBe(201);
});
