import { describe, expect, it } from 'vitest';
import { readRun, type Taken } from '../../run/index.ts';
import { compareWords, openSlips, plan, wayTitle, type Slip } from '../index.ts';
import { dec, doneUntil, scenes, taskIn, planScene, withLog, type Entry, type SceneName } from './scenes.ts';

/**
 * The slips of a scene on `now`, every job before it logged but those named:
 *
 *     slipsOf('pulse', ['flukes/dose/2'], dec(10))
 */
function slipsOf(name: SceneName, open: string[], now: string, more: Entry[] = []): Slip[] {
	const scene = scenes[name]();
	return openSlips(withLog(scene, [...doneUntil(scene, now, open), ...more]), now, null);
}

const ways = ({ ways }: Slip) => ways.map(({ taken, safe }) => `${taken}${safe ? '' : ' unsafe'}`);
const way = (slip: Slip | undefined, taken: Taken) => slip?.ways.find((one) => one.taken === taken);

describe('what is a slip', () => {
	it('a job without an answer once its day is over, or a later service has come', () => {
		expect(slipsOf('daily', ['bath/dose/3'], dec(3, '20:00'))).toEqual([]);
		expect(slipsOf('daily', ['bath/dose/3'], dec(4, '07:30')).map(({ hoursLate }) => hoursLate)).toEqual([
			23.5
		]);
		const [slip, ...others] = slipsOf('daily', ['bath/dose/3'], dec(4, '08:10'));
		expect(others).toEqual([]);
		expect(slip).toMatchObject({ task: { id: 'bath/dose/3' }, use: 'daily' });
		expect(slip?.hoursLate).toBeCloseTo(24 + 1 / 6, 9);
	});

	it('a missed one asks at once, and asks no more once something was chosen', () => {
		const missed: Entry = {
			id: 'm',
			at: dec(3, '10:00'),
			kind: 'missed',
			task: 'bath/dose/3',
			reason: 'away'
		};
		expect(slipsOf('daily', ['bath/dose/3'], dec(3, '12:00'), [missed]).map(({ task }) => task.id)).toEqual([
			'bath/dose/3'
		]);
		const choice: Entry = {
			id: 'n',
			at: dec(3, '12:00'),
			kind: 'choice',
			task: 'bath/dose/3',
			taken: 'skip'
		};
		expect(slipsOf('daily', ['bath/dose/3'], dec(3, '13:00'), [missed, choice])).toEqual([]);
	});

	it('a test that a later one has overtaken can only be left out', () => {
		const [slip] = slipsOf('hold', ['copper/test/4'], dec(6, '12:00'));
		expect(slip && ways(slip)).toEqual(['skip']);
		expect(slip?.reason).toMatch(/^It was tested since/);
	});
});

describe('a way that was taken', () => {
	it('is called as it was offered, wherever it is told', () => {
		for (const [name, open, now] of [
			['pulse', ['flukes/dose/2'], dec(9, '14:00')],
			['daily', ['bath/dose/3'], dec(4, '08:10')]
		] as const) {
			const scene = scenes[name]();
			const document = withLog(scene, doneUntil(scene, now, [...open]));
			const run = readRun(document, { today: null });
			const planned = { run, plan: plan(run, now) };
			const [slip] = openSlips(document, now, null);
			expect(slip?.ways.length).toBeGreaterThan(0);
			for (const way of slip?.ways ?? [])
				expect(wayTitle(planned, way.entries[0]?.task ?? '', way.taken)).toBe(way.title);
		}
	});

	it('keeps its name when its job has left the plan', () => {
		const run = readRun(scenes.pulse(), { today: null });
		expect(wayTitle({ run, plan: { tasks: [] } }, 'flukes/dose/2', 'now')).toBe('Give it now');
		expect(wayTitle({ run, plan: { tasks: [] } }, 'gone/dose/2', 'skip')).toBe('Skip it and go on');
	});
});

