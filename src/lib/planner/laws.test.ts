/** Laws of the march over seeded random runs, beside those of the worked example in `march.test.ts`. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exampleDocument, exampleNow, runOf } from './example.ts';
import { plan, type Plan } from './index.ts';

/** Random plans take their time on a busy machine. */
const patient = { timeout: 180_000 };
const ROUNDING = 1e-9;

const planned = (phases: object[], more: Record<string, unknown> = {}): Plan =>
	plan(runOf({ ...exampleDocument, timeZone: 'UTC', away: [], ...more, phases }), exampleNow);
const changesIn = ({ tasks }: Plan) => tasks.filter(({ kind }) => kind === 'change').length;

/** Narrow medicines: their ceilings as their shelf rows have them. */
const narrow = [
	{
		active: 'copper-ionic',
		strength: '2 mg/mL',
		measure: '0.1 mL',
		kind: 'hold',
		level: '0.15-0.20 mg/L',
		ceiling: 0.2
	},
	{
		active: 'chloroquine',
		strength: '1 g/g',
		measure: '10 mg',
		kind: 'hold',
		level: '10-20 mg/L',
		ceiling: 20
	},
	{ active: 'formalin', strength: '1 mL/mL', measure: '0.1 mL', kind: 'pulse', level: '25 uL/L', ceiling: 25 }
] as const;

