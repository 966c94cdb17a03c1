import { describe, expect, it } from 'vitest';
import { exampleDocument, exampleNow, runOf } from '../example.ts';
import { plan, type Task } from '../index.ts';

const tank = { ...exampleDocument.tank, net: '100 L', salinity: '35 ppt' };
const source = { ...exampleDocument.source, salinity: '35 ppt' };

const planned = (phase: Record<string, unknown>, more: object = {}) =>
	plan(
		runOf({
			...exampleDocument,
			timeZone: 'UTC',
			tank,
			source,
			medicines: [
				{ id: 'fo', active: 'formalin', strength: '1 mL/mL', measure: '0.1 mL' },
				{ id: 'fresh', active: 'fresh-water' }
			],
			phases: [{ id: 'only', starts: 'on 2026-11-27', ...phase }],
			away: [],
			...more
		}),
		exampleNow
	);
const ofKind = (tasks: Task[], kind: string) => tasks.filter((task) => task.kind === kind);

describe('a dip, worked by hand', () => {
	it('150 uL/L of formalin in 20 L is 3.0 mL, for 45 minutes at most, and leaves the tank alone', () => {
		const { tasks, levels } = planned({
			kind: 'dip',
			medicine: 'fo',
			level: '150 uL/L',
			bath: '20 L',
			lasts: '45 min'
		});
		const [dip] = ofKind(tasks, 'dip');
		expect(dip).toMatchObject({
			id: 'only/dip/1',
			amount: { value: 3, unit: 'mL' },
			minutes: 45,
			medicine: 'fo'
		});
		expect(dip?.cautions.join(' ')).toMatch(/Stay with the fish/);
		expect(levels.every(({ medicinesMgPerL }) => medicinesMgPerL.fo === 0)).toBe(true);
	});

	it('300 uL/L for 90 minutes at 26 °C is cut to 150 uL/L and 60 minutes (UF/IFAS VM-77): 1.5 mL in 10 L', () => {
		const [dip] = ofKind(
			planned({ kind: 'dip', medicine: 'fo', level: '300 uL/L', bath: '10 L', lasts: '90 min' }).tasks,
			'dip'
		);
		expect(dip).toMatchObject({ amount: { value: 1.5, unit: 'mL' }, minutes: 60 });
		expect(dip?.text).toBe('Formalin dip 1 of 1: 1.5 mL in 10 L, 60 min at most');
		expect(dip?.because).toContain('The row asks for 300 uL/L and 90 min: cut to what fish bear.');
	});

	it('a fresh-water dip asks its litres and no medicine', () => {
		const [dip] = ofKind(
			planned({ kind: 'dip', medicine: 'fresh', bath: '8 L', lasts: '4 min' }).tasks,
			'dip'
		);
		expect(dip).toMatchObject({ amount: { value: 8, unit: 'L' }, minutes: 4 });
	});

	it('without a vessel there is no number', () => {
		const [dip] = ofKind(
			planned({ kind: 'dip', medicine: 'fo', level: '150 uL/L', lasts: '45 min' }).tasks,
			'dip'
		);
		expect(dip?.amount).toBeNull();
		expect(dip?.text).toContain('the volume of the bath is missing');
	});
});

