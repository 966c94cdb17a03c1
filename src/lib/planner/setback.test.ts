import { describe, expect, it } from 'vitest';
import { openSlips, plan, setbacksOf, shownSlips } from './index.ts';
import { runOf } from './example.ts';
import { dec, doneUntil, scenes, withLog, type Entry } from './slips/scenes.ts';

/**
 * Copper from 1 December: 0.09, then 0.18 mg/L on the 2nd, from which days count; 14 of them end on the 16th, 14 days of
 * watch begin on the 16th and release is on the 30th. Rules of credit: judgment, no source.
 */
const read = (value: string, at: string, id: string): Entry => ({
	id,
	at,
	kind: 'reading',
	what: 'Cu',
	value
});
const setbacks = (log: Entry[], now: string) => {
	const run = runOf(withLog(scenes.hold(), log));
	return setbacksOf(run, plan(run, now), now);
};

describe('what a low reading took', () => {
	const log = doneUntil(scenes.hold(), dec(6, '12:00'));
	const inside = read('0.18 mg/L', dec(5, '20:00'), 'r1');

	it('says the new release against the one planned before it, and what it undid', () => {
		// under 0.1 mg/L every day is lost: 3.5 earned by the morning of the 6th are counted again from the evening
		const [cost] = setbacks([...log, inside, read('0.08 mg/L', dec(6, '13:30'), 'r2')], dec(6, '14:00'));
		expect(cost?.earned.to).toBe(0);
		expect(cost?.release).toMatchObject({ from: '2026-12-30', daysLater: 5, to: '2027-01-04' });
		expect(cost?.says).toBe(
			'Release on 2027-01-04, 5 days later than 2026-12-30, planned before: ionic copper read as 0.08 mg/L at 13:30 took back all 4 days earned.'
		);
	});

	it('keeps what was earned up to the last reading inside, while the break is short', () => {
		// inside on the 5th at 20:00, so the day from the 5th to the 6th at 08:00 is the one that goes
		const [cost] = setbacks([...log, inside, read('0.14 mg/L', dec(6, '13:30'), 'r2')], dec(6, '14:00'));
		expect(cost?.earned.from).toBeCloseTo(4, 9);
		expect(cost?.earned.to).toBeCloseTo(3, 9);
		expect(cost?.says).toContain('took back 1 of 4 days earned');
	});

	it('is silent about copper that was washed out, and about a rise that passes under the floor', () => {
		const washed = doneUntil(scenes.hold(), dec(20, '12:00'));
		expect(setbacks([...washed, read('0.03 mg/L', dec(20, '13:30'), 'r2')], dec(20, '14:00'))).toEqual([]);
		const rising = doneUntil(scenes.hold(), dec(1, '12:00'));
		expect(setbacks([...rising, read('0.07 mg/L', dec(1, '13:30'), 'r2')], dec(1, '14:00'))).toEqual([]);
	});

	it('is silent about a reading inside, and on another day', () => {
		expect(setbacks([...log, read('0.16 mg/L', dec(6, '13:30'), 'r2')], dec(6, '14:00'))).toEqual([]);
		expect(setbacks([...log, read('0.14 mg/L', dec(5, '13:30'), 'r2')], dec(6, '14:00'))).toEqual([]);
	});
});

describe('the release that a way leads to', () => {
	it('is held against the plan before the job was missed, not against the one that has it missed', () => {
		const log = doneUntil(scenes.hold(), dec(8, '12:00'), [
			'copper/change/4',
			'copper/dose/4',
			'copper/dose/7'
		]);
		const scene = withLog(scenes.hold(), [
			...log,
			{ id: 'c', at: dec(4, '08:05'), kind: 'done', task: 'copper/change/4' }
		]);
		const now = dec(8, '20:00');
		const slips = openSlips(scene, now, null);
		expect(slips.map(({ task }) => task.id)).toContain('copper/dose/4');
		const stands = plan(runOf(scene), now).release;
		for (const { ways } of slips) for (const { release } of ways) expect(release.from).toBe('2026-12-30');
		expect(stands).not.toBe('2026-12-30');
		const names = { phase: (id: string) => id, medicine: (id: string) => id };
		const [first] = shownSlips(slips, names);
		expect(first?.ways.map(({ effects }) => effects.release).join()).toMatch(/days? later than planned/);
	});
});

/** The water is the same whichever job the dose is written under: the next make-up is given at that hour too. */
describe('a dose of yesterday that is given now', () => {
	const read18 = (day: number) => read('0.18 mg/L', dec(day, '08:06'), `i${day}`);

	it.each([
		[4, '08:30', null],
		[4, '09:30', null],
		[4, '09:30', '0.12 mg/L'],
		[4, '10:55', '0.14 mg/L'],
		[7, '09:30', null],
		[7, '10:55', '0.14 mg/L']
	])('of day %i at %s does not end later than leaving it, read as %s', (day, time, value) => {
		const log = doneUntil(scenes.hold(), dec(day + 1, '08:30'), [
			`copper/dose/${day}`,
			`copper/dose/${day + 1}`
		]);
		const inside = Array.from({ length: day - 3 }, (_, n) => read18(n + 3));
		const low = value ? [read(value, dec(day, '08:06'), 'low')] : [];
		const slips = openSlips(withLog(scenes.hold(), [...log, ...inside, ...low]), dec(day + 1, time), null);
		const ways = slips.find(({ task }) => task.id === `copper/dose/${day}`)?.ways ?? [];
		const release = (taken: string) => ways.find((way) => way.taken === taken)?.release.to ?? null;
		expect(release('now')).not.toBeNull();
		expect(String(release('now')) <= String(release('skip'))).toBe(true);
	});
});

/** A day and two hours after the last reading inside a break is no pause any more (judgment, no source). */
describe('the hour by which a low level is back inside', () => {
	const inside = read('0.18 mg/L', dec(5, '08:05'), 'r1');
	const low = read('0.14 mg/L', dec(6, '08:10'), 'r2');
	const again = read('0.14 mg/L', dec(6, '08:12'), 'r3');
	const log = doneUntil(scenes.hold(), dec(6, '07:00')).filter(({ task }) => task !== 'copper/test/5');
	const planned = (entries: Entry[], now: string) => plan(runOf(withLog(scenes.hold(), entries)), now);
	const earned = (given: string) => {
		const dose = { id: 'x', at: given, kind: 'done', task: 'copper/dose/6' };
		const { phases } = planned([...log, inside, low, again, dose], dec(6, '20:00'));
		return phases.find(({ id }) => id === 'copper')?.creditedSoFar ?? 0;
	};

	it('stands on the job', () => {
		const { tasks } = planned([...log, inside, low, again], dec(6, '08:15'));
		expect(tasks.find(({ id }) => id === 'copper/dose/6')?.because).toContain(
			'Back inside by 10:05, the course only pauses; later it begins again.'
		);
	});

	it('is kept by the plan to the minute', () => {
		expect(earned(dec(6, '10:04'))).toBeGreaterThan(2);
		expect(earned(dec(6, '10:06'))).toBe(0);
	});
});
