import { Temporal } from 'temporal-polyfill';
import { plan, type Plan, type Task } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import type { Document } from './document.ts';
import { appendLog, type Entry } from './log.ts';
import { createRun, listRuns, type StoredRun, getRun } from './runs.ts';
import type { Store } from './store.ts';

/** Invented fish, tanks and names. `day` counts from the arrival, so that today falls in the middle of the run. */
function copperRun(day: (n: number) => string, timeZone: string): Document {
	return {
		format: 'lazaret-plan/1',
		name: 'Slate Quay delivery',
		timeZone,
		service: '08:00',
		tank: {
			name: 'North 3',
			net: '140 L',
			temperature: '26 C',
			salinity: '34 ppt',
			pH: 8.1,
			filterClears: '45 L/d',
			evaporates: '0.8 L/d',
			aeration: 'coarse',
			substrate: 'none',
			lid: true
		},
		source: {
			name: 'mixed salt water',
			ammonia: '0 mg/L',
			nitrate: '2 mg/L',
			salinity: '34 ppt',
			temperature: '26 C',
			pH: 8.1
		},
		limits: { nh3: '0.02 mg/L', nitrate: '20 mg/L' },
		lots: [
			{
				id: 'cardinals',
				what: 'striped cardinalfish',
				group: 'cardinalfish',
				count: 6,
				mass: '54 g',
				feed: '1.3 g/d',
				protein: 0.09,
				arrived: day(0)
			},
			{
				id: 'wrasses',
				what: 'small reef wrasses',
				group: 'wrasse',
				count: 2,
				mass: '22 g',
				feed: '0.6 g/d',
				protein: 0.09,
				arrived: day(0)
			}
		],
		medicines: [
			{ id: 'cu', active: 'copper-ionic', strength: '1.5 mg/mL', measure: '0.1 mL' },
			{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }
		],
		phases: [
			{
				id: 'settle',
				kind: 'settle',
				starts: `on ${day(0)}`,
				lasts: '4 d',
				change: 'auto',
				test: 'NH3 daily'
			},
			{
				id: 'copper',
				kind: 'hold',
				medicine: 'cu',
				starts: 'after settle',
				lasts: '28 d',
				level: '0.15-0.20 mg/L',
				aim: '0.17 mg/L',
				repeat: 'ramp 5 d',
				change: '30% every 3 d',
				test: 'Cu daily, NH3 daily'
			},
			{
				id: 'flukes',
				kind: 'pulse',
				medicine: 'pz',
				starts: 'with copper + 6 d',
				lasts: '2 doses',
				level: '2.5 mg/L',
				repeat: 'every 7 d',
				target: 'flukes'
			},
			{
				id: 'wash',
				kind: 'washout',
				medicine: 'cu',
				starts: 'after copper',
				lasts: 'until clear',
				level: '0.02 mg/L',
				change: '50% daily',
				carbon: true,
				test: 'Cu daily'
			},
			{
				id: 'watch',
				kind: 'observe',
				starts: 'after wash',
				lasts: '14 d',
				change: 'auto',
				test: 'NH3 every 2 d, NO3 weekly'
			},
			{ id: 'release', kind: 'release', starts: 'after watch' }
		],
		away: [day(24)]
	};
}

function flukeRun(day: (n: number) => string, timeZone: string): Document {
	return {
		format: 'lazaret-plan/1',
		name: 'Two butterflyfish from the pier',
		timeZone,
		service: '08:00',
		tank: {
			name: 'South 1',
			net: '210 L',
			temperature: '25 C',
			salinity: '33 ppt',
			pH: 8.0,
			filterClears: '160 L/d',
			aeration: 'coarse',
			substrate: 'none'
		},
		source: {
			name: 'mixed salt water',
			ammonia: '0 mg/L',
			nitrate: '2 mg/L',
			salinity: '33 ppt',
			temperature: '25 C',
			pH: 8.0
		},
		limits: { nh3: '0.02 mg/L', nitrate: '20 mg/L' },
		lots: [
			{
				id: 'pair',
				what: 'butterflyfish',
				group: 'butterflyfish',
				count: 2,
				mass: '70 g',
				feed: '1.5 g/d',
				protein: 0.09,
				arrived: day(0)
			}
		],
		medicines: [{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }],
		phases: [
			{
				id: 'settle',
				kind: 'settle',
				starts: `on ${day(0)}`,
				lasts: '3 d',
				change: 'auto',
				test: 'NH3 daily'
			},
			{
				id: 'flukes',
				kind: 'pulse',
				medicine: 'pz',
				starts: 'after settle',
				lasts: '2 doses',
				level: '2.5 mg/L',
				repeat: 'every 7 d',
				target: 'flukes',
				change: 'auto',
				test: 'NH3 daily'
			},
			{
				id: 'wash',
				kind: 'washout',
				medicine: 'pz',
				starts: 'after flukes',
				lasts: 'until clear',
				level: '0.2 mg/L',
				change: '50% daily',
				carbon: true
			},
			{
				id: 'watch',
				kind: 'observe',
				starts: 'after wash',
				lasts: '16 d',
				change: 'auto',
				test: 'NH3 every 2 d, NO3 weekly'
			},
			{ id: 'release', kind: 'release', starts: 'after watch' }
		]
	};
}