describe('low salinity, worked by hand: 35 to 14 ppt in 100 L', () => {
	const thin = planned({ kind: 'low-salinity', level: '14 ppt', lasts: '28 d', rise: '2 ppt/d' });
	const steps = ofKind(thin.tasks, 'salinity');

	it('comes down 7 ppt a day in three steps: 1 - 28/35 = 20 L, 1 - 21/28 = 25 L, 1 - 14/21 = 33.3 L', () => {
		expect(
			steps.slice(0, 3).map(({ date, amount }) => [date, amount?.unit, Number(amount?.value.toFixed(6))])
		).toEqual([
			['2026-11-27', 'L', 20],
			['2026-11-28', 'L', 25],
			['2026-11-29', 'L', 33.333333]
		]);
		expect(steps.slice(0, 3).map(({ raises }) => raises?.to)).toEqual([28, 21, 14]);
	});

	it('credits 28 days at or under 16 ppt, then rises 11 days by 21/11 ppt each', () => {
		// in the window from 29 Nov: the 28th interval ends on 27 Dec, when the first step up is made
		const up = steps.slice(3);
		expect(up.map(({ date }) => date)[0]).toBe('2026-12-27');
		expect(up).toHaveLength(11);
		expect(up.at(-1)?.raises?.to).toBeCloseTo(35, 9);
		expect(Math.max(...up.map(({ raises }) => (raises?.to ?? 0) - (raises?.from ?? 0)))).toBeLessThanOrEqual(
			2
		);
		expect(thin.phases[0]).toMatchObject({ to: '2027-01-06', creditedDays: 28 });
	});

	it('asks about 411 g of dry salt for 16 to 20 ppt in 100 L at 25 °C (20.336 - 16.221 g/L: EOS-80 and reference salinity)', () => {
		const rise = planned(
			{ kind: 'low-salinity', level: '16 ppt', lasts: '1 d', rise: '4 ppt/d' },
			{
				tank: { ...tank, salinity: '16 ppt', temperature: '25 C' },
				source: { ...source, salinity: '20 ppt' }
			}
		);
		const [step] = ofKind(rise.tasks, 'salinity');
		expect(step?.amount?.unit).toBe('g');
		expect(Math.abs((step?.amount?.value ?? 0) - 411.5)).toBeLessThan(1);
	});
});

describe('tank transfer, worked by hand: four moves 72 hours apart (Colorni 1985)', () => {
	const moved = planned(
		{ kind: 'transfer', lasts: '4 moves', repeat: 'every 3 d' },
		{ spare: { name: 'Q3', net: '100 L' }, tank: { ...tank, ammonia: '1 mg/L' } }
	);
	const moves = ofKind(moved.tasks, 'transfer');

	it('falls on days 0, 3, 6 and 9, and ends with the last', () => {
		expect(moves.map(({ id, date }) => [id, date])).toEqual([
			['only/transfer/1', '2026-11-27'],
			['only/transfer/2', '2026-11-30'],
			['only/transfer/3', '2026-12-03'],
			['only/transfer/4', '2026-12-06']
		]);
		const hours = moves
			.slice(1)
			.map(({ at }, i) => (Date.parse(at) - Date.parse(moves[i]?.at ?? at)) / 3_600_000);
		expect(hours).toEqual([72, 72, 72]);
		expect(moved.phases[0]?.to).toBe('2026-12-06');
	});

	it('leaves all ammonia behind: the new tank holds source water', () => {
		const after = moved.levels.find(({ when }) => when === 'after');
		expect(after?.tanMgNPerL).toBe(0);
		expect(after?.nitrateMgPerL).toBeCloseTo(5, 9);
	});

	it('a second tank of another size is dosed for its own litres: 0.06 x 50 / 2 = 1.5 mL', () => {
		const small = planned(
			{ id: 'move', kind: 'transfer', lasts: '1 move' },
			{
				spare: { name: 'Q3', net: '50 L' },
				medicines: [exampleDocument.medicines[0]],
				phases: [
					{ id: 'move', kind: 'transfer', starts: 'on 2026-11-27', lasts: '1 move' },
					{
						id: 'copper',
						kind: 'hold',
						medicine: 'cu',
						starts: 'after move',
						lasts: '5 d',
						level: '0.15-0.20 mg/L',
						aim: '0.18 mg/L',
						repeat: 'ramp 3 d',
						test: 'Cu daily'
					}
				]
			}
		);
		expect(ofKind(small.tasks, 'transfer')[0]?.amount?.value).toBe(50);
		expect(ofKind(small.tasks, 'dose')[0]?.amount?.value).toBeCloseTo(1.5, 9);
		expect(small.levels.at(-1)?.volumeL).toBe(50);
	});

	it('one move is the move to a clean second tank', () => {
		const one = ofKind(
			planned({ kind: 'transfer', lasts: '1 move' }, { spare: { name: 'Q3' } }).tasks,
			'transfer'
		);
		expect(one).toHaveLength(1);
		expect(one[0]?.text).toContain('Q3');
	});
});

