import { describe, expect, it } from 'vitest';
import { exampleDocument, exampleNow, exampleWith, runOf } from '../example.ts';
import { plan, type Plan } from '../index.ts';
import { stepOf } from './noise.ts';

/** Ten days of copper that nothing changes, read each morning before the dose. */
const steady = exampleWith(
	{ away: [], timeZone: 'UTC' },
	{ copper: { change: 'none' }, settle: { change: 'none' }, flukes: { starts: 'with copper + 40 d' } }
);
const copperDay = (n: number) => new Date(Date.UTC(2026, 10, 30 + n)).toISOString().slice(0, 10);
const NET_L = 112;
const LOGGED = 10;

/** A keeper who gives what the plan asks, in a tank that loses a share of its copper each day. */
function keep(lossPerDay: number) {
	const log: Record<string, unknown>[] = [];
	let level = 0;
	for (let n = 0; n < LOGGED; n++) {
		level *= Math.exp(-lossPerDay);
		const write = (minute: string, body: object) =>
			log.push({ id: `${n}-${minute}`, at: `${copperDay(n)}T08:${minute}:00Z`, ...body });
		write('01', {
			kind: 'reading',
			task: `copper/test/${n + 1}`,
			what: 'Cu',
			value: `${Number(level.toFixed(2))} mg/L`
		});
		const dose = plan(runOf({ ...steady, log }), `${copperDay(n)}T08:02:00Z`).tasks.find(
			({ date, kind }) => kind === 'dose' && date === copperDay(n)
		);
		if (!dose?.amount) continue;
		level += (dose.amount.value * 2) / NET_L;
		write('03', { kind: 'done', task: dose.id, amount: `${dose.amount.value} mL` });
	}
	return runOf({ ...steady, log });
}

const later = `${copperDay(LOGGED - 1)}T09:00:00Z`;
const madeUpIn = ({ tasks }: Plan) =>
	tasks.filter(({ kind, phase, date }) => kind === 'dose' && phase === 'copper' && date >= copperDay(LOGGED));
const copperOf = ({ learned }: Plan) => learned?.find(({ of }) => of === 'cu');

/** A keeper's ten days are ten plans: they take their time on a busy machine. */
const patient = { timeout: 120_000 };

describe('a loss that was learned', patient, () => {
	it('is the loss there is, and is made up day by day so that the course ends in time', () => {
		const lost = plan(keep(0.06), later);
		expect(copperOf(lost)?.before).toMatchObject({ value: 0, low: 0, high: expect.closeTo(10, 6) });
		// 1 - exp(-0.06) is 5.8 % a day
		expect(copperOf(lost)?.after.low).toBeLessThan(5.8);
		expect(copperOf(lost)?.after.high).toBeGreaterThan(5.8);
		expect(madeUpIn(lost).length).toBeGreaterThan(10);
		expect(lost.phases.find(({ id }) => id === 'copper')?.creditedDays).toBeCloseTo(28, 9);
		const none = plan(keep(0), later);
		expect(copperOf(none)?.after.value).toBeLessThan(1);
		// nothing leans neither up nor down
		expect(copperOf(none)?.because).toContain('off the forecast (bias 0)');
		expect(madeUpIn(none)).toEqual([]);
	});

	it.each([0.02, 0.05, 0.1])(
		'of %d a day never lifts a level past the ceiling as if nothing were lost since the last test',
		(lossPerDay) => {
			const run = keep(lossPerDay);
			for (const test of ['Cu daily', 'Cu every 3 d', 'Cu every 5 d']) {
				const phases = run.phases.map((row) => (row.id === 'copper' ? { ...row, test: testOf(test) } : row));
				const { tasks, levels } = plan({ ...run, phases }, later);
				const found = (at: string) =>
					levels.find((sample) => sample.at === at && sample.when === 'before')?.medicinesMgPerL.cu ?? 0;
				let standing = 0;
				for (const { at, what, kind, amount } of tasks.filter(
					({ date, phase }) => date >= copperDay(LOGGED) && phase === 'copper'
				)) {
					if (what?.includes('Cu')) standing = found(at);
					if (kind === 'dose' && amount) standing += (amount.value * 2) / NET_L;
					expect(standing).toBeLessThanOrEqual(0.2 + 1e-9);
				}
			}
		}
	);

	it('does not shorten a wash-out below what the least loss needs', () => {
		const washed = (lossPerDay: number) => {
			const { phases } = plan(keep(lossPerDay), later);
			const wash = phases.find(({ id }) => id === 'wash');
			return (Date.parse(wash?.to ?? '') - Date.parse(wash?.from ?? '')) / 86_400_000;
		};
		// 0.18 halves to 0.0113 in four changes: clear on the fifth day
		expect(washed(0.1)).toBe(4);
	});
});

const testOf = (text: string) =>
	runOf(exampleWith({}, { copper: { test: text } })).phases.find(({ id }) => id === 'copper')?.test ?? [];

describe('what does not teach', patient, () => {
	const reading = (n: number, value: string) => ({
		id: `r${n}`,
		at: `${copperDay(n)}T08:30:00Z`,
		kind: 'reading',
		what: 'Cu',
		value
	});
	it('a plan without readings says nothing of learning', () => {
		expect('learned' in plan(runOf(exampleDocument), exampleNow)).toBe(false);
		const done = { id: 'a', at: `${copperDay(0)}T08:05:00Z`, kind: 'done', task: 'copper/test/1' };
		expect('learned' in plan(runOf({ ...steady, log: [done] }), later)).toBe(false);
	});

	it('a reading that blanks doses: the loss stays what the others say', () => {
		const run = keep(0.03);
		const before = copperOf(plan(run, later));
		const slip = runOf({ ...steady, log: [reading(LOGGED - 1, '0.26 mg/L')] }).log;
		const after = copperOf(plan({ ...run, log: [...run.log, ...slip] }, later));
		expect(before?.readings).toBe(LOGGED);
		expect(after?.readings).toBe(before?.readings);
		expect(after?.after.value).toBeCloseTo(before?.after.value ?? -1, 6);
	});

	it('a production or a half-life that the keeper states', () => {
		const stated = {
			...steady,
			lots: [{ ...exampleDocument.lots[0], tan: '60 mg/d' }],
			medicines: [{ ...exampleDocument.medicines[0], halfLife: '9 d' }, exampleDocument.medicines[1]],
			log: [reading(2, '0.15 mg/L'), { ...reading(3, '0.4 mg/L'), what: 'NH3' }]
		};
		expect('learned' in plan(runOf(stated), later)).toBe(false);
	});
});

describe('the step of a scale', () => {
	const of = (...shown: number[]) =>
		shown.map((value) => ({
			is: 'reading' as const,
			of: 'NH3',
			level: value,
			shown: value,
			perShown: 1,
			forecast: 0,
			volumeL: 1,
			teaches: true
		}));
	it('is the widest printed one that all readings are multiples of, never wider than the coarsest usual kit', () => {
		expect(stepOf(of(0.25, 0.5, 0), 'NH3')).toBe(0.25);
		expect(stepOf(of(0.1, 0.15), 'NH3')).toBeCloseTo(0.05, 12);
		expect(stepOf(of(0.12), 'Cu')).toBeCloseTo(0.02, 12);
		expect(stepOf(of(2), 'NH3')).toBe(0.25);
		expect(stepOf(of(0.178571428), 'Cu')).toBe(0);
	});
});
