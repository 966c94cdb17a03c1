/**
 * Prints what the calendar costs: `node tests/bench/calendar.ts`. Warm figures: the median of several runs by the
 * clock, and the processor time of this process for one of them, which is the figure to compare where other work
 * shares the machine.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createEvents, type EventAttributes } from 'ics';
import {
	eventsOf,
	eventsToIcs,
	feedOf,
	planToIcs,
	stamp,
	type Planned
} from '../../src/lib/calendar/index.ts';
import { guardedIcs } from '../../src/lib/calendar/guard.ts';
import { samplePlan, sampleRun, sampleTask } from '../../src/lib/calendar/sample-plan.ts';
import { writeIcs } from '../../src/lib/calendar/writer.ts';
import { createFeed, openFeeds, openStore } from '../../src/lib/server/index.ts';

const now = '2027-01-30T00:00:00Z';
const because =
	'NH3-N would reach 0.021 mg/L before the next service; the limit is 0.02 mg/L. Twenty-four litres hold it there.';
const caution = 'Copper kills invertebrates; keep its tools apart.';

function planned(tasks: number): Planned {
	const all = Array.from({ length: tasks }, (_, n) =>
		sampleTask(`copper/dose/${n}`, `2027-0${2 + (n % 5)}-1${n % 10}`, {
			text: 'Ionic copper 4.3 mL',
			amount: { value: 4.3, unit: 'mL' },
			raises: { from: 0, to: 0.0895833, unit: 'mg/L' },
			because,
			cautions: [caution]
		})
	);
	return { run: sampleRun(), plan: samplePlan(all) };
}

/** Milliseconds of one run, after twenty to warm up. */
interface Cost {
	median: number;
	processor: number;
}

async function cost(runs: number, act: () => unknown, warmUp = 20): Promise<Cost> {
	for (let n = 0; n < warmUp; n++) await act();
	const took: number[] = [];
	const before = process.cpuUsage();
	for (let n = 0; n < runs; n++) {
		const from = performance.now();
		await act();
		took.push(performance.now() - from);
	}
	const { user, system } = process.cpuUsage(before);
	const median = took.toSorted((a, b) => a - b)[Math.floor(runs / 2)] ?? 0;
	return { median, processor: (user + system) / 1000 / runs };
}

const say = (what: string, { median, processor }: Cost, bound = '') =>
	console.log(
		`${what.padEnd(58)} ${median.toFixed(2).padStart(9)} ms, ${processor.toFixed(2).padStart(8)} of processor ${bound}`
	);

async function feed(): Promise<void> {
	const one = planned(1000);
	const first = feedOf([one], { now, name: 'Bench', previous: [] });
	say(
		'1,000 tasks to a feed body, events and standing and all',
		await cost(30, () => feedOf([one], { now, name: 'Bench', previous: first.rows })),
		'(at most 20)'
	);
	const { events } = stamp([], eventsOf(one.run, one.plan), now);
	const plain = await cost(30, () => writeIcs(events, 'Bench'));
	say('  of which the plain writer', plain, '(at most 20)');
	say('  the same through npm ics behind its guard', await cost(3, () => guardedIcs(events, 'Bench'), 1));
	const bare: EventAttributes[] = events.map((event) => ({
		uid: event.uid,
		title: event.title,
		description: event.description,
		start: Date.parse(now),
		end: Date.parse(now) + 600_000,
		categories: event.categories,
		sequence: event.sequence
	}));
	const library = await cost(3, () => createEvents(bare), 1);
	say(
		'  a bare call of npm ics',
		library,
		`(${(library.processor / plain.processor).toFixed(0)} times the plain writer)`
	);
	console.log(`  body ${(Buffer.byteLength(first.body) / 1000).toFixed(0)} kB`);
}

async function unchanged(): Promise<void> {
	const store = await openStore({ folder: mkdtempSync(join(tmpdir(), 'lazaret-bench-')), now: () => now });
	const { secret } = await createFeed(store, { name: 'Bench', scope: {} });
	const one = planned(1000);
	const answer = openFeeds({
		store,
		plansOf: () => Promise.resolve([one]),
		report: (error) => console.error(error)
	});
	const { headers } = await answer(secret, {});
	const asked = { ifNoneMatch: headers.etag };
	if ((await answer(secret, asked)).status !== 304) throw new Error('the feed changed by itself');
	say(
		'an unchanged feed, 304, in process on SQLite',
		await cost(200, () => answer(secret, asked)),
		'(under 2)'
	);
	await store.close();
	rmSync(store.folder, { recursive: true });
}

async function exported(): Promise<void> {
	const one = planned(10_000);
	say(
		'10,000 tasks to a file',
		await cost(5, () => planToIcs(one.run, one.plan, { now }), 2),
		'(under 3,000)'
	);
	const { events } = stamp([], eventsOf(one.run, one.plan), now);
	say(
		'  of which the plain writer',
		await cost(5, () => eventsToIcs(events, 'Bench'), 2),
		'(longest stall, at most 400)'
	);
}

await feed();
await unchanged();
await exported();
