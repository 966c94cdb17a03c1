import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyAll, type Taken } from '../../run/index.ts';
import { exampleNow, exampleWith } from '../example.ts';
import { compare, openSlips, type Plan, type Task } from '../index.ts';
import {
	dec,
	planScene,
	sceneOf,
	scenes,
	withLog,
	type Entry,
	type Scene,
	type SceneName
} from './scenes.ts';

/**
 * Laws of the log, over random records of random days. A record is made the way a keeper makes one: day by day, each
 * job that the plan shows is done in time, done late, missed or forgotten; on some evenings one of the slips is chosen.
 */
const names = Object.keys(scenes) as SceneName[];

/** A hold with pulses and dips inside it, so that services carry many jobs. */
const crowded = (): Scene => ({
	...scenes.hold(),
	service: ['08:00', '20:00'],
	tank: { ...(scenes.hold().tank as object), evaporates: '1 L/d', carbon: false },
	phases: [
		...(scenes.hold().phases as object[]),
		{
			id: 'flukes',
			kind: 'pulse',
			medicine: 'pz',
			starts: 'with copper + 2 d',
			lasts: '2 doses',
			level: '2.5 mg/L',
			repeat: 'every 7 d',
			test: 'NH3 daily'
		},
		{
			id: 'rinse',
			kind: 'dip',
			medicine: 'fw',
			starts: 'with copper + 2 d',
			lasts: '3 doses',
			repeat: 'every 3 d',
			bath: '10 L'
		},
		{ id: 'move', kind: 'transfer', starts: 'with copper + 3 d', lasts: '2 moves' }
	]
});

interface Recipe {
	scene: () => Scene;
	days: number;
	/** what becomes of the jobs, in the order they come up */
	fates: string[];
	/** for each evening: which slip, which way; none */
	evenings: (number | null)[];
}

const fate = fc.constantFrom('done', 'done', 'done', 'done', 'late', 'missed', 'forgotten', 'forgotten');
const recipe = (of: readonly (() => Scene)[]): fc.Arbitrary<Recipe> =>
	fc.record({
		scene: fc.constantFrom(...of),
		days: fc.integer({ min: 3, max: 13 }),
		fates: fc.array(fate, { minLength: 30, maxLength: 30 }),
		evenings: fc.array(fc.option(fc.nat(9), { freq: 2 }), { minLength: 14, maxLength: 14 })
	});
const all = [...names.map((name) => scenes[name]), crowded];

interface Kept {
	scene: Scene;
	log: Entry[];
	now: string;
	days: number;
}

/** The record of a recipe, its days ended at 19:00, with what was left open on the last evening. */
function recordOf({ scene, days, fates, evenings }: Recipe): Kept {
	const own = scene();
	const log: Entry[] = [];
	const logged = new Set<string>();
	let next = 0;
	for (let day = 1; day <= days; day++) {
		const now = dec(day, '18:00');
		for (const task of planScene(withLog(own, log), now).tasks) {
			if (task.state !== 'open' || task.at < dec(day, '00:00') || logged.has(task.id) || task.at > now)
				continue;
			logged.add(task.id);
			log.push(...entriesFor(task, day, fates[next++ % fates.length] ?? 'done', log.length));
		}
		const pick = evenings[day - 1] ?? null;
		const slips = pick === null ? [] : openSlips(withLog(own, log), now, null);
		const slip = slips[(pick ?? 0) % Math.max(1, slips.length)];
		const way = slip?.ways[(pick ?? 0) % Math.max(1, slip.ways.length)];
		if (way && day < days) log.push(...way.entries.map((entry) => ({ id: `c${day}`, ...entry })));
	}
	return { scene: own, log, now: dec(days, '19:00'), days };
}

function entriesFor({ id, at }: Task, day: number, what: string, n: number): Entry[] {
	if (what === 'forgotten') return [];
	if (what === 'missed') return [{ id: `m${n}`, at: dec(day, '17:00'), kind: 'missed', task: id }];
	const late = what === 'late' ? 5 * 60 : 5;
	return [
		{ id: `d${n}`, at: new Date(Date.parse(at) + late * 60_000).toISOString(), kind: 'done', task: id }
	];
}

