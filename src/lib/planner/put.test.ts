import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayNumber } from '../run/index.ts';
import { exampleNow, exampleWith, runOf } from './example.ts';
import { plan } from './index.ts';

const planOf = (change: Record<string, unknown>, phases = {}) =>
	plan(runOf(exampleWith(change, phases)), exampleNow);
const plain = planOf({});
const task = (made: typeof plain, id: string) => {
	const found = made.tasks.find((one) => one.id === id);
	if (!found) throw new Error(`no ${id} in ${made.tasks.map((one) => one.id).join(' ')}`);
	return found;
};
/** The level of a medicine as its service finds it. */
const foundAt = (made: typeof plain, at: string, medicine: string) =>
	made.levels.find((sample) => sample.at === at && sample.when === 'before')?.medicinesMgPerL[medicine];

describe('a job put at an hour', () => {
	it('is done then, on the water of that hour: a loss of half a day shows (2 to the power of -7.5)', () => {
		const halving = [
			{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' },
			{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg', halfLife: '1 d' }
		];
		const still = { settle: { change: 'none' }, copper: { change: 'none' } };
		const made = planOf({ medicines: halving, moves: { 'flukes/dose/2': '2026-12-09T20:00' } }, still);
		const dose = task(made, 'flukes/dose/2');
		// 20:00 in Chicago in winter
		expect([dose.date, dose.time, dose.at]).toEqual(['2026-12-09', '20:00', '2026-12-10T02:00:00Z']);
		const given = task(made, 'flukes/dose/1').raises?.to ?? 0;
		expect((foundAt(made, dose.at, 'pz') ?? 0) / (given * 2 ** -7.5)).toBeCloseTo(1, 6);
		expect(dose.amount).toEqual(task(plain, 'flukes/dose/2').amount);
	});

	it('takes the make-up of a hold along, which brings back what the change took and no more', () => {
		const fixed = { copper: { change: '25% every 4 d' } };
		const [morning, evening] = [
			planOf({}, fixed),
			planOf({ moves: { 'copper/change/9': '2026-12-08T18:30' } }, fixed)
		];
		expect(task(evening, 'copper/change/9').time).toBe('18:30');
		const made = task(evening, 'copper/dose/9.1830');
		expect([made.date, made.time, made.amount]).toEqual([
			'2026-12-08',
			'18:30',
			task(morning, 'copper/dose/9').amount
		]);
		expect(evening.tasks.some(({ id }) => id === 'copper/dose/9')).toBe(false);
		const span = (made: typeof plain) => made.phases.find(({ id }) => id === 'copper');
		expect(span(evening)).toMatchObject({ to: span(morning)?.to, creditedDays: span(morning)?.creditedDays });
	});

	it('takes no second step of a rise on one day', () => {
		const made = planOf({ moves: { 'copper/test/1': '2026-11-30T18:30' } });
		const steps = made.tasks.filter(({ because }) => because.startsWith('Step'));
		expect(steps.map(({ id }) => id)).toEqual(['copper/dose/1', 'copper/dose/2']);
		expect(made.tasks.some(({ id }) => id === 'copper/dose/1.1830')).toBe(false);
	});

	it('is an automatic change where that row plans its own', () => {
		const id = plain.tasks.find(({ kind, phase }) => kind === 'change' && phase === 'copper')?.id ?? '';
		const { date } = task(plain, id);
		const made = planOf({ moves: { [id]: `${date}T15:00` } });
		expect([task(made, id).date, task(made, id).time]).toEqual([date, '15:00']);
		const over = made.levels.filter(
			({ when, nh3MgNPerL }) => when === 'before' && (nh3MgNPerL ?? 0) > 0.0201
		);
		expect(over).toEqual([]);
	});

	it('goes with a second service of the day where that is the hour, as one of it', () => {
		const twice = { service: ['08:00', '20:00'] };
		const made = planOf({ ...twice, moves: { 'flukes/dose/2': '2026-12-09T20:00' } });
		expect(task(made, 'flukes/dose/2').time).toBe('20:00');
		expect(made.levels.length).toBe(planOf(twice).levels.length);
	});

	it('that a clock change skips comes an hour later, with a note (02:30 on 14 March 2027 in Chicago)', () => {
		const made = planOf(
			{ moves: { 'watch/test/3': '2027-03-14T02:30' }, lots: [], away: [] },
			{
				settle: { starts: 'on 2027-03-08' },
				copper: { starts: 'on 2027-05-20' },
				watch: { starts: 'on 2027-03-12' }
			}
		);
		expect([task(made, 'watch/test/3').time, task(made, 'watch/test/3').at]).toEqual([
			'03:30',
			'2027-03-14T08:30:00Z'
		]);
		expect(made.findings.map(({ rule, date }) => `${rule} ${date}`)).toContain('time-moved 2027-03-14');
	});

	it('counts for moves between tanks: 84 hours apart are too many (72 and six of grace)', () => {
		const only = {
			medicines: [],
			spare: { name: 'Q3' },
			phases: [{ id: 'moves', kind: 'transfer', starts: 'on 2026-12-01', lasts: '4 moves' }]
		};
		const rules = (moves: object) =>
			plan(runOf({ ...exampleWith({}), ...only, moves }), exampleNow).findings.map(({ rule }) => rule);
		expect(rules({ 'moves/transfer/2': '2026-12-04T20:00' })).toContain('transfer-gap');
		expect(rules({ 'moves/transfer/2': '2026-12-04T12:00' })).not.toContain('transfer-gap');
	});
});

describe('laws', () => {
	const tests = plain.tasks.filter(({ kind }) => kind === 'test');
	const free = plain.tasks.filter(
		({ kind, phase }) => ['test', 'washout'].includes(kind) || phase === 'watch' || phase === 'flukes'
	);
	const hour = fc.integer({ min: 6, max: 21 }).map((h) => `${String(h).padStart(2, '0')}:30`);
	const slow = { numRuns: 12, seed: 20261126 };

	it('an hour that is the service’s own is no move', () => {
		fc.assert(
			fc.property(fc.constantFrom(...free), ({ id, date }) => {
				expect(planOf({ moves: { [id]: `${date}T08:00` } })).toEqual(planOf({ moves: { [id]: date } }));
			}),
			slow
		);
	}, 120_000);

	it('a test at another hour changes no level that a service finds, and no amount', () => {
		fc.assert(
			fc.property(fc.constantFrom(...tests), hour, ({ id, date }, time) => {
				const made = planOf({ moves: { [id]: `${date}T${time}` } });
				const found = (one: typeof plain) =>
					one.levels
						.filter(({ when, at }) => when === 'before' && plain.levels.some((level) => level.at === at))
						.map(({ nitrateMgPerL, medicinesMgPerL }) => [nitrateMgPerL, medicinesMgPerL.cu ?? 0]);
				found(made).forEach((values, at) =>
					values.forEach((value, i) => expect(value).toBeCloseTo(found(plain)[at]?.[i] ?? NaN, 7))
				);
				expect(made.supplies).toEqual(plain.supplies);
			}),
			slow
		);
	}, 120_000);

	it('whatever is moved to whatever hour keeps its number, and time only goes forward', () => {
		fc.assert(
			fc.property(
				fc.constantFrom(...free.filter(({ kind }) => ['test', 'change', 'washout', 'dose'].includes(kind))),
				hour,
				({ id, date }, time) => {
					const made = planOf({ moves: { [id]: `${date}T${time}` } });
					const there = made.tasks.find((one) => one.id === id);
					const days = made.levels.map(({ at }) => Date.parse(at));
					expect(days.every((at, i) => at >= (days[i - 1] ?? at))).toBe(true);
					// what is cleared, joined or clean by then is nobody's work any more
					if (there) expect([dayNumber(there.date), there.time]).toEqual([dayNumber(date), time]);
				}
			),
			slow
		);
	}, 120_000);
});
