import { describe, expect, it } from 'vitest';
import type { Taken } from '../run/index.ts';
import {
	dec,
	doneEntry,
	doneUntil,
	planScene,
	scenes,
	stamps,
	taskIn,
	withLog,
	type Entry,
	type SceneName
} from './slips/scenes.ts';

/**
 * The run of a scene on `now`, every job before it logged but `open`, with what was chosen about the first of these:
 *
 *     chosen('pulse', ['flukes/dose/2'], dec(10), 'now-shift')
 */
function chosen(name: SceneName, open: string[], now: string, taken: Taken, more: Entry[] = [], later = now) {
	const scene = scenes[name]();
	const choice: Entry = { id: 'choice', at: now, kind: 'choice', task: open[0] ?? '', taken };
	return planScene(withLog(scene, [...doneUntil(scene, now, open), choice, ...more]), later);
}

const dates = (lines: string[]) => lines.map((line) => line.replace(' 08:00', '').replace(' planned', ''));

describe('a daily course, its third dose open on the fourth day', () => {
	const open = ['bath/dose/3', 'bath/dose/4'];
	const at = (taken: Taken) => stamps(chosen('daily', open, dec(4, '08:10'), taken), 'dose');

	it('goes on a day later when that dose is given and the rest moves', () => {
		expect(dates(at('now-shift')).slice(1)).toEqual([
			'bath/dose/2 2026-12-02 done',
			'bath/dose/3 2026-12-04 08:10 open',
			'bath/dose/4 2026-12-05',
			'bath/dose/5 2026-12-06',
			'bath/dose/6 2026-12-07',
			'bath/dose/7 2026-12-08',
			'bath/dose/8 2026-12-09',
			'bath/dose/9 2026-12-10',
			'bath/dose/10 2026-12-11'
		]);
	});

	it('makes a dose that is given up good at the end, under a number of its own', () => {
		expect(dates(at('skip')).slice(2, 4)).toEqual([
			'bath/dose/3 2026-12-03 missed',
			'bath/dose/4 2026-12-04 open'
		]);
		expect(dates(at('skip')).slice(-2)).toEqual(['bath/dose/10 2026-12-10', 'bath/dose/11 2026-12-11']);
	});

	it('keeps its days when only that dose is given', () => {
		expect(dates(at('now')).slice(2, 5)).toEqual([
			'bath/dose/4 2026-12-04 open',
			'bath/dose/3 2026-12-04 08:10 open',
			'bath/dose/5 2026-12-05'
		]);
		expect(at('now')).toHaveLength(10);
	});

	it('begins anew with ten doses that count on from the fourth', () => {
		const doses = dates(at('restart'));
		expect(doses.slice(2, 5)).toEqual([
			'bath/dose/3 2026-12-03 missed',
			'bath/dose/4 2026-12-04 missed',
			'bath/dose/5 2026-12-05'
		]);
		expect(doses.at(-1)).toBe('bath/dose/14 2026-12-14');
	});
});

describe('a pair of pulses, the second open', () => {
	it('goes on until somebody answers, and what comes after it waits', () => {
		const scene = scenes.pulse();
		const open = planScene(withLog(scene, doneUntil(scene, dec(12), ['flukes/dose/2'])), dec(12));
		const of = (id: string) => open.phases.find((phase) => phase.id === id);
		// the service of the 12th is at hand and not past: the phase ends with the day before
		expect(of('flukes')?.to).toBe('2026-12-11');
		expect(of('watch')?.from).toBe('2026-12-12');
		const given = [
			...doneUntil(scene, dec(12), ['flukes/dose/2']),
			doneEntry({ id: 'flukes/dose/2', at: dec(10) }, 'x')
		];
		expect(planScene(withLog(scene, given), dec(12)).phases[0]?.to).toBe('2026-12-10');
	});

	it('begins anew as a pair of its own, seven days apart, and no check takes the old dose for its first', () => {
		const plan = chosen('pulse', ['flukes/dose/2'], dec(13, '14:00'), 'restart');
		expect(dates(stamps(plan, 'dose'))).toEqual([
			'flukes/dose/1 2026-12-01 done',
			'flukes/dose/2 2026-12-08 missed',
			'flukes/dose/3 2026-12-14',
			'flukes/dose/4 2026-12-21'
		]);
		expect(taskIn(plan, 'flukes/dose/3')?.because).toMatch(/^Dose 1 of 2/);
		expect(plan.findings.map(({ rule }) => rule)).not.toContain('pulse-gap');
		expect(plan.phases.map(({ from }) => from)).toEqual(['2026-12-01', '2026-12-22', '2027-01-05']);
	});

	it('is given once: the amount of the moment, the later entry fills it in', () => {
		const now = dec(9, '14:00');
		const before = chosen('pulse', ['flukes/dose/2'], now, 'now');
		expect(taskIn(before, 'flukes/dose/2')).toMatchObject({
			date: '2026-12-09',
			time: '14:00',
			state: 'open'
		});
		const done = doneEntry({ id: 'flukes/dose/2', at: dec(9, '14:00') }, 'x');
		const after = chosen('pulse', ['flukes/dose/2'], now, 'now', [done], dec(11));
		expect(taskIn(after, 'flukes/dose/2')).toMatchObject({
			time: '14:00',
			state: 'done',
			amount: { value: 250 }
		});
		const level = after.levels.find(({ at }) => at === dec(10))?.medicinesMgPerL.pz ?? 0;
		const twice = chosen('pulse', ['flukes/dose/2'], now, 'now', [done, { ...done }], dec(11));
		expect(twice).toEqual(after);
		// the forecast goes by the least loss, which is none: 2.5 and 2.5
		expect(level).toBeCloseTo(5, 9);
	});

	it('is open again once a service passes and nobody logged it', () => {
		const plan = chosen('pulse', ['flukes/dose/2'], dec(9, '14:00'), 'now', [], dec(10, '09:00'));
		expect(taskIn(plan, 'flukes/dose/2')).toMatchObject({ date: '2026-12-09', time: '14:00', state: 'open' });
		expect(plan.findings.map(({ rule }) => rule)).toContain('dose-unanswered');
		expect(plan.levels.at(-1)?.medicinesMgPerL.pz).toBeCloseTo(2.5, 9);
	});

	it('a dose on record is not moved by a choice that comes after it, and given up once is given up', () => {
		const scene = scenes.pulse();
		const log = doneUntil(scene, dec(9));
		const late: Entry = { id: 'z', at: dec(9), kind: 'choice', task: 'flukes/dose/2', taken: 'restart' };
		const [with_, without] = [[...log, late], log].map((entries) =>
			planScene(withLog(scene, entries), dec(9))
		);
		expect(with_?.tasks).toEqual(without?.tasks);
		expect(with_?.phases).toEqual(without?.phases);
		const again: Entry = {
			id: 'zz',
			at: dec(9, '15:00'),
			kind: 'choice',
			task: 'bath/dose/3',
			taken: 'skip'
		};
		const twice = chosen('daily', ['bath/dose/3'], dec(9, '14:00'), 'skip', [again], dec(9, '16:00'));
		expect(stamps(twice, 'dose')).toHaveLength(11);
	});
});

