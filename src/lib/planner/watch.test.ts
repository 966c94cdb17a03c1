import { describe, expect, it } from 'vitest';
import { readRun } from '../run/index.ts';
import { plan } from './planning.ts';
import { watchClock } from './watch.ts';

/** Fish of 1 Nov 2026 that are only watched, and, with `dose`, given a fluke treatment on the 5th and 12th. */
function clockOn(day: string, log: object[] = [], dose = false) {
	const run = readRun(
		{
			format: 'lazaret-plan/1',
			timeZone: 'UTC',
			tank: { net: '100 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1 },
			lots: [{ id: 'a', what: 'gobies', group: 'goby', count: 3, mass: '20 g', arrived: '2026-11-01' }],
			medicines: [{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }],
			phases: [
				{ id: 'settle', kind: 'settle', starts: 'on 2026-11-01', lasts: '4 d' },
				...(dose
					? [
							{
								id: 'flukes',
								kind: 'pulse',
								medicine: 'pz',
								starts: 'after settle',
								lasts: '2 doses',
								level: '2.5 mg/L',
								repeat: 'every 7 d'
							}
						]
					: []),
				{ id: 'watch', kind: 'observe', starts: dose ? 'after flukes' : 'after settle', lasts: '14 d' },
				{ id: 'release', kind: 'release', starts: 'after watch' }
			],
			log: log.map((entry, i) => ({ id: String(i), ...entry }))
		},
		{ today: null }
	);
	const now = `${day}T12:00:00Z`;
	const made = plan(run, now);
	return { clock: watchClock(run, made, now), findings: made.findings };
}
const sign = (day: string, signs = ['haze']) => ({
	at: `${day}T09:00:00Z`,
	kind: 'observation',
	lot: 'a',
	signs
});

describe('the watch clock', () => {
	it('counts clean days up to yesterday, and the whole stay', () => {
		expect(clockOn('2026-11-11').clock).toEqual({
			cleanDays: 10,
			cleanAsked: 14,
			since: null,
			due: false,
			days: 10,
			daysAsked: 30,
			earliest: '2026-12-01'
		});
		expect(clockOn('2026-10-30').clock).toBeNull();
	});

	it('goes back to zero with a sign, and not with a clean look', () => {
		expect(clockOn('2026-11-20', [sign('2026-11-18')]).clock).toMatchObject({
			cleanDays: 1,
			since: { day: '2026-11-18', sign: true },
			earliest: '2026-12-03'
		});
		expect(clockOn('2026-11-20', [sign('2026-11-18', ['none'])]).clock?.since).toBeNull();
	});

	it('goes back with a treatment, and a planned one keeps the release away', () => {
		expect(clockOn('2026-11-07', [], true).clock).toMatchObject({
			cleanDays: 1,
			since: { day: '2026-11-05', sign: false },
			earliest: '2026-12-01'
		});
		expect(
			clockOn(
				'2026-11-14',
				[{ at: '2026-11-12T08:05:00Z', kind: 'done', task: 'flukes/dose/2' }, sign('2026-11-19')],
				true
			).clock
		).toMatchObject({
			since: { day: '2026-11-12', sign: false }
		});
	});

	it('counts a treatment of today once it is given, and says before that it is due', () => {
		const first = { at: '2026-11-05T08:05:00Z', kind: 'done', task: 'flukes/dose/1' };
		expect(clockOn('2026-11-12', [first], true).clock).toMatchObject({
			cleanDays: 6,
			since: { day: '2026-11-05' },
			due: true,
			// 14 clean days after the dose that is planned for today; 30 in all ask for more
			earliest: '2026-12-01'
		});
		const second = { at: '2026-11-12T08:05:00Z', kind: 'done', task: 'flukes/dose/2' };
		expect(clockOn('2026-11-12', [first, second], true).clock).toMatchObject({
			cleanDays: 0,
			since: { day: '2026-11-12', sign: false },
			due: false
		});
		const skipped = { at: '2026-11-12T08:05:00Z', kind: 'missed', task: 'flukes/dose/2' };
		expect(clockOn('2026-11-12', [first, skipped], true).clock).toMatchObject({
			cleanDays: 6,
			due: false
		});
	});

	it('goes back with a dose that no job asked for', () => {
		const dose = { at: '2026-11-15T08:05:00Z', kind: 'dose', medicine: 'pz', amount: '250 mg' };
		expect(clockOn('2026-11-20', [dose]).clock).toMatchObject({
			cleanDays: 4,
			since: { day: '2026-11-15', sign: false },
			earliest: '2026-12-01'
		});
	});

	it('says in the plan until when the watch has to last', () => {
		const early = clockOn('2026-11-20', [sign('2026-11-18')]).findings.filter(
			({ rule }) => rule === 'release-early'
		);
		expect(
			early.some(({ because }) =>
				because.includes('it has to last until 2026-12-02, and 2026-12-03 is the first day of release')
			)
		).toBe(true);
	});
});