describe('the second dose of a pair at 26 °C, where eggs have hatched by day 7 and worms lay from day 10', () => {
	it('is given on day 8, and not left out: it is the last', () => {
		const [slip] = slipsOf('pulse', ['flukes/dose/2'], dec(9, '14:00'));
		expect(slip && ways(slip)).toEqual(['now', 'restart', 'skip unsafe']);
		expect(slip?.proposed).toBe('now');
		expect(way(slip, 'now')?.title).toBe('Give it now');
		expect(way(slip, 'now')?.source).toContain('Brazenor & Hutson 2015');
	});

	it('begins again on day 12, with release later by what the new pair takes', () => {
		const [slip] = slipsOf('pulse', ['flukes/dose/2'], dec(13, '14:00'));
		expect(slip && ways(slip)).toEqual(['restart', 'now unsafe', 'skip unsafe']);
		expect(way(slip, 'now')?.danger).toContain('it belongs on day 7 to 9');
		const restart = way(slip, 'restart')?.comparison;
		// doses on the 14th and the 21st, watch from the 22nd instead of the 14th
		expect(restart?.release.daysLater).toBe(8);
		// 250 mg given, 250 given up, two new doses: three instead of the two of the plan
		expect(restart?.medicines).toEqual([{ id: 'pz', value: 250, total: 750, unit: 'mg' }]);
		expect(restart && compareWords(restart).medicines).toEqual(['pz 250 mg more, 750 mg in all']);
	});

	it('of three, comes before the third may hatch, so the third moves along', () => {
		const scene = scenes.pulse();
		const three = {
			...scene,
			phases: (scene.phases as { id: string }[]).map((row) =>
				row.id === 'flukes' ? { ...row, lasts: '3 doses' } : row
			)
		};
		const now = dec(10, '09:00');
		const [slip] = openSlips(withLog(three, doneUntil(three, now, ['flukes/dose/2'])), now, null);
		// the second on day 9, the third on its day 14: five days between
		expect(slip && ways(slip)).toEqual(['now-shift', 'now unsafe', 'restart', 'skip unsafe']);
		expect(way(slip, 'now')?.danger).toMatch(/5 days after the one before.*early one meets eggs/);
	});
});

describe('a dose of a daily course', () => {
	it('is not doubled: with the one of today given it is left out, and made good at the end', () => {
		const [slip] = slipsOf('daily', ['bath/dose/3'], dec(4, '14:00'));
		expect(slip?.proposed).toBe('skip');
		expect(way(slip, 'skip')?.comparison.release.daysLater).toBe(1);
	});

	it('is given in the morning in place of the one of today, and the rest a day later', () => {
		const [slip] = slipsOf('daily', ['bath/dose/3', 'bath/dose/4'], dec(4, '08:10'));
		expect(slip && ways(slip)).toEqual(['now-shift', 'skip', 'now unsafe', 'restart']);
		expect(way(slip, 'now')?.danger).toMatch(/double dose/);
		expect(way(slip, 'now-shift')?.comparison.release.daysLater).toBe(1);
	});

	it('is never given twelve hours before the next, unless that one moves', () => {
		const [slip] = slipsOf('daily', ['bath/dose/3', 'bath/dose/4'], dec(4, '20:00'), [
			{ id: 'm', at: dec(4, '09:00'), kind: 'missed', task: 'bath/dose/4' }
		]);
		expect(slip?.task.id).toBe('bath/dose/3');
		expect(slip?.proposed).toBe('now-shift');
		expect(way(slip, 'now')?.danger).toMatch(/12 h after/);
	});
});

