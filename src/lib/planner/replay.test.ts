import { describe, expect, it } from 'vitest';
import { readRun } from '../run/index.ts';
import { exampleDocument, exampleNow, exampleWith, runOf } from './example.ts';
import { plan, type Plan, type Task } from './index.ts';

type Entry = Record<string, unknown>;

const day = (n: number) => new Date(Date.UTC(2026, 10, 27 + n)).toISOString().slice(0, 10);
/** An instant on the n-th day of the run, Chicago winter time. */
const at = (n: number, time = '08:10') => `${day(n)}T${time}:00-06:00`;
const known = exampleWith({ away: [] });
const untouched = plan(runOf(known), exampleNow);

/** Everything of the first days logged exactly as planned, at the minute it was planned for. */
function asPlanned(until: number, except: string[] = []): Entry[] {
	const first = untouched.tasks.filter(({ date }) => date < day(until));
	return first.flatMap((task, i) => (except.includes(task.id) ? [] : [entryFor(task, String(i + 1000))]));
}

function entryFor(task: Task, id: string): Entry {
	if (task.kind !== 'test') return { id, at: task.at, kind: 'done', task: task.id };
	const sample = untouched.levels.find((one) => one.at === task.at && one.when === 'before');
	if (task.what?.includes('Cu'))
		return {
			id,
			at: task.at,
			kind: 'reading',
			task: task.id,
			what: 'Cu',
			value: `${sample?.medicinesMgPerL.cu} mg/L`
		};
	return { id, at: task.at, kind: 'done', task: task.id };
}

const withLog = (log: Entry[], now: string, extra: object = {}): Plan =>
	plan(runOf({ ...known, ...extra, log }), now);
const task = ({ tasks }: Plan, id: string) => tasks.find((one) => one.id === id);
const future = ({ tasks }: Plan, from: string) =>
	tasks.filter(({ date }) => date >= from).map(({ id, date, amount }) => [id, date, amount?.value ?? null]);

