import { describe, expect, it } from 'vitest';
import { readRun } from '../run/index.ts';
import { plan, type Plan } from './index.ts';
import { asPlanned, at, day, future, known, task, untouched, withLog, type Entry } from './sample-log.ts';

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