const seed = 20261201;
const settings = (numRuns: number) => ({ seed, numRuns });
/** Made once: a record takes a plan for each of its days. */
const records = fc.sample(recipe(all), { seed, numRuns: 36 }).map(recordOf);
const anyRecord = fc.constantFrom(...records);
const facts = ({ tasks }: Plan) =>
	tasks.filter(({ state }) => state === 'done' || state === 'late' || state === 'partly');

describe('laws of the log', { timeout: 120_000 }, () => {
	it('the order in which entries arrive, and entries sent again, change nothing', () => {
		fc.assert(
			fc.property(anyRecord, fc.infiniteStream(fc.nat()), ({ scene, log, now }, random) => {
				const keyed = log.map((entry) => ({ entry, key: random.next().value as number }));
				const shuffled = keyed.sort((a, b) => a.key - b.key).map(({ entry }) => entry);
				const again = [
					...shuffled,
					...shuffled.slice(0, 5).map((entry) => ({ ...entry, note: 'sent twice' }))
				];
				const straight = planScene(withLog(scene, log), now);
				expect(planScene(withLog(scene, shuffled), now)).toEqual(straight);
				expect(planScene(withLog(scene, again), now)).toEqual(straight);
			}),
			settings(25)
		);
	});

	it('what was done stays where and what it was, whatever is chosen or logged later', () => {
		let kept = 0;
		fc.assert(
			fc.property(anyRecord, fc.nat(9), ({ scene, log, now, days }, pick) => {
				const before = planScene(withLog(scene, log), now);
				const slips = openSlips(withLog(scene, log), now, null);
				const slip = slips[pick % Math.max(1, slips.length)];
				const way = slip?.ways[pick % Math.max(1, slip.ways.length)];
				const entries: Entry[] = way ? way.entries.map((entry) => ({ id: 'last', ...entry })) : [];
				// and one that comes too late: the job it names was done
				const [done] = facts(before).slice(pick);
				if (done)
					entries.push({
						id: 'stray',
						at: now,
						kind: 'choice',
						task: done.id,
						taken: pick % 2 ? 'skip' : 'now'
					});
				const after = planScene(withLog(scene, [...log, ...entries]), dec(days + 2, '18:00'));
				for (const { id, date, time, state, amount } of facts(before)) {
					const now = after.tasks.find((task) => task.id === id);
					expect([id, now?.date, now?.time, now?.state]).toEqual([id, date, time, state]);
					// a dose that could not be figured may be, once an older one has its answer
					if (amount) expect([id, now?.amount]).toEqual([id, amount]);
					kept++;
				}
			}),
			settings(25)
		);
		expect(kept).toBeGreaterThan(100);
	});

	it('each way does exactly what it showed', () => {
		const taken = new Map<Taken, number>();
		fc.assert(
			fc.property(anyRecord, ({ scene, log, now }) => {
				const document = withLog(scene, log);
				const before = planScene(document, now);
				for (const slip of openSlips(document, now, null))
					for (const way of slip.ways) {
						const entries = way.entries.map((entry, i) => ({ id: `f0${i}c4e`, ...entry }));
						const written = JSON.parse(
							JSON.stringify({ ...applyAll(scene, way.edits), log: [...entries, ...log.toReversed()] })
						) as object;
						const after = planScene(written, now);
						expect(compare(before, after)).toEqual(way.comparison);
						taken.set(way.taken, (taken.get(way.taken) ?? 0) + 1);
					}
			}),
			settings(30)
		);
		for (const count of ['now', 'now-shift', 'skip', 'restart'] as const)
			expect([count, (taken.get(count) ?? 0) > 4]).toEqual([count, true]);
	});

	it('every task has an id of its own', () => {
		fc.assert(
			fc.property(anyRecord, ({ scene, log, now }) => {
				const ids = planScene(withLog(scene, log), now).tasks.map(({ id }) => id);
				expect(ids.length).toBe(new Set(ids).size);
			}),
			settings(40)
		);
	});

	it('logging exactly what was planned changes no future task', () => {
		const whole = exampleWith({ away: [] }) as Scene;
		const any: (() => Scene)[] = [...all, () => whole];
		fc.assert(
			fc.property(fc.constantFrom(...any), fc.integer({ min: 1, max: 16 }), (scene, day) => {
				const own = scene();
				const untouched = planScene(withLog(own, []), exampleNow);
				const now = dec(day, '23:00');
				const log = untouched.tasks
					.filter(({ at }) => at < now)
					.map(({ id, at }, i): Entry => ({ id: `p${i}`, at, kind: 'done', task: id }));
				const future = ({ tasks }: Plan) =>
					tasks.filter(({ at }) => at > now).map(({ id, at, amount }) => [id, at, amount?.value.toFixed(9)]);
				expect(future(planScene(withLog(own, log), now))).toEqual(future(untouched));
			}),
			settings(40)
		);
	});
});