describe('a move', () => {
	it('within 78 hours of the one before is made, and the next count from it', () => {
		const missed: Entry = { id: 'm', at: dec(4, '10:00'), kind: 'missed', task: 'move/transfer/2' };
		const [slip] = slipsOf('transfer', ['move/transfer/2'], dec(4, '13:50'), [missed]);
		expect(slip?.proposed).toBe('now-shift');
		expect(slip && ways(slip)).toEqual(['now-shift', 'now', 'restart', 'skip unsafe']);
	});

	it('after them begins the series again', () => {
		const [slip] = slipsOf('transfer', ['move/transfer/2'], dec(5, '09:00'));
		expect(slip && ways(slip)).toEqual(['restart', 'now-shift unsafe', 'now unsafe', 'skip unsafe']);
		expect(way(slip, 'now')?.danger).toMatch(/97 h after the one before; 78 h is the most/);
	});
});

describe('a hold', () => {
	it('loses only the hours outside: given now it ends sooner than counted again', () => {
		const now = dec(5, '08:10');
		const [slip] = slipsOf('hold', ['copper/dose/4', 'copper/dose/5'], now);
		expect(slip && ways(slip)).toEqual(['now', 'skip', 'restart']);
		expect(slip?.reason).toMatch(/loses only the hours/);
	});

	it('asks about the dose that was missed, not about those that had no amount because of it', () => {
		const open = [4, 5, 6, 7].map((n) => `copper/dose/${n}`);
		const slips = slipsOf('hold', open, dec(7, '12:00'));
		expect(slips.map(({ task }) => task.id)).toEqual(['copper/dose/4']);
		expect(slips.map(({ ways: [first] }) => [first?.taken, first?.safe])).toEqual([['now', true]]);
		expect(slips[0] && ways(slips[0])).toEqual(['now', 'skip', 'restart']);
		// 0.18 in 100 L after changes of a quarter on the 4th and the 7th: (0.18 - 0.18 x 0.75 x 0.75) x 100 / 2
		const amount = way(slips[0], 'now')?.comparison.amounts.find(({ id }) => id === 'copper/dose/4');
		expect(amount?.amount.to).toEqual({ value: 3.9, unit: 'mL' });
	});

	it('passes over what was wrong with the plan from the start, though it moves along with the rest', () => {
		const scene = scenes.hold();
		const tight = {
			id: 'flukes',
			kind: 'pulse',
			medicine: 'pz',
			lasts: '2 doses',
			level: '2.5 mg/L',
			target: 'flukes'
		};
		const phases = (scene.phases as { id: string }[]).flatMap((row) =>
			row.id === 'watch'
				? [
						{ ...tight, starts: 'after copper', repeat: 'every 1 d' },
						{ ...row, starts: 'after flukes' }
					]
				: [row]
		);
		const faulty = { ...scene, phases };
		const now = dec(7, '12:00');
		const open = [4, 5, 6, 7].map((n) => `copper/dose/${n}`);
		const [slip] = openSlips(withLog(faulty, doneUntil(faulty, now, open)), now, null);
		// counted again the course ends days later, and the doses that were too close from the start with it
		const come = way(slip, 'restart')?.comparison.findings.come;
		expect(come?.some(({ severity, phase }) => severity === 'stop' && phase === 'flukes')).toBe(true);
		expect(slip && ways(slip)).toEqual(['now', 'skip', 'restart']);
	});

	it('has no rest to shift, and says so', () => {
		const [slip] = slipsOf('hold', ['copper/dose/4', 'copper/dose/5'], dec(5, '08:10'));
		expect(way(slip, 'now-shift')).toBeUndefined();
		expect(slip?.withheld.map(({ because }) => because).join()).toMatch(/no rest to shift.*earned in full/);
		expect(slipsOf('pulse', ['flukes/dose/2'], dec(9, '14:00'))[0]?.withheld).toEqual([]);
	});

	it('never gives a dose nobody can figure', () => {
		const scene = scenes.daily();
		const bare = (scene.medicines as { id: string }[]).map(({ ...one }) =>
			one.id === 'ka' ? { id: 'ka', active: 'kanamycin' } : one
		);
		const now = dec(4, '08:10');
		const document = {
			...scene,
			medicines: bare,
			log: doneUntil(scene, now, ['bath/dose/3', 'bath/dose/4'])
		};
		const [slip] = openSlips(document, now, null);
		expect(way(slip, 'now-shift')?.danger).toContain('the strength of the bottle is missing');
	});

	it('days without a test are not earned, and a late test does not earn them', () => {
		const open = ['copper/test/6', 'copper/test/7', 'copper/test/8', 'copper/test/9'];
		const slips = slipsOf('hold', open, dec(9, '12:00'));
		expect(slips.map(({ task }) => task.id)).toEqual(open.slice(0, 3));
		const scene = scenes.hold();
		const tested = planScene(withLog(scene, doneUntil(scene, dec(9, '12:00'))), dec(9, '12:00'));
		const earned = way(slips[2], 'now')?.comparison.phases[0]?.earned;
		// a test of the 5th vouches for the intervals that begin up to the 7th: those of the 8th are lost
		expect(tested.phases[0]?.creditedSoFar).toBeGreaterThan(earned?.to ?? Infinity);
	});
});