describe('medicated food', () => {
	it('10 mg per gram in 1.6 g a day of a 50 % powder is 32 mg', () => {
		const fed = planned(
			{ kind: 'feed', medicine: 'me', level: '10 mg/g', lasts: '5 d' },
			{
				medicines: [
					{ id: 'me', active: 'metronidazole', strength: '500 mg/g', measure: '1 mg', prescribed: true }
				]
			}
		);
		const tasks = ofKind(fed.tasks, 'feed');
		expect(tasks.map(({ amount }) => amount)).toEqual(Array(5).fill({ value: 32, unit: 'mg' }));
	});

	it('has no amount where the day’s share is less than the scale can weigh: 32 mg on steps of 50', () => {
		const medicines = [{ id: 'me', active: 'metronidazole', strength: '500 mg/g', measure: '50 mg' }];
		const fed = planned({ kind: 'feed', medicine: 'me', level: '10 mg/g', lasts: '5 d' }, { medicines });
		const [first] = ofKind(fed.tasks, 'feed');
		expect(first?.amount).toBeNull();
		expect(first?.text).toContain('less than one step of the measuring tool');
	});
});

describe('the tank itself', () => {
	it('evaporates: 1.5 L a day for 4 days unattended lifts 34 ppt to 35.9 and copper by 5.7 %', () => {
		const dry = planned(
			{ kind: 'observe', lasts: '6 d' },
			{
				tank: { ...exampleDocument.tank, evaporates: '1.5 L/d' },
				source: exampleDocument.source,
				away: ['2026-11-28', '2026-11-29', '2026-11-30']
			}
		);
		const fourth = dry.levels.find(({ date, when }) => date === '2026-12-01' && when === 'before');
		expect(fourth?.volumeL).toBeCloseTo(106, 9);
		expect(fourth?.salinityPpt).toBeCloseTo(35.9, 1);
		expect(112 / (fourth?.volumeL ?? 1) - 1).toBeCloseTo(0.057, 3);
		const [topoff] = ofKind(dry.tasks, 'topoff').filter(({ date }) => date === '2026-12-01');
		expect(topoff?.amount?.value).toBeCloseTo(6, 9);
	});

	it('mixes new salt water a day ahead where the source is mixed', () => {
		const mixed = planned(
			{ kind: 'observe', lasts: '8 d', change: '25% every 4 d' },
			{ source: { ...source, mixed: true } }
		);
		const [supply] = ofKind(mixed.tasks, 'supply');
		expect(supply).toMatchObject({
			id: 'only/supply/5',
			date: '2026-11-30',
			amount: { value: 25, unit: 'L' }
		});
	});

	it('takes the fish in by a short move on the day they come, and is cleaned after they leave', () => {
		const whole = plan(runOf(exampleDocument), exampleNow);
		expect(ofKind(whole.tasks, 'acclimate').map(({ id }) => id)).toEqual(['settle/acclimate/1']);
		expect(ofKind(whole.tasks, 'clean').map(({ date }) => date)).toEqual(['2027-01-17']);
	});

	it('rises slower and aims lower for fish that take less (judgment), unless the sheet says', () => {
		const gentle = (group: string) =>
			planned(
				{ kind: 'hold', medicine: 'cu', lasts: '2 d', level: '0.15-0.20 mg/L', test: 'Cu daily' },
				{ medicines: [exampleDocument.medicines[0]], lots: [{ ...exampleDocument.lots[0], group }] }
			).tasks.filter(({ kind }) => kind === 'dose');
		expect(gentle('cardinalfish')).toHaveLength(3);
		expect(gentle('wrasse').length).toBeGreaterThanOrEqual(5);
		expect(gentle('wrasse').at(-1)?.raises?.to ?? 1).toBeLessThanOrEqual(0.17);
	});
});