const scenes = [
	{ id: 'south', daysAgo: 22, write: flukeRun },
	{ id: 'north', daysAgo: 17, write: copperRun }
] as const;

/**
 * Makes the invented runs, their dates around today and everything before today logged, and answers with the one to
 * look at. A demo that is already there is opened instead of making a second.
 */
export async function openDemo(store: Store, timeZone: string, who: string): Promise<StoredRun> {
	const there = (await listRuns(store)).find((run) => run.id.startsWith('demo-north-'));
	const known = there && (await getRun(store, there.id));
	if (known) return known;
	const today = Temporal.Instant.from(store.now()).toZonedDateTimeISO(timeZone).toPlainDate();
	let shown: StoredRun | undefined;
	for (const { id, daysAgo, write } of scenes) {
		const day = (n: number) => today.add({ days: n - daysAgo }).toString();
		const document = write(day, timeZone);
		// the same day's demo may have been deleted: another one gets another id
		const run = `demo-${id}-${store.now().replace(/\D/g, '').slice(0, 14)}`;
		const created = await createRun(store, { id: run, document, who });
		if (!created.ok) throw new Error(created.sentence);
		const logged = await appendLog(store, run, logBefore(document, today.toString(), daysAgo), who);
		if (!logged?.ok) throw new Error(`the demo's own log: ${logged?.sentence}`);
		shown = created.run;
	}
	if (!shown) throw new Error('the demo has no run');
	return shown;
}

/**
 * What a careful keeper would have logged before today: everything the plan of the first day asked, with its
 * amounts, and readings near its forecast.
 */
export function logBefore(document: Document, today: string, days: number): Entry[] {
	const arrival = Temporal.PlainDate.from(today).subtract({ days }).toString();
	const made = plan(readRun(document, { today: null }), `${arrival}T00:00:00Z`);
	const log: Entry[] = [];
	for (const [at, tasks] of Map.groupBy(made.tasks, (task) => task.at)) {
		if ((tasks[0]?.date ?? today) >= today) break;
		for (const [n, task] of tasks.entries()) {
			const minutesIn = Temporal.Instant.from(at).add({ minutes: 4 + 3 * n });
			log.push(...entriesFor(task, minutesIn.toString({ smallestUnit: 'second' }), made, log.length));
		}
	}
	return log;
}

function entriesFor(task: Task, at: string, made: Plan, written: number): Entry[] {
	const id = (n: number) => `demo-${String(written + n).padStart(4, '0')}`;
	if (task.kind === 'observe')
		return [{ id: id(0), at, kind: 'observation', task: task.id, signs: ['none'] }];
	if (task.kind !== 'test') {
		// a change the sheet leaves to the plan is only known by its litres once its day is over
		const amount =
			task.kind === 'change' && task.amount && `${Number(task.amount.value.toFixed(3))} ${task.amount.unit}`;
		return [{ id: id(0), at, kind: 'done', task: task.id, ...(amount ? { amount } : {}) }];
	}
	return (task.what ?? []).map((what, n) => ({
		id: id(n),
		at,
		kind: 'reading',
		task: task.id,
		...readingOf(what, task, made, written + n)
	}));
}

/** What a kit of the usual steps would show: the forecast, a few percent off, never twice the same way. */
function readingOf(what: string, task: Task, made: Plan, n: number): { what: string; value: string } {
	const sample = made.levels.find((level) => level.at === task.at && level.when === 'before');
	if (!sample) throw new Error(`no forecast at ${task.at}`);
	const near = (value: number, step: number) => {
		const off = 1 + (((n * 7) % 5) - 2) * 0.012;
		return (Math.round((value * off) / step) * step).toFixed(2);
	};
	if (what === 'Cu') return { what, value: `${near(sample.medicinesMgPerL.cu ?? 0, 0.01)} mg/L` };
	if (what === 'NO3') return { what, value: `${near(sample.nitrateMgPerL, 1)} mg/L` };
	return { what, value: `${near(sample.tanMgNPerL, 0.02)} mg/L` };
}
