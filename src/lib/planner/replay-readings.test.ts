import { describe, expect, it } from 'vitest';
import { exampleDocument, exampleWith, runOf } from './example.ts';
import { plan, type Plan } from './index.ts';
import { asPlanned, at, day, doneUntil, task, untouched, withLog, type Entry } from './sample-log.ts';

describe('what was read', () => {
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
});
