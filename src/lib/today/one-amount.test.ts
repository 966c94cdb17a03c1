import { describe, expect, test } from 'vitest';
import { plan } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import { day, drawn, drawnDocument } from './drawn-run.ts';
import { judge, todayOf, type SentEntry } from './index.ts';

const at = (n: number, minute: number) =>
	new Date(Date.parse(`${day(n)}T08:00:00Z`) + minute * 60_000).toISOString().replace('.000Z', 'Z');

function stands(net: number, changes: boolean, log: readonly SentEntry[], now: string) {
	const run = readRun(drawnDocument({ net, changes }, log), { today: now.slice(0, 10) });
	const made = plan(run, now);
	const [tank] = todayOf([{ run, plan: made }], now).tanks;
	const row = tank?.rows.find(({ ask }) => ask?.what === 'Cu');
	return { made, ask: row?.ask, dose: tank?.rows.find(({ kind }) => kind === 'dose') };
}

/** Days done as planned, each read a little off; then one or two low readings, each judged before and after it is logged. */
function story(seed: number) {
	const next = drawn(seed);
	const net = 60 + Math.round(next() * 140);
	const changes = next() < 0.5;
	const days = 3 + Math.floor(next() * 6);
	const log: SentEntry[] = [];
	const enter = (entry: Omit<SentEntry, 'id'>) => log.push({ id: `e${log.length}`, ...entry } as SentEntry);
	for (let n = 2; n < 2 + days; n++) {
		const early = stands(net, changes, log, at(n, 1));
		const expected = early.ask?.forecast ?? 0;
		const value = (expected * (0.9 + next() * 0.13)).toFixed(3);
		const test = `copper/test/${n - 1}`;
		enter({ at: at(n, 5), kind: 'reading', task: test, what: 'Cu', value: `${value} mg/L` });
		for (const { id, kind, date } of stands(net, changes, log, at(n, 6)).made.tasks)
			if (date === day(n) && ['change', 'topoff', 'dose'].includes(kind))
				enter({ at: at(n, 10), kind: 'done', task: id });
	}
	const said: unknown[] = [];
	const given: unknown[] = [];
	const n = 2 + days;
	const kind = next();
	// the second one hours or days after the first, whose make-up was given or not
	const times: [number, number][] =
		kind < 0.3
			? [[n, 5 + Math.floor(next() * 50)]]
			: [[n, 5], kind < 0.6 ? [n, 30 + Math.floor(next() * 600)] : [n + 1 + Math.floor(next() * 4), 5]];
	const makesUp = next() < 0.5;
	for (const [i, [of, minute]] of times.entries()) {
		// one that is given stays on its line as it was given
		if (i > 0 && makesUp && of > n) enter({ at: at(n, 12), kind: 'done', task: `copper/dose/${n - 1}` });
		const now = at(of, minute);
		const { ask } = stands(net, changes, log, now);
		if (!ask) throw new Error('no test of copper today');
		const value = Number((0.1 + next() * 0.049).toFixed(3));
		const verdict = judge(ask, { value });
		said.push(verdict.dose?.now?.value ?? 0);
		enter({ at: now, kind: 'reading', task: `copper/test/${of - 1}`, what: 'Cu', value: `${value} mg/L` });
		given.push(stands(net, changes, log, now).dose?.amount?.value ?? 0);
	}
	return { said, given };
}

describe('the amount of a low reading', () => {
	test.each(Array.from({ length: 48 }, (_, i) => i + 1))('is the one the plan then gives, run %i', (seed) => {
		const { said, given } = story(seed);
		expect(given).toEqual(said);
	});
});