/** The order of work in one service, written down apart from the planner. */
const order = ['observe', 'topoff', 'test', 'out', 'change', 'salinity', 'dose', 'in', 'rest'];
const stepOf = ({ kind, equipment }: Task) => {
	if (kind === 'equipment') return order.indexOf(equipment?.on ? 'in' : 'out');
	if (kind === 'washout') return order.indexOf('change');
	return order.includes(kind) ? order.indexOf(kind) : order.indexOf('rest');
};

describe('laws of the march under a log', { timeout: 120_000 }, () => {
	it('the jobs of one service stand in working order', () => {
		let pairs = 0;
		fc.assert(
			fc.property(anyRecord, ({ scene, log, now }) => {
				const { tasks } = planScene(withLog(scene, log), now);
				tasks.forEach((task, i) => {
					const before = tasks[i - 1];
					if (before?.at !== task.at) return;
					pairs++;
					expect([before.id, task.id, stepOf(before) <= stepOf(task)]).toEqual([before.id, task.id, true]);
				});
			}),
			settings(40)
		);
		expect(pairs).toBeGreaterThan(300);
	});

	it('credit grows by no more than the hours at or above the floor', () => {
		const floor = 0.15;
		const weeks = [
			scenes.hold,
			() =>
				sceneOf({
					id: 'copper',
					kind: 'hold',
					medicine: 'cu',
					lasts: '14 d',
					level: '0.15-0.20 mg/L',
					repeat: 'ramp 3 d',
					change: '40% every 2 d',
					test: 'Cu daily'
				})
		];
		let grown = 0;
		fc.assert(
			fc.property(recipe(weeks).map(recordOf), ({ scene, log, days }) => {
				let before = 0;
				for (let day = 1; day <= days; day++) {
					const plan = planScene(withLog(scene, log), dec(day, '19:00'));
					const earned = plan.phases[0]?.creditedSoFar ?? 0;
					const last = day === 1 ? dec(1) : dec(day - 1, '08:00');
					const hours = hoursAbove(plan, floor, last, dec(day, '19:00'));
					// a dose logged within three hours of its service counts as given at it
					expect([day, earned - before <= hours / 24 + 1e-9]).toEqual([day, true]);
					if (earned > before) grown++;
					before = earned;
				}
			}),
			settings(15)
		);
		expect(grown).toBeGreaterThan(25);
	});
});

/** Copper is lost by nothing but changes here, so it stands still between two samples. */
function hoursAbove({ levels }: Plan, floor: number, from: string, to: string): number {
	const graceHours = 3;
	let hours = graceHours;
	levels.forEach((sample, i) => {
		const next = levels[i + 1];
		if (!next || (sample.medicinesMgPerL.cu ?? 0) < floor - 1e-9) return;
		const [start, end] = [
			Math.max(Date.parse(sample.at), Date.parse(from)),
			Math.min(Date.parse(next.at), Date.parse(to))
		];
		hours += Math.max(0, end - start) / 3_600_000;
	});
	return hours;
}