describe('days that were written for later jobs', () => {
	it('follow the rest, and are forgotten where the series begins again', () => {
		const scene = { ...scenes.daily(), moves: { 'bath/dose/6': '2026-12-08', 'bath/dose/2': '2026-12-02' } };
		const now = dec(4, '08:10');
		const [slip] = openSlips(
			withLog(scene, doneUntil(scene, now, ['bath/dose/3', 'bath/dose/4'])),
			now,
			null
		);
		expect(way(slip, 'now-shift')?.edits).toEqual([
			{ path: ['moves', 'bath/dose/6'], was: '2026-12-08', to: '2026-12-09' }
		]);
		expect(way(slip, 'restart')?.edits).toEqual([{ path: ['moves', 'bath/dose/6'], was: '2026-12-08' }]);
		expect(way(slip, 'skip')?.edits).toEqual([]);
	});
});

describe('a change of water', () => {
	it('is not made while a dose acts that it would thin', () => {
		const scene = {
			...scenes.pulse(),
			phases: [
				{
					id: 'flukes',
					kind: 'pulse',
					medicine: 'pz',
					starts: 'on 2026-12-01',
					lasts: '2 doses',
					level: '2.5 mg/L',
					repeat: 'every 7 d'
				},
				{ id: 'settle', kind: 'observe', starts: 'on 2026-12-01', lasts: '20 d', change: '25% every 7 d' }
			]
		};
		const now = dec(9, '09:00');
		const log = doneUntil(scene, now, ['settle/change/8']);
		const [slip] = openSlips(withLog(scene, log), now, null);
		expect(taskIn(planScene(withLog(scene, log), now), 'settle/change/8')?.date).toBe('2026-12-08');
		expect(slip && ways(slip)).toEqual(['skip', 'now unsafe']);
		expect(way(slip, 'now')?.danger).toContain('still acts');
	});
});

describe('a forgotten dose of a hold that is given before the next service', () => {
	it('earns from the hour it is given, not from the service it was due at', () => {
		const scene = scenes.hold();
		const given: Entry[] = [
			{ id: 'n', at: dec(3, '07:00'), kind: 'choice', task: 'copper/dose/2', taken: 'now' },
			{ id: 'g', at: dec(3, '07:05'), kind: 'done', task: 'copper/dose/2' }
		];
		const rest = doneUntil(scene, dec(4, '12:00'), ['copper/dose/2', 'copper/dose/3', 'copper/dose/4']);
		const plan = planScene(withLog(scene, [...rest, ...given]), dec(4, '12:00'));
		const earned = plan.phases.find(({ id }) => id === 'copper')?.creditedSoFar ?? 0;
		// the second step of the ramp brings 0.18: 24 h 55 min of it by the service of the 4th
		expect(earned).toBeGreaterThan(0.9);
		expect(earned).toBeLessThanOrEqual((24 + 55 / 60) / 24 + 1e-9);
	});
});
