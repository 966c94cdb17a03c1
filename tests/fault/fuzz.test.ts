import { rmSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { newFolder, startApp, type App } from '../built-app.ts';

/*
 * Seeded nonsense over the boundaries that take text from outside. Nothing may crash, answer 5xx, leak a stack
 * trace, or change the store by an answer that was not a success.
 */
const inputs = 10_000;
const document = {
	format: 'lazaret-plan/1',
	name: 'Fuzz',
	timeZone: 'UTC',
	tank: { net: '100 L', pH: 8.1 },
	phases: [{ id: 'a', kind: 'observe', starts: 'on 2027-01-01', lasts: '3 d' }]
};
const entry = { id: 'x', at: '2027-01-01T08:00:00Z', kind: 'reading', what: 'NH3', value: '0.1 mg/L' };

const bodies: Record<string, unknown> = {
	'/api/runs': { id: 'fuzz', document },
	'/api/runs/r/edits': { id: 'e', base: 1, edits: [{ path: ['phases', 0, 'lasts'], to: '4 d', was: '3 d' }] },
	'/api/runs/r/log': { entries: [entry] },
	'/api/runs/r/restore': { id: 'b', version: 1 },
	'/api/import': { format: 'lazaret-all/1', exported: '2027-01-01T00:00:00Z', runs: [] }
};

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

const request = fc.oneof(
	{
		weight: 8,
		arbitrary: fc.tuple(fc.constantFrom(...Object.keys(bodies)), steps).map(([path, changes]) => ({
			method: 'POST',
			path,
			body: JSON.stringify(spoil(bodies[path], changes))
		}))
	},
	{
		weight: 1,
		arbitrary: fc
			.tuple(
				fc.constantFrom(...Object.keys(bodies)),
				fc.nat(300),
				fc.string({ unit: 'binary', maxLength: 8 })
			)
			.map(([path, cut, noise]) => ({
				method: 'POST',
				path,
				body: `${JSON.stringify(bodies[path]).slice(0, cut)}${noise}`
			}))
	},
	{
		weight: 2,
		arbitrary: fc
			.tuple(
				fc.constantFrom(
					'/api/runs/r/history?limit=',
					'/api/runs/r/history?before=',
					'/api/runs/r/versions/',
					'/api/runs/',
					'/api/runs?deleted=',
					'/'
				),
				fc.string({ unit: 'binary', maxLength: 30 })
			)
			.map(([path, noise]) => ({
				method: 'GET',
				path: path + encodeURIComponent(noise.toWellFormed()),
				body: null
			}))
	}
);

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
		fc.asyncProperty(request, async ({ method, path, body }) => {
			const headers = { 'content-type': 'application/json' };
			const answer = await fetch(app.url + path, { method, headers, body, redirect: 'manual' });
			const text = await answer.text();
			seen.set(answer.status, (seen.get(answer.status) ?? 0) + 1);
			expect(answer.status, `${method} ${path} ${body}`).toBeLessThan(500);
			if (answer.status >= 400) expect(text).not.toMatch(/node_modules|\.js:\d+:\d+/);
			accepted ||= method === 'POST' && answer.ok;
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
	expect((seen.get(422) ?? 0) + (seen.get(400) ?? 0)).toBeGreaterThan(inputs / 3);
	await app.stop();
	rmSync(app.folder, { recursive: true });
});