describe('laws', patient, () => {
	it('no dose of a narrow medicine lifts its level over the ceiling, not even at the least loss', () => {
		const anyRun = fc.record({
			of: fc.constantFrom(...narrow),
			volumeL: fc.integer({ min: 20, max: 700 }),
			evaporates: fc.constantFrom(0, 0.5, 3),
			change: fc.constantFrom('20% daily', '35% every 2 d', '50% every 3 d', 'none'),
			away: fc.subarray(['2026-11-29', '2026-11-30', '2026-12-01', '2026-12-04']),
			services: fc.constantFrom('08:00', ['07:00', '19:00'])
		});
		let doses = 0;
		fc.assert(
			fc.property(anyRun, ({ of, volumeL, evaporates, change, away, services }) => {
				const { active, strength, measure, kind, level, ceiling } = of;
				const { tasks, levels } = planned(
					[
						{
							id: 'p',
							kind,
							medicine: 'm',
							starts: 'on 2026-11-27',
							level,
							change,
							...(kind === 'pulse'
								? { lasts: '4 doses', repeat: 'every 2 d' }
								: { lasts: '10 d', test: 'Cu daily' })
						}
					],
					{
						medicines: [{ id: 'm', active, strength, measure }],
						tank: { ...exampleDocument.tank, net: `${volumeL} L`, evaporates: `${evaporates} L/d` },
						away,
						service: services
					}
				);
				for (const task of tasks) {
					if (task.kind !== 'dose' || !task.amount) continue;
					doses++;
					expect(task.raises?.to).toBeLessThanOrEqual(ceiling + ROUNDING);
					const after = levels.find(({ at, when }) => at === task.at && when === 'after');
					expect(after?.band?.medicinesMgPerL?.m?.high).toBeLessThanOrEqual(ceiling + ROUNDING);
				}
			}),
			{ seed: 20261203, numRuns: 60 }
		);
		expect(doses).toBeGreaterThan(200);
	});

	it('a hold stands at or above its floor after every service once it was raised and somebody was there', () => {
		fc.assert(
			fc.property(
				fc.integer({ min: 40, max: 500 }),
				fc.constantFrom('20% daily', '40% every 2 d', '50% every 3 d'),
				fc.integer({ min: 1, max: 5 }),
				(volumeL, change, ramp) => {
					const { levels } = planned(
						[
							{
								id: 'c',
								kind: 'hold',
								medicine: 'cu',
								starts: 'on 2026-11-27',
								lasts: '12 d',
								level: '0.15-0.20 mg/L',
								repeat: `ramp ${ramp} d`,
								change,
								test: 'Cu daily'
							}
						],
						{
							medicines: [exampleDocument.medicines[0]],
							tank: { ...exampleDocument.tank, net: `${volumeL} L` }
						}
					);
					const last = levels.findLast(({ when }) => when === 'after')?.date ?? '';
					for (const { when, date, medicinesMgPerL } of levels)
						if (when === 'after' && date >= `2026-12-0${ramp}` && date < last)
							expect(medicinesMgPerL.cu).toBeGreaterThanOrEqual(0.15);
				}
			),
			{ seed: 20261204, numRuns: 30 }
		);
	});

	it('more fish never mean fewer changes', () => {
		const anyTank = fc.record({
			volumeL: fc.integer({ min: 50, max: 250 }),
			feed: fc.integer({ min: 2, max: 30 }),
			more: fc.integer({ min: 1, max: 20 }),
			clears: fc.constantFrom(0, 0, 20, 60),
			nitrate: fc.constantFrom(10, 20, 40)
		});
		fc.assert(
			fc.property(anyTank, ({ volumeL, feed, more, clears, nitrate }) => {
				const changes = (tenths: number) =>
					changesIn(
						planned([{ id: 'w', kind: 'observe', starts: 'on 2026-11-27', lasts: '21 d', change: 'auto' }], {
							medicines: [],
							limits: { nh3: '0.02 mg/L', nitrate: `${nitrate} mg/L` },
							tank: { ...exampleDocument.tank, net: `${volumeL} L`, filterClears: `${clears} L/d` },
							lots: [{ ...exampleDocument.lots[0], mass: '1 g', feed: `${tenths / 10} g/d` }]
						})
					);
				expect(changes(feed + more)).toBeGreaterThanOrEqual(changes(feed));
			}),
			{ seed: 20261205, numRuns: 40 }
		);
	});

	it('ends and stays bounded, whatever rows are written', () => {
		let marched = 0;
		const ids = ['a', 'b', 'c', 'd'];
		const row = (id: string) =>
			fc.record(
				{
					id: fc.constant(id),
					kind: fc.constantFrom(
						'observe',
						'hold',
						'pulse',
						'daily',
						'washout',
						'low-salinity',
						'transfer',
						'release',
						'dip',
						'feed'
					),
					medicine: fc.constantFrom('cu', 'pz'),
					lasts: fc.constantFrom(
						'1 d',
						'399 d',
						'100000 d',
						'1 doses',
						'900 doses',
						'300 moves',
						'until clear',
						'45 min'
					),
					level: fc.constantFrom('0.15-0.20 mg/L', '0 mg/L', '1000 mg/L', '0.0001 mg/L'),
					repeat: fc.constantFrom(
						'every 1 d',
						'every 300 d',
						'ramp 1 d',
						'ramp 90 d',
						'Mon',
						'FREQ=YEARLY;COUNT=3'
					),
					change: fc.constantFrom('auto', 'none', '100% daily', '1% daily'),
					starts: fc.constantFrom('on 2026-11-27', 'after a', 'with b + 200 d', 'after c + 5 d')
				},
				{ requiredKeys: ['id', 'kind', 'starts'] }
			);
		fc.assert(
			fc.property(
				fc.tuple(...ids.map(row)),
				fc.constantFrom('0.001 L', '112 L', '1000000 L'),
				fc.constantFrom('0 L/d', '5000 L/d'),
				(rows, net, evaporates) => {
					const phases = rows.map((one) => ({
						...one,
						...(one.starts.includes(` ${one.id}`) ? { starts: 'on 2026-12-01' } : {}),
						...(one.kind === 'low-salinity' ? { level: '14 ppt' } : {}),
						...(one.kind === 'feed' ? { level: '10 mg/g' } : {})
					}));
					let result: Plan;
					try {
						result = planned(phases, { tank: { ...exampleDocument.tank, net, evaporates } });
					} catch (error) {
						// a cell or a circle that the reader refuses never reaches the march
						expect(String(error)).toMatch(/expected|cycle/);
						return;
					}
					marched++;
					expect(result.levels.length).toBeLessThanOrEqual(2 * 402);
					expect(result.tasks.length).toBeLessThan(402 * 40);
					for (const { tanMgNPerL, nitrateMgPerL } of result.levels)
						expect([tanMgNPerL, nitrateMgPerL].every((level) => Number.isFinite(level) && level >= 0)).toBe(
							true
						);
				}
			),
			{ seed: 20261206, numRuns: 15 }
		);
		expect(marched).toBeGreaterThan(5);
	});
});
