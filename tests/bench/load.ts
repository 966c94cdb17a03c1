/**
 * Fifty people look and ten edit, at once, on the built app over loopback: `npm run bench:load`. Each looks or edits
 * again about a second after the last answer. Prints errors, how long answers took, what the app's processor time came
 * to per answer, and its memory over the run; asserts nothing, since machines are shared and noisy.
 */
import { readFileSync, rmSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import { startApp, type App } from '../built-app.ts';

const seconds = Number(process.env.LOAD_SECONDS ?? 40);
const [looking, editing, tanks] = [50, 10, 20];
const json = { 'content-type': 'application/json' };

interface Took {
	ms: number[];
	errors: string[];
}
const took: Record<'look' | 'edit' | 'log', Took> = {
	look: { ms: [], errors: [] },
	edit: { ms: [], errors: [] },
	log: { ms: [], errors: [] }
};

async function timed(what: keyof typeof took, url: string, init: RequestInit = {}): Promise<void> {
	const began = performance.now();
	const answer = await fetch(url, init).catch((error: unknown) => String(error));
	const said =
		typeof answer === 'string' ? answer : (await answer.text(), answer.ok ? '' : String(answer.status));
	took[what].ms.push(performance.now() - began);
	if (said) took[what].errors.push(said);
}

/** The same pauses in every run, about a second each. */
const pause = (client: number, n: number) => sleep(600 + ((client * 137 + n * 271) % 800));

const post = (body: unknown): RequestInit => ({ method: 'POST', headers: json, body: JSON.stringify(body) });

/** Twenty tanks like the invented one, each with its log. */
async function fill(app: App): Promise<void> {
	const { run } = (await (await fetch(`${app.url}/api/demo`, post({}))).json()) as { run: { id: string } };
	const file = (await (await fetch(`${app.url}/api/runs/${run.id}/export`)).json()) as Record<
		string,
		unknown
	>;
	const { log, id: _id, ...document } = file;
	for (let n = 0; n < tanks; n++) {
		const made = await fetch(`${app.url}/api/runs`, post({ id: `t${n}`, document }));
		const logged = await fetch(`${app.url}/api/runs/t${n}/log`, post({ entries: log }));
		if (!made.ok || !logged.ok) throw new Error(`tank ${n}: ${made.status} ${logged.status}`);
	}
}

/** Seconds of processor time and megabytes of the app, as Linux tells them. */
function stateOf(pid: number): { cpu: number; mb: number } {
	const fields = readFileSync(`/proc/${pid}/stat`, 'utf8')
		.replace(/^.*\) /, '')
		.split(' ');
	const kb = /VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
	// a hundred ticks a second on every Linux that Node runs on
	return { cpu: (Number(fields[11]) + Number(fields[12])) / 100, mb: Math.round(Number(kb) / 1024) };
}

async function look(app: App, client: number, until: number, path: string): Promise<void> {
	await pause(client, 3);
	for (let n = 0; Date.now() < until; n++) {
		await timed('look', app.url + path, { headers: { accept: 'text/html' } });
		await pause(client, n);
	}
}

async function edit(app: App, client: number, until: number): Promise<void> {
	for (let n = 0; Date.now() < until; n++) {
		const run = `${app.url}/api/runs/t${client}`;
		const edits = [{ path: ['note'], to: `seen ${n}` }];
		await timed('edit', `${run}/edits`, post({ id: `e${client}-${n}`, base: n + 1, edits }));
		await pause(client, n);
		const entry = { id: `l${client}-${n}`, at: new Date().toISOString(), kind: 'topoff', litres: '1 L' };
		if (n % 5 === 0) await timed('log', `${run}/log`, post({ entries: [entry] }));
	}
}

function say(what: string, { ms, errors }: Took): void {
	const sorted = ms.toSorted((a, b) => a - b);
	const at = (share: number) => (sorted[Math.floor((sorted.length - 1) * share)] ?? 0).toFixed(0).padStart(5);
	const wrong = errors.length ? `${errors.length} errors (${[...new Set(errors)].join(', ')})` : '0 errors';
	console.log(
		`${what.padEnd(5)} ${String(ms.length).padStart(5)} answers, ${wrong}, p50 ${at(0.5)} ms, p95 ${at(0.95)} ms, p99 ${at(0.99)} ms`
	);
}

const app = await startApp(undefined, { LAZARET_BACKUPS: '0' });
await fill(app);
const path = '/today';
for (let n = 0; n < 20; n++) await (await fetch(app.url + path)).text();
const before = stateOf(app.pid);
const memory = [before.mb];
const until = Date.now() + seconds * 1000;
const sampling = setInterval(() => memory.push(stateOf(app.pid).mb), (seconds * 1000) / 8);
await Promise.all([
	...Array.from({ length: looking }, (_, client) => look(app, client, until, path)),
	...Array.from({ length: editing }, (_, client) => edit(app, client, until))
]);
clearInterval(sampling);
const after = stateOf(app.pid);
console.log(`${looking} looking at ${path} of ${tanks + 2} tanks, ${editing} editing, ${seconds} s`);
for (const what of ['look', 'edit', 'log'] as const) say(what, took[what]);
const answers = took.look.ms.length + took.edit.ms.length + took.log.ms.length;
console.log(`processor: ${(((after.cpu - before.cpu) / answers) * 1000).toFixed(1)} ms an answer`);
const grown = Math.max(...memory.slice(memory.length / 2)) - Math.max(...memory.slice(0, memory.length / 2));
console.log(
	`memory, MB: ${[...memory, after.mb].join(' ')}; second half against first: ${grown > 0 ? '+' : ''}${grown}`
);
const all = Object.values(took);
const errors = all.flatMap((one) => one.errors).length;
const p95 = Math.max(
	...all.map(({ ms }) => ms.toSorted((a, b) => a - b)[Math.floor((ms.length - 1) * 0.95)] ?? 0)
);
console.log(`in short: ${errors} errors (wished 0), worst p95 ${p95.toFixed(0)} ms (wished under 150)`);
await app.stop();
rmSync(app.folder, { recursive: true });
