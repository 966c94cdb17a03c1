import { describe, expect, test } from 'vitest';
import { plan } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import { day, drawn, drawnDocument } from './drawn-run.ts';
import { judge, todayOf, type SentEntry } from './index.ts';

/**
 * What is said about a low level is held against the plan that follows: a course that is back inside by the hour keeps what
 * it earned, one that is back a minute later begins again. A day and two hours: judgment, no source; 0.10 mg/L: judgment,
 * no source.
 */

const MS_PER_MINUTE = 60_000;
/** Minutes after 08:00 in the zone of the run, which is an hour before UTC in February. */
const at = (n: number, minute: number) => Date.parse(`${day(n)}T07:00:00Z`) + minute * MS_PER_MINUTE;
const text = (ms: number) => `${new Date(ms).toISOString().slice(0, 19)}Z`;

function stands(log: readonly SentEntry[], nowMs: number) {
	const now = text(nowMs);
	const run = readRun(drawnDocument({ net: 120, timeZone: 'Europe/Berlin' }, log), {
		today: now.slice(0, 10)
	});
	const made = plan(run, now);
	const rows = todayOf([{ run, plan: made }], now).tanks[0]?.rows ?? [];
	const ask = rows.find((row) => row.ask?.what === 'Cu')?.ask;
	if (!ask) throw new Error(`no test of copper on ${now}`);
	return {
		ask,
		job: rows.find(({ kind, logged }) => kind === 'dose' && logged.length === 0),
		earned: made.phases.find(({ id }) => id === 'copper')?.creditedSoFar ?? 0
	};
}

const reading = (id: string, ms: number, value: number): SentEntry => ({
	id,
	at: text(ms),
	kind: 'reading',
	what: 'Cu',
	value: `${value} mg/L`
});

/** Days as planned, each read inside some minutes after its service, the last one with a minute of its own. */
function days(count: number, lastMinute: number): SentEntry[] {
	const log: SentEntry[] = [1, 2].map((n) => ({
		id: `d${n}`,
		at: text(at(n + 1, 5)),
		kind: 'done',
		task: `copper/dose/${n}`
	}));
	for (let n = 3; n < 3 + count; n++)
		log.push(reading(`r${n}`, at(n, n === 2 + count ? lastMinute : 3), 0.18));
	return log;
}

const sentence =
	/Back inside by (\d\d):(\d\d)(?: on (\d{4}-\d\d-\d\d))?, the course only pauses; later it begins again\./;

/** The instant that is said, on the day of `n`. */
function hourIn(said: string, n: number): number | null {
	const [, hour, minute, date = day(n)] = sentence.exec(said) ?? [];
	return hour === undefined ? null : Date.parse(`${date}T${hour}:${minute}:00+01:00`);
}

describe.each(Array.from({ length: 40 }, (_, i) => i + 1))('a low level, run %i', (seed) => {
	const next = drawn(seed);
	const count = 3 + Math.floor(next() * 8);
	const last = 2 + count;
	const log = days(count, Math.floor(next() * 300));
	/** minutes after the next day's service */
	const minute = Math.floor(next() * 200);
	const low = at(last + 1, minute);
	const value = Number((0.1 + next() * 0.049).toFixed(3));
	const readings = [...log, reading('low', low, value)];
	const { ask } = stands(log, low);
	const { text: verdict } = judge(ask, { value, atMs: low });
	const after = stands(readings, low);
	const by = hourIn(verdict, last + 1);

	test('is told the same by its verdict and on its job', () => {
		expect(after.job).toBeDefined();
		expect(hourIn(after.job?.because ?? '', last + 1)).toBe(by);
		if (by === null)
			for (const said of [verdict, after.job?.because])
				expect(said).toContain('the course begins again whatever is given');
	});

	test('is told on its job, once that hour has passed, that nothing hangs on it any more', () => {
		const passed = stands(readings, Math.max(low, by ?? low) + MS_PER_MINUTE);
		expect(passed.job?.because).toContain('the course begins again whatever is given');
		expect(passed.earned).toBe(0);
	});

	test('keeps its course when it is back by the hour, and begins again a minute later', () => {
		const tomorrow = at(last + 3, 30);
		const kept = (ms: number) =>
			stands([...readings, reading('back', ms, 0.17), reading('next', at(last + 3, 5), 0.17)], tomorrow)
				.earned;
		if (by === null) return expect(kept(low + MS_PER_MINUTE)).toBeLessThanOrEqual(2);
		// what was earned up to the last reading inside, the days since it came back, but not those between
		expect(kept(by + 59_000)).toBeGreaterThan(count - 1);
		expect(kept(by + MS_PER_MINUTE)).toBeLessThanOrEqual(2);
	});

	test('keeps its course when its make-up, once confirmed, is given by the hour', () => {
		const earned = (ms: number) => {
			const confirmed = [...readings, reading('again', low + MS_PER_MINUTE, value)];
			const given = { id: 'x', at: text(ms), kind: 'done', task: `copper/dose/${last}` };
			return stands([...confirmed, given], Math.max(low, ms) + 60 * MS_PER_MINUTE).earned;
		};
		if (by === null) return expect(earned(low + MS_PER_MINUTE)).toBe(0);
		expect(earned(Math.max(by, low + MS_PER_MINUTE))).toBeGreaterThan(count - 2);
		expect(earned(by + MS_PER_MINUTE)).toBe(0);
	});
});