describe('the log', () => {
	it('logging exactly what was planned changes no future task', () => {
		for (const days of [2, 5, 9, 20]) {
			const now = at(days - 1, '22:00');
			expect(future(withLog(asPlanned(days), now), day(days))).toEqual(future(untouched, day(days)));
		}
	});

	it('the order of arrival and a resent entry change nothing', () => {
		const log = asPlanned(9);
		const now = at(8, '22:00');
		const straight = withLog(log, now);
		expect(withLog([...log].reverse(), now)).toEqual(straight);
		expect(withLog([...log, ...log.slice(3, 8)], now)).toEqual(straight);
	});

	it('a dose nobody answered for withholds the next until it is read or logged', () => {
		const log = asPlanned(6, ['copper/dose/2', 'copper/test/3', 'copper/test/2']);
		const open = withLog(log, at(6, '07:00'));
		expect(task(open, 'copper/dose/2')?.state).toBe('open');
		expect(open.findings.map(({ rule }) => rule)).toContain('dose-unanswered');
		const later = open.tasks.filter(
			({ kind, phase, date }) => kind === 'dose' && phase === 'copper' && date >= day(6)
		);
		expect(later.length).toBeGreaterThan(0);
		expect(later.every(({ amount }) => amount === null)).toBe(true);
		const read: Entry = { id: 'x', at: at(5, '20:00'), kind: 'reading', what: 'Cu', value: '0.09 mg/L' };
		const answered = withLog([...log, read], at(6, '07:00'));
		expect(answered.findings.map(({ rule }) => rule)).not.toContain('dose-unanswered');
		expect(task(answered, 'copper/dose/4')?.amount?.value).toBeGreaterThan(0);
	});

	it('the test before a forgotten dose does not say that it was not given; the next one does', () => {
		const log = asPlanned(5, ['copper/dose/2']);
		const twice = withLog(log, at(5, '08:30'));
		expect(twice.findings.map(({ rule }) => rule)).toContain('dose-unanswered');
		expect(task(twice, 'copper/dose/3')?.amount ?? null).toBeNull();
		const value = '0.09 mg/L';
		const read: Entry = { id: 'x', at: at(5), kind: 'reading', task: 'copper/test/3', what: 'Cu', value };
		const answered = withLog([...log, read], at(5, '08:30'));
		expect(answered.findings.map(({ rule }) => rule)).not.toContain('dose-unanswered');
		// (0.18 - 0.09) x 112 L / 2 mg/mL, down to the step
		expect(task(answered, 'copper/dose/3')?.amount?.value).toBe(5);
	});

	it('an unconfirmed low reading is answered within the ceiling: (0.20 - 0.17) x 112 = 3.36 mg = 1.6 mL of 2 mg/mL', () => {
		const aim = { copper: { aim: '0.17 mg/L', change: 'none' } };
		const steady = {
			...exampleWith(
				{
					away: [],
					medicines: [{ ...exampleDocument.medicines[0], measure: '0.1 mL' }, exampleDocument.medicines[1]]
				},
				aim
			)
		};
		const at17: Entry = { id: 'a', at: at(9, '08:00'), kind: 'reading', what: 'Cu', value: '0.17 mg/L' };
		const at12: Entry = {
			id: 'b',
			at: at(10, '08:05'),
			kind: 'reading',
			task: 'copper/test/8',
			what: 'Cu',
			value: '0.12 mg/L'
		};
		const once = plan(runOf({ ...steady, log: [...doneUntil(steady, 9), at17, at12] }), at(10, '09:00'));
		expect(task(once, 'copper/dose/8')?.amount).toEqual({ value: 1.6, unit: 'mL' });
		const again: Entry = { id: 'c', at: at(10, '08:40'), kind: 'reading', what: 'Cu', value: '0.12 mg/L' };
		const twice = plan(
			runOf({ ...steady, log: [...doneUntil(steady, 9), at17, at12, again] }),
			at(10, '09:00')
		);
		// (0.17 - 0.12) x 112 / 2 = 2.8 mL
		expect(task(twice, 'copper/dose/8')?.amount).toEqual({ value: 2.8, unit: 'mL' });
	});

	it('a reading above the ceiling blanks every dose of that medicine until a retest', () => {
		const high: Entry = { id: 'h', at: at(6, '08:05'), kind: 'reading', what: 'Cu', value: '0.26 mg/L' };
		const blanked = withLog([...asPlanned(6), high], at(6, '09:00'));
		expect(
			blanked.findings.some(({ rule, severity }) => rule === 'reading-doubtful' && severity === 'stop')
		).toBe(true);
		const doses = blanked.tasks.filter(
			({ kind, phase, date }) => kind === 'dose' && phase === 'copper' && date > day(6)
		);
		expect(doses.every(({ amount }) => amount === null)).toBe(true);
		const retest: Entry = { id: 'i', at: at(6, '08:30'), kind: 'reading', what: 'Cu', value: '0.18 mg/L' };
		const cleared = withLog([...asPlanned(6), high, retest], at(6, '09:00'));
		expect(cleared.findings.some(({ rule }) => rule === 'reading-doubtful')).toBe(false);
	});

	it('a reading before the top-off belongs to the shrunken volume: 0.12 at 106 L asks 3.7 mL to 0.18 in 112 L', () => {
		const drying = exampleWith(
			{ away: [], tank: { ...exampleDocument.tank, evaporates: '6 L/d' } },
			{ copper: { change: 'none' }, settle: { change: 'none' } }
		);
		const confirm = [
			{ id: 'b1', at: at(9, '07:59'), kind: 'reading', what: 'Cu', value: '0.12 mg/L' },
			{ id: 'b2', at: at(9, '07:59'), kind: 'reading', what: 'Cu', value: '0.12 mg/L' }
		];
		const result = plan(runOf({ ...drying, log: [...doneUntil(drying, 9), ...confirm] }), at(9, '07:59'));
		const today = result.tasks.filter(({ date }) => date === day(9));
		expect(today.find(({ kind }) => kind === 'topoff')?.amount?.value).toBeCloseTo(6, 1);
		// 0.18 x 112 - 0.12 x 106 = 7.44 mg = 3.72 mL
		expect(today.find(({ kind }) => kind === 'dose')?.amount?.value).toBeCloseTo(3.7, 9);
	});

	it('a correction replaces what was read, and a void takes it back', () => {
		const wrong: Entry = { id: 'w', at: at(8, '08:05'), kind: 'reading', what: 'Cu', value: '0.12 mg/L' };
		const now = at(8, '22:00');
		const fixed = {
			id: 'f',
			at: at(8, '09:00'),
			kind: 'correct',
			entry: 'w',
			as: { kind: 'reading', what: 'Cu', value: '0.17 mg/L' }
		};
		const right: Entry = { ...wrong, value: '0.17 mg/L' };
		expect(withLog([...asPlanned(9), wrong, fixed], now).levels).toEqual(
			withLog([...asPlanned(9), right], now).levels
		);
		const gone = { id: 'f', at: at(8, '09:00'), kind: 'correct', entry: 'w', void: true };
		expect(withLog([...asPlanned(9), wrong, gone], now)).toEqual(withLog(asPlanned(9), now));
	});

	it('what was given up is not counted among what the run uses up', () => {
		const gone = withLog(
			[...asPlanned(3), { id: 'm', at: at(3, '09:00'), kind: 'missed', task: 'copper/dose/1' }],
			at(3, '22:00')
		);
		const copper = gone.tasks.filter(({ medicine, state }) => medicine === 'cu' && state !== 'missed');
		const used = copper.reduce((sum, { amount }) => sum + (amount?.value ?? 0), 0);
		expect(task(gone, 'copper/dose/1')).toMatchObject({ state: 'missed', amount: { value: 5 } });
		expect(gone.supplies.medicines.find(({ id }) => id === 'cu')?.value).toBeCloseTo(used, 9);
	});

	it('a hold that is over has all its days on the record', () => {
		const copper = untouched.phases.find(({ id }) => id === 'copper');
		const over = untouched.tasks.filter(({ date }) => date <= (copper?.to ?? '')).at(-1);
		const days = (Date.parse(`${over?.date}`) - Date.parse(day(0))) / 86_400_000 + 3;
		const later = withLog(asPlanned(days), at(days - 1, '22:00'));
		expect(later.phases.find(({ id }) => id === 'copper')?.creditedSoFar).toBeCloseTo(28, 6);
	});

	it('a reading below the floor withdraws credit, and fish that join restart it', () => {
		const now = at(12, '22:00');
		const release = (plan: Plan) => plan.release ?? '';
		const low: Entry = { id: 'l', at: at(10, '08:05'), kind: 'reading', what: 'Cu', value: '0.08 mg/L' };
		expect(release(withLog([...asPlanned(13), low], now)) > release(untouched)).toBe(true);
		const joins = {
			id: 'j',
			at: at(9, '17:00'),
			kind: 'fish',
			lot: { id: 'b', what: 'wrasse', group: 'wrasse', count: 1, feed: '0.3 g/d', protein: 0.09 }
		};
		const restarted = withLog([...asPlanned(13), joins], now);
		const earned = restarted.phases.find(({ creditedSoFar }) => creditedSoFar !== undefined)?.creditedSoFar;
		// from 17:00 of the ninth day to the service of the twelfth
		expect(earned).toBeGreaterThan(1);
		expect(earned).toBeLessThanOrEqual(2 + 15 / 24);
		// nine days in, seven of them credited: they are earned again
		expect(release(restarted) > release(untouched)).toBe(true);
		expect(release(withLog([...asPlanned(13), { ...joins, restart: false }], now))).toBe(release(untouched));
	});

	it('a wash-out whose kit still shows copper on its last day goes on', () => {
		const shows: Entry = { id: 'k', at: at(40, '08:30'), kind: 'reading', what: 'Cu', value: '0.05 mg/L' };
		const wash = untouched.phases.find(({ id }) => id === 'wash');
		const clear = withLog(
			[...asPlanned(36), { ...shows, at: `${wash?.to}T08:30:00-06:00` }],
			`${wash?.to}T22:00:00-06:00`
		);
		const to = clear.phases.find(({ id }) => id === 'wash')?.to ?? '';
		expect(to > (wash?.to ?? '')).toBe(true);
	});

	describe('the kit decides when a wash-out is over', () => {
		const planned = untouched.phases.find(({ id }) => id === 'wash')?.to ?? '';
		const last = Math.round((Date.parse(planned) - Date.parse(day(0))) / 86_400_000);
		const first = last - 4;
		const read = (n: number, value: string): Entry => ({
			id: `r${n}`,
			at: at(n, '08:05'),
			kind: 'reading',
			task: `wash/test/${n - first + 1}`,
			what: 'Cu',
			value: `${value} mg/L`
		});
		const washes = (plan: Plan, n: number) =>
			plan.tasks
				.filter(({ kind, date }) => kind === 'washout' && date >= day(n))
				.map(({ date, text, state }) => `${date} ${text} ${state}`);
		const endOf = (plan: Plan) => plan.phases.find(({ id }) => id === 'wash')?.to;
		const on = (log: Entry[], n: number, time = '22:00') => withLog(log, at(n, time));

		it('a reading of what is washed out on the same day does not ask for one day more', () => {
			// four halvings: 0.18 / 16 is clear, and 0.18 / 8 is what the kit shows before the last of them
			const log = asPlanned(last);
			expect(endOf(on(log, last - 1))).toBe(planned);
			expect(washes(on(log, last, '08:01'), last)).toEqual([]);
		});

		it('a reading above clear on its last day brings the change back, for the same day', () => {
			const shown = on([...asPlanned(last), read(last, '0.03')], last, '08:10');
			expect(washes(shown, last)).toEqual([`${day(last)} Wash out 56 L open`]);
			expect(endOf(shown)).toBe(day(last + 1));
			// what takes it out stays in: not today any more, and the day after nobody has missed it
			const carbon = (plan: Plan) => plan.tasks.filter(({ text }) => text === 'Take the carbon out');
			expect(carbon(on(asPlanned(last), last, '08:01')).map(({ date }) => date)).toEqual([day(last)]);
			expect(carbon(shown).map(({ date }) => date)).toEqual([day(last + 1)]);
			const next = on([...asPlanned(last), read(last, '0.03')], last + 1, '07:00');
			expect(carbon(next).map(({ date }) => date)).not.toContain(day(last));
		});

		it('the reading of none after it ends the wash-out, with nothing left to wash out', () => {
			const done: Entry = {
				id: 'w',
				at: at(last, '08:10'),
				kind: 'done',
				task: 'wash/washout/5',
				amount: '56 L'
			};
			const log = [...asPlanned(last), read(last, '0.03'), done, read(last + 1, '0')];
			for (const now of ['08:10', '22:00']) {
				const clear = on(log, last + 1, now);
				expect(washes(clear, last)).toEqual([`${day(last)} Wash out 56 L done`]);
				expect(endOf(clear)).toBe(day(last + 1));
				// 0.015 was thought: none and next to none agree
				expect(clear.findings.map(({ rule }) => rule)).not.toContain('reading-doubtful');
			}
			expect(washes(on(log, last + 3), last + 1)).toEqual([]);
			expect(endOf(on(log, last + 3))).toBe(day(last + 1));
		});

		it('a reading of none that nobody expected takes the change away, and is asked for again', () => {
			const early = last - 2;
			const log = [...asPlanned(early), read(early, '0')];
			expect(washes(on(log, early, '08:02'), early)[0]).toBe(`${day(early)} Wash out 56 L open`);
			expect(washes(on(log, early, '08:10'), early)).toEqual([]);
			expect(endOf(on(log, early))).toBe(day(early + 1));
			// seen from the day after, nobody has to say what became of it
			expect(washes(on(log, early + 1, '09:00'), early)).toEqual([]);
		});
	});

	it('wanting to give a missed dose is not having given it; giving it up is an answer', () => {
		const log = asPlanned(6, ['copper/dose/2', 'copper/test/2', 'copper/test/3']);
		const chosen = (taken: string, now = at(6, '07:00')) =>
			withLog([...log, { id: 'z', at: at(5, '20:00'), kind: 'choice', task: 'copper/dose/2', taken }], now);
		// until the next service it stands as about to be given, like the jobs of the latest one
		expect(task(chosen('now'), 'copper/dose/2')).toMatchObject({
			date: day(5),
			time: '20:00',
			state: 'open'
		});
		expect(chosen('now').findings.map(({ rule }) => rule)).not.toContain('dose-unanswered');
		expect(chosen('now', at(6, '09:00')).findings.map(({ rule }) => rule)).toContain('dose-unanswered');
		expect(chosen('skip').findings.map(({ rule }) => rule)).not.toContain('dose-unanswered');
		expect(task(chosen('skip'), 'copper/dose/2')?.state).toBe('missed');
	});

	it('ammonia read at an emergency is a stop at once, not at the next service', () => {
		const high: Entry = { id: 'n', at: at(4, '08:05'), kind: 'reading', what: 'NH3', value: '2.5 mg/L' };
		const found = withLog([...asPlanned(4), high], at(4, '08:30')).findings.find(
			({ rule }) => rule === 'ammonia-now'
		);
		// 5.61 % of 2.5 mg/L at 26 C, 34 ppt, pH 8.1 (Bell et al.)
		expect(found).toMatchObject({
			severity: 'stop',
			message: 'Toxic ammonia stands at 0.14 mg/L NH3-N now.'
		});
		// 1 - 0.02 / 0.1404 of 112 L, new water without ammonia: 96.04 L, in whole litres 97
		expect(found?.because).toContain('change 97 L, 87 % of the water, at once');
	});

	it('topping off never makes the tank larger than it is', () => {
		const more = [2, 3, 4].map((n): Entry => ({
			id: `t${n}`,
			at: at(n, '09:00'),
			kind: 'topoff',
			litres: '2 L'
		}));
		expect(
			withLog([...asPlanned(6), ...more], at(5, '22:00')).levels.every(({ volumeL }) => volumeL <= 112)
		).toBe(true);
	});

	it('a dose in part says what it raised', () => {
		const given: Entry = {
			id: 'q',
			at: at(3, '08:05'),
			kind: 'done',
			task: 'copper/dose/1',
			amount: '2.0 mL'
		};
		const dose = task(withLog([...asPlanned(4, ['copper/dose/1']), given], at(3, '22:00')), 'copper/dose/1');
		expect(dose?.text).toBe('Ionic copper 2.0 mL');
		expect(dose?.raises?.to).toBeCloseTo(4 / 112, 12);
	});

	// the log takes no mass of a liquid any more; a bottle may have been written anew since
	it('a dose that stands in the log by mass or in litres counts what was in it', () => {
		const after = (amount: string) => {
			const given: Entry = { id: 'q', at: at(3, '08:05'), kind: 'done', task: 'copper/dose/1', amount };
			const log = [...asPlanned(4, ['copper/dose/1']), given];
			const result = plan(readRun({ ...known, log }, { today: day(3) }), at(3, '22:00'));
			const level = result.levels.find(({ date, when }) => date === day(4) && when === 'before');
			return [task(result, 'copper/dose/1')?.text, Number((level?.medicinesMgPerL.cu ?? 0).toFixed(4))];
		};
		// 4 mg of copper are 2.0 mL of 2 mg/mL: 4 / 112
		expect(after('4 mg')).toEqual(['Ionic copper 4 mg', 0.0357]);
		expect(after('0.002 L')[1]).toBe(0.0357);
	});

	it('fish that die make less ammonia', () => {
		const dead: Entry = { id: 'd', at: at(8, '12:00'), kind: 'loss', lot: 'a', count: 4 };
		const now = at(8, '22:00');
		const tan = (plan: Plan) =>
			plan.levels.find(({ date, when }) => date === day(12) && when === 'before')?.tanMgNPerL ?? 0;
		expect(tan(withLog([...asPlanned(9), dead], now))).toBeLessThan(tan(untouched) * 0.8);
	});

	it('a dose given late, in part or not at all says so, and only what was given is in the water', () => {
		const rest = asPlanned(4, ['copper/dose/1']);
		const state = (entry: Entry) => {
			const result = withLog([...rest, entry], at(3, '22:00'));
			const level = result.levels.find(({ date, when }) => date === day(4) && when === 'before');
			return [task(result, 'copper/dose/1')?.state, Number((level?.medicinesMgPerL.cu ?? 0).toFixed(4))];
		};
		expect(state({ id: 'q', at: at(3, '08:05'), kind: 'done', task: 'copper/dose/1' })).toEqual([
			'done',
			0.0893
		]);
		expect(
			state({ id: 'q', at: at(3, '08:05'), kind: 'done', task: 'copper/dose/1', amount: '2.0 mL' })
		).toEqual(['partly', 0.0357]);
		expect(state({ id: 'q', at: at(3, '08:05'), kind: 'missed', task: 'copper/dose/1' })).toEqual([
			'missed',
			0
		]);
	});
});

/** Every job before a day done as planned, for a document of one's own. */
function doneUntil(document: object, until: number): Entry[] {
	const { tasks } = plan(runOf(document), exampleNow);
	return tasks
		.filter(({ date }) => date < day(until))
		.map(({ id, at: when }, i) => ({ id: `p${i}`, at: when, kind: 'done', task: id }));
}