describe('moves and dips', () => {
	it('a series of four moves, the second a day late: shifted, or begun anew from where the fish are', () => {
		const open = ['move/transfer/2'];
		expect(dates(stamps(chosen('transfer', open, dec(4, '12:00'), 'now-shift'), 'transfer'))).toEqual([
			'move/transfer/1 2026-12-01 done',
			'move/transfer/2 2026-12-04 12:00 open',
			'move/transfer/3 2026-12-07',
			'move/transfer/4 2026-12-10'
		]);
		const anew = chosen('transfer', open, dec(5, '09:00'), 'restart');
		expect(dates(stamps(anew, 'transfer')).slice(1)).toEqual([
			'move/transfer/2 2026-12-04 missed',
			'move/transfer/3 2026-12-06',
			'move/transfer/4 2026-12-09',
			'move/transfer/5 2026-12-12',
			'move/transfer/6 2026-12-15'
		]);
		// the first move brought them into Q2, the second was never made
		expect(taskIn(anew, 'move/transfer/3')?.text).toBe('Move 1 of 4: all fish into Q1, clean and dry');
		expect(anew.findings.map(({ rule }) => rule)).not.toContain('transfer-gap');
	});

	it('a move given up leaves six days between two, which is a stop', () => {
		const plan = chosen('transfer', ['move/transfer/2'], dec(5, '09:00'), 'skip');
		expect(plan.findings.find(({ rule }) => rule === 'transfer-gap')?.message).toContain('144 h');
	});

	it('dips keep three days between them when the rest moves', () => {
		const plan = chosen('dip', ['rinse/dip/2'], dec(5, '09:00'), 'now-shift');
		expect(dates(stamps(plan, 'dip')).slice(1)).toEqual([
			'rinse/dip/2 2026-12-05 09:00 open',
			'rinse/dip/3 2026-12-08'
		]);
	});
});

describe('a hold', () => {
	const open = ['copper/dose/4'];
	const credit = (plan: ReturnType<typeof planScene>) => plan.phases[0];

	it('counts from the hour its make-up was given, not from the next morning', () => {
		const now = credit(chosen('hold', open, dec(4, '14:00'), 'now'));
		const skip = credit(chosen('hold', open, dec(5, '07:00'), 'skip'));
		// given at 14:00 it is outside for six hours; left to the next morning for a whole day
		expect(now?.creditedDays).toBeGreaterThan(skip?.creditedDays ?? Infinity);
		// two days earned by the 4th, then from 14:00 on: 14.75 on the morning of the 17th
		expect(now).toMatchObject({ creditedDays: 14.75, to: '2026-12-16' });
		expect(skip?.to).toBe('2026-12-18');
	});

	it('begun anew has earned nothing and asks all of its fourteen days from the next service', () => {
		const plan = chosen('hold', ['copper/test/6'], dec(6, '15:00'), 'restart');
		expect(credit(plan)).toMatchObject({ creditedSoFar: 0, creditedDays: 14, to: '2026-12-20' });
	});
});
