/**
 * What an aquatic veterinarian and a long-time keeper insist on, each rule once, by its mark: P published, CP common
 * practice (no source), J judgment (no source). Rules that a check, a worked example or a law already holds are tested
 * there: `checks/cases`, `march.test.ts`, `phases/methods.test.ts`, `replay.test.ts`, and the shelf's `published.test.ts`.
 */
import { describe, expect, it } from 'vitest';
import { emergencies, medicines } from '../formulary/index.ts';
import { nh3N } from '../water/index.ts';
import { creditLedger } from './credit.ts';
import { exampleDocument, exampleNow, exampleWith, runOf } from './example.ts';
import { plan, type Plan, type Task } from './index.ts';
import { lotProduction } from './stock.ts';

const bottle = {
	cu: { id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' },
	pz: { id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' },
	fo: { id: 'fo', active: 'formalin', strength: '1 mL/mL', measure: '0.1 mL' }
};
const day = (n: number) => new Date(Date.UTC(2026, 10, 27 + n)).toISOString().slice(0, 10);
const planned = (phases: object[], more: Record<string, unknown> = {}, now = exampleNow): Plan =>
	plan(
		runOf({
			...exampleDocument,
			timeZone: 'UTC',
			away: [],
			phases: phases.map((row, i) => (i === 0 ? { starts: `on ${day(0)}`, ...row } : row)),
			...more
		}),
		now
	);
const doses = ({ tasks }: Plan, phase: string) =>
	tasks.filter((task) => task.kind === 'dose' && task.phase === phase);
const tank = (more: object) => ({ ...exampleDocument.tank, ...more });
const hold = (more: object = {}) => ({
	id: 'copper',
	kind: 'hold',
	medicine: 'cu',
	lasts: '5 d',
	level: '0.15-0.20 mg/L',
	test: 'Cu daily',
	...more
});

describe('dosing', () => {
	const formalin = (change: string | undefined, repeat = 'every 1 d') =>
		doses(
			planned(
				[{ id: 'bath', kind: 'pulse', medicine: 'fo', lasts: '2 doses', level: '25 uL/L', repeat, change }],
				{ medicines: [bottle.fo], tank: tank({ net: '44 L' }) }
			),
			'bath'
		);

	it('(P) a wide margin gets the full dose again: 280 mg and 280 mg in 112 L, seven days apart', () => {
		const flukes = {
			id: 'flukes',
			kind: 'pulse',
			medicine: 'pz',
			lasts: '2 doses',
			level: '2.5 mg/L',
			repeat: 'every 7 d'
		};
		const given = doses(planned([flukes], { medicines: [bottle.pz] }), 'flukes');
		expect(given.map(({ amount }) => amount?.value)).toEqual([280, 280]);
		// at least loss all of the first is still there
		expect(given[1]?.raises).toMatchObject({ from: 2.5, to: 5 });
	});

	it('(J) formalin counts what may be left: 25, half changed, 12.5 left, topped up by 0.5 mL in 44 L', () => {
		expect(formalin('50% before dose').map(({ amount }) => amount?.value)).toEqual([1.1, 0.5]);
		expect(formalin('90% before dose')[1]?.amount?.value).toBe(0.9);
		// nothing changed: nothing is missing
		expect(formalin(undefined)).toHaveLength(1);
	});

	it('(P) formalin is the whole liquid: 25 uL/L in 44 L is 1.1 mL; a strength in % is asked about', () => {
		expect(formalin('50% before dose')[0]?.amount).toEqual({ value: 1.1, unit: 'mL' });
		expect(() =>
			runOf({ ...exampleDocument, medicines: [{ ...bottle.fo, strength: '10 % w/w' }, bottle.cu, bottle.pz] })
		).toThrow(/strength/);
	});

	it('(J) copper rises by equal steps of at most 0.10 mg/L, over three days where nobody says', () => {
		const rise = doses(planned([hold()], { medicines: [bottle.cu] }), 'copper').slice(0, 3);
		expect(rise.map(({ date }) => date)).toEqual([day(0), day(1), day(2)]);
		for (const { raises } of rise) expect((raises?.to ?? 1) - (raises?.from ?? 0)).toBeLessThanOrEqual(0.1);
		expect(rise.at(-1)?.raises?.to).toBeCloseTo(0.18, 2);
	});

	it('(J) with velvet suspected copper rises in two steps 12 hours apart, never so for fish that take less', () => {
		const twice = (more: object, lot: object = {}) =>
			doses(
				planned([hold(more)], {
					medicines: [bottle.cu],
					service: ['08:00', '20:00'],
					lots: [{ ...exampleDocument.lots[0], ...lot }]
				}),
				'copper'
			).map(({ at }) => at.slice(0, 13));
		const quick = [`${day(0)}T08`, `${day(0)}T20`];
		expect(twice({ target: 'amyloodinium' })).toEqual(quick);
		expect(twice({}, { signs: ['gold-dust'] })).toEqual(quick);
		expect(twice({})).toHaveLength(3);
		expect(twice({ target: 'amyloodinium' }, { group: 'wrasse' }).length).toBeGreaterThan(4);
	});

	it('(CP) chelated copper has no number of its own: the label, or none', () => {
		const chelated = { id: 'cu', active: 'copper-chelated', strength: '2 mg/mL' };
		const [first] = doses(planned([hold({ level: undefined })], { medicines: [chelated] }), 'copper');
		expect(first?.amount).toBeNull();
		expect(medicines['copper-chelated'].window).toBeNull();
		const byRow = doses(planned([hold({ level: '50-60 mg/L' })], { medicines: [chelated] }), 'copper');
		expect(byRow.map(({ amount }) => amount)).toEqual([null]);
		const labelled = { ...chelated, level: '1.5-2 mg/L' };
		const [told] = doses(planned([hold({ level: '1.5-2 mg/L' })], { medicines: [labelled] }), 'copper');
		expect(told?.amount?.value).toBeGreaterThan(0);
	});

	it('(J) clear is 0.02 mg/L of copper, 1.5 uL/L of formalin, 0.2 mg/L of praziquantel, 1 mg/L of chloroquine', () => {
		const clear = (['copper-ionic', 'formalin', 'praziquantel', 'chloroquine'] as const).map(
			(active) => medicines[active].clear?.value
		);
		expect(clear).toEqual([0.02, 1.5, 0.2, 1]);
	});

	it('(J) says how it goes in: 280 mg of praziquantel stirred up in at least 0.7 L, copper thinned into the flow', () => {
		const whole = planned([
			hold({ lasts: '9 d' }),
			{
				id: 'flukes',
				kind: 'pulse',
				medicine: 'pz',
				starts: 'with copper',
				lasts: '1 doses',
				level: '2.5 mg/L'
			}
		]);
		expect(doses(whole, 'flukes')[0]?.because).toContain('at least 0.7 L');
		expect(doses(whole, 'copper')[0]?.because).toContain('into the flow over some minutes');
	});
});

describe('readings and credit', () => {
	const rule = { needDays: 14, floor: 0.15, breakFloor: 0.1, testWithinDays: 2 };
	/** So many whole days in the window, each vouched for. */
	const earn = (ledger: ReturnType<typeof creditLedger>, from: number, days: number) => {
		for (let wall = from; wall < from + days; wall++) ledger.passed(wall, 1, 0.18, wall);
	};

	it('(J) a break of at least 0.10 mg/L and less than a day pauses, then asks ten unbroken days', () => {
		const ledger = creditLedger(rule);
		earn(ledger, 0, 9);
		ledger.passed(9, 0.5, 0.12, 9);
		earn(ledger, 9.5, 5);
		expect([ledger.days(), ledger.full()]).toEqual([14, false]);
		earn(ledger, 14.5, 5);
		expect([ledger.days(), ledger.full()]).toEqual([19, true]);
	});

	it('(J) a longer or a deeper break begins the course again', () => {
		for (const [days, lowest] of [
			[1, 0.12],
			[0.5, 0.09]
		] as const) {
			const ledger = creditLedger(rule);
			earn(ledger, 0, 9);
			ledger.passed(9, days, lowest, 9);
			expect(ledger.days()).toBe(0);
		}
	});

	it('(CP) a test vouches for 48 hours and no longer', () => {
		const ledger = creditLedger(rule);
		ledger.passed(2, 1, 0.18, 0);
		expect(ledger.days()).toBe(1);
		ledger.passed(3, 1, 0.18, 0);
		expect(ledger.days()).toBe(1);
	});

	it('(J) too high and confirmed: nothing is made up for the change that takes it out', () => {
		const read = (minute: string, value: string) => ({
			id: minute,
			at: `${day(8)}T08:${minute}:00Z`,
			kind: 'reading',
			what: 'Cu',
			value
		});
		const out = { id: 'z', at: `${day(8)}T09:00:00Z`, kind: 'change', fraction: 0.3 };
		const after = planned(
			[hold({ lasts: '20 d' })],
			{ medicines: [bottle.cu], log: [read('10', '0.26 mg/L'), read('30', '0.25 mg/L'), out] },
			`${day(8)}T10:00:00Z`
		);
		const coming = doses(after, 'copper').filter(({ date }) => date >= day(8));
		expect(coming.every(({ amount }) => amount === null)).toBe(true);
	});
});

describe('water', () => {
	it('(CP) a service goes: look, top off, test, carbon out, change, dose, carbon in, and may come several times a day', () => {
		const busy = planned(
			[
				hold({ lasts: '4 d', change: '30% daily' }),
				{
					id: 'out',
					kind: 'washout',
					medicine: 'cu',
					starts: 'after copper',
					lasts: 'until clear',
					change: '50% daily',
					carbon: true
				}
			],
			{ medicines: [bottle.cu], service: ['08:00', '20:00'], tank: tank({ evaporates: '1 L/d' }) }
		);
		const kinds = ['observe', 'topoff', 'test', 'change', 'washout', 'salinity', 'dose'];
		const place = ({ kind, equipment }: Task) =>
			kind === 'equipment' ? (equipment?.on ? 7 : 2.5) : kinds.includes(kind) ? kinds.indexOf(kind) : 8;
		const byService = Map.groupBy(busy.tasks, ({ at }) => at);
		for (const tasks of byService.values())
			expect(tasks.map(place)).toEqual(tasks.map(place).toSorted((a, b) => a - b));
		expect(new Set(busy.tasks.map(({ time }) => time))).toEqual(new Set(['08:00', '20:00']));
		expect(
			busy.tasks.filter(({ kind }) => kind === 'equipment').map(({ equipment }) => equipment?.on)
		).toEqual([true, false]);
	});

	it('(P, J) fish make 92 mg N per gram of protein eaten, 55 to 144, and never under 100 mg N per kilogram, 50 to 200', () => {
		const [lot] = runOf(exampleDocument).lots;
		if (!lot) throw new Error('the example has fish');
		const sides = ['low', 'central', 'high'] as const;
		const made = (more: object) =>
			sides.map((side) => Number(lotProduction({ ...lot, ...more }, side).toFixed(4)));
		expect(made({ massG: 1 })).toEqual([7.92, 13.248, 20.736]);
		expect(made({ feedGPerDay: 0, massG: 640 })).toEqual([32, 64, 128]);
	});

	it('(J, CP) a filter that nothing is said of clears nothing, for the whole run', () => {
		const wait = planned([{ id: 'wait', kind: 'observe', lasts: '21 d' }], {
			medicines: [],
			tank: tank({ filterClears: undefined })
		});
		// 13.248 mg N a day for 20 days in 112 L
		expect(wait.levels.findLast(({ when }) => when === 'before')?.tanMgNPerL).toBeCloseTo(
			(13.248 * 20) / 112,
			9
		);
	});

	it('(P) a falling pH hides ammonia, and a change that lifts it lifts what is toxic', () => {
		const toxic = (tan: number, pH: number) => {
			const level = nh3N(tan, { temperatureC: 26, salinityPpt: 34, pH });
			return level.ok ? level.value : NaN;
		};
		expect(toxic(2, 7.4)).toBeCloseTo(0.023, 3);
		expect(toxic(1.4, 8)).toBeCloseTo(0.063, 3);
		// the bag of a long journey, 24 °C and 27 ppt, before and after it is opened
		const bag = [6.8, 7.8].map((pH) => nh3N(8, { temperatureC: 24, salinityPpt: 27, pH }));
		expect(bag.map((level) => (level.ok ? Number(level.value.toPrecision(2)) : NaN))).toEqual([0.022, 0.21]);
	});

	it('(CP) low salinity falls at most 8 ppt a step and rises at most 2 ppt a day, whatever the start', () => {
		for (const salinity of ['30 ppt', '33 ppt', '35 ppt']) {
			const thin = planned([{ id: 'low', kind: 'low-salinity', level: '14 ppt', lasts: '28 d' }], {
				medicines: [],
				tank: tank({ salinity }),
				source: { ...exampleDocument.source, salinity }
			});
			const steps = thin.tasks
				.filter(({ kind }) => kind === 'salinity')
				.map(({ raises }) => (raises?.to ?? 0) - (raises?.from ?? 0));
			expect(steps.length).toBeGreaterThan(10);
			expect(Math.min(...steps)).toBeGreaterThanOrEqual(-8 - 1e-9);
			expect(Math.max(...steps)).toBeLessThanOrEqual(2 + 1e-9);
		}
	});

	it('(P, J) moves are 72 hours apart, six hours of grace, also where the clock changes', () => {
		const moved = planned([{ id: 'moves', kind: 'transfer', starts: 'on 2027-03-12', lasts: '4 moves' }], {
			medicines: [],
			timeZone: 'America/New_York',
			spare: { name: 'Q3' },
			lots: []
		});
		const hours = moved.tasks
			.filter(({ kind }) => kind === 'transfer')
			.map(({ at }, i, all) => (Date.parse(at) - Date.parse(all[i - 1]?.at ?? at)) / 3_600_000);
		// 08:00 stays 08:00: one of the gaps has 71 hours
		expect(hours).toEqual([0, 71, 72, 72]);
		expect(moved.findings.map(({ rule }) => rule)).not.toContain('transfer-gap');
	});
});

describe('the end of a run, and what may befall it', () => {
	it('(CP) tools and tank: chlorine 200 mg/L for 10 minutes, rinse, dry 24 hours, no dechlorinator left', () => {
		const clean = plan(runOf(exampleWith({})), exampleNow).tasks.find(({ kind }) => kind === 'clean');
		for (const said of ['200 mg/L for 10 minutes', 'rinse', 'dry 24 hours', 'No dechlorinator'])
			expect(clean?.because).toContain(said);
	});

	it('(CP) there is a card for power, heater, fouling, gasping and overdose: air first, a degree an hour at most', () => {
		expect(emergencies.map(({ id }) => id)).toEqual(['power', 'heater', 'fouling', 'gasping', 'overdose']);
		const steps = (id: string) => emergencies.find((card) => card.id === id)?.steps.join(' ') ?? '';
		for (const id of ['power', 'heater']) expect(steps(id)).toContain('1 °C per hour');
		for (const id of ['power', 'fouling', 'gasping', 'overdose']) expect(steps(id)).toMatch(/^Air first/);
		expect(steps('overdose')).toContain('do not make up');
	});

	it('(CP) fish come out of the bag by a short move into water of its salinity; bag water goes down the drain', () => {
		const taken = plan(runOf(exampleDocument), exampleNow).tasks.find(({ kind }) => kind === 'acclimate');
		for (const said of ['salinity', '10 to 15 minutes', 'drain', '2 ppt a day', 'breaths', 'photo'])
			expect(taken?.because).toContain(said);
	});
});
