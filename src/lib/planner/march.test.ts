import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exampleDocument, exampleNow, exampleWith, runOf } from './example.ts';
import { plan, type Plan } from './index.ts';

const planned = (document: object, now = exampleNow): Plan => plan(runOf(document), now);
const example = planned(exampleDocument);
const ofKind = ({ tasks }: Plan, kind: string, phase?: string) =>
	tasks.filter((task) => task.kind === kind && (phase === undefined || task.phase === phase));
const before = ({ levels }: Plan) => levels.filter(({ when }) => when === 'before');

describe('the worked example, by hand', () => {
	it('spans the days the credit and the wash-out give', () => {
		const spans = Object.fromEntries(example.phases.map(({ id, from, to }) => [id, `${from} ${to}`]));
		expect(spans).toEqual({
			settle: '2026-11-27 2026-11-29',
			copper: '2026-11-30 2026-12-28',
			flukes: '2026-12-02 2026-12-09',
			wash: '2026-12-29 2027-01-02',
			watch: '2027-01-03 2027-01-16',
			release: '2027-01-17 2027-01-17'
		});
		expect(example.begins).toBe('2026-11-27');
		expect(example.release).toBe('2027-01-17');
		expect(example.phases[1]?.creditedDays).toBeCloseTo(28, 9);
	});

	it('raises copper in two steps, each measured down: 0.09 x 112 / 2 = 5.04 mL gives 5.0', () => {
		const [first, second] = ofKind(example, 'dose', 'copper');
		expect(first).toMatchObject({
			id: 'copper/dose/1',
			amount: { value: 5, unit: 'mL' },
			text: 'Ionic copper 5.0 mL'
		});
		expect(first?.raises?.to).toBeCloseTo(10 / 112, 12);
		expect(second?.raises?.to).toBeCloseTo(20 / 112, 12);
	});

	it('gives the full praziquantel dose twice: 2.5 x 112 = 280 mg', () => {
		expect(ofKind(example, 'dose', 'flukes').map(({ date, amount }) => [date, amount?.value])).toEqual([
			['2026-12-02', 280],
			['2026-12-09', 280]
		]);
	});

	it('asks 3.0 mL back after a 30 % change at 0.18: 0.3 x 0.18 x 112 = 6.05 mg', () => {
		const plan = planned(
			exampleWith(
				{
					medicines: [{ ...exampleDocument.medicines[0], measure: '0.01 mL' }, exampleDocument.medicines[1]]
				},
				{ copper: { change: '30% every 3 d' } }
			)
		);
		const makeUp = ofKind(plan, 'dose', 'copper').find(({ id }) => id === 'copper/dose/4');
		expect(makeUp?.raises?.from).toBeCloseTo(0.126, 3);
		const coarse = planned(exampleWith({}, { copper: { change: '30% every 3 d' } }));
		expect(
			ofKind(coarse, 'dose', 'copper').find(({ id }) => id === 'copper/dose/4')?.amount?.value
		).toBeCloseTo(3, 9);
	});

	it('lets ammonia level off at 13.25/40 mg/L N, 0.0186 as NH3-N', () => {
		const never = planned({
			...exampleWith({ medicines: [] }),
			phases: [{ id: 'wait', kind: 'observe', starts: 'on 2026-11-27', lasts: '60 d' }]
		});
		const last = before(never).at(-1);
		expect(last?.tanMgNPerL).toBeCloseTo(0.3312, 3);
		expect(last?.nh3MgNPerL).toBeCloseTo(0.0186, 4);
	});

	it('washes out in four halvings from the last level', () => {
		const washes = ofKind(example, 'washout');
		expect(washes.map(({ date }) => date)).toEqual(['2026-12-29', '2026-12-30', '2026-12-31', '2027-01-01']);
		expect(washes.every(({ fraction, amount }) => fraction === 0.5 && amount?.value === 56)).toBe(true);
		expect(ofKind(example, 'test', 'wash').at(-1)).toMatchObject({ date: '2027-01-02', what: ['Cu'] });
	});

	it('leaves the day away and the hours of a dose without a change, and never waits longer than seven days', () => {
		expect(ofKind(example, 'change', 'copper').map(({ date }) => date)).toEqual([
			'2026-12-04',
			'2026-12-09',
			'2026-12-16',
			'2026-12-23'
		]);
	});
});

/**
 * An independent mass balance: only the listed tasks, the file's numbers and closed forms written here, no code of
 * the planner. Ammonia clears first order by Q/V and nitrate gains 62.004/14.007 mg per mg N cleared.
 */
function replayed(
	plan: Plan,
	options: { volumeL: number; madeMgPerDay: number; clearsLPerDay: number; nitrate: number }
) {
	const { volumeL, madeMgPerDay, clearsLPerDay, nitrate } = options;
	const water = { tan: 0, no3: nitrate, cu: 0, pz: 0 };
	const strengthMgPerUnit: Record<string, number> = { cu: 2, pz: 1 };
	let at = plan.levels[0]?.at ?? '';
	return before(plan).map((sample) => {
		const days = (Date.parse(sample.at) - Date.parse(at)) / 86_400_000;
		const k = clearsLPerDay / volumeL;
		const made = madeMgPerDay / volumeL;
		const then = k === 0 ? water.tan + made * days : made / k + (water.tan - made / k) * Math.exp(-k * days);
		water.no3 += 4.4266 * (water.tan + made * days - then);
		water.tan = then;
		at = sample.at;
		const found = { ...water };
		for (const task of plan.tasks.filter((one) => one.at === sample.at)) {
			if (task.kind === 'change' || task.kind === 'washout') {
				const f = (task.amount?.value ?? 0) / volumeL;
				water.tan *= 1 - f;
				water.no3 = water.no3 * (1 - f) + f * nitrate;
				water.cu *= 1 - f;
				water.pz *= 1 - f;
			}
			if (task.kind === 'dose' && (task.medicine === 'cu' || task.medicine === 'pz'))
				water[task.medicine] +=
					((task.amount?.value ?? 0) * (strengthMgPerUnit[task.medicine] ?? 0)) / volumeL;
		}
		return { sample, found };
	});
}

describe('laws', { timeout: 60_000 }, () => {
	it('the listed tasks, replayed through a mass balance of their own, give the listed levels', () => {
		const anyRun = fc.record({
			volumeL: fc.integer({ min: 60, max: 400 }),
			feed: fc.integer({ min: 1, max: 40 }),
			clears: fc.integer({ min: 0, max: 80 }),
			limit: fc.constantFrom('10 mg/L', '20 mg/L', '40 mg/L'),
			change: fc.constantFrom('auto', '25% every 3 d', '30% daily', 'none'),
			ramp: fc.integer({ min: 1, max: 5 })
		});
		fc.assert(
			fc.property(anyRun, ({ volumeL, feed, clears, limit, change, ramp }) => {
				const plan = planned(
					exampleWith(
						{
							tank: { ...exampleDocument.tank, net: `${volumeL} L`, filterClears: `${clears} L/d` },
							limits: { nitrate: limit },
							lots: [{ ...exampleDocument.lots[0], mass: '1 g', feed: `${feed / 10} g/d` }]
						},
						{ copper: { change, repeat: `ramp ${ramp} d` }, settle: { change } }
					)
				);
				const made = (feed / 10) * 0.09 * 92;
				for (const { sample, found } of replayed(plan, {
					volumeL,
					madeMgPerDay: made,
					clearsLPerDay: clears,
					nitrate: 5
				})) {
					expect(Math.abs(sample.tanMgNPerL - found.tan)).toBeLessThan(1e-9);
					expect(Math.abs(sample.nitrateMgPerL - found.no3)).toBeLessThan(1e-9);
					expect(Math.abs((sample.medicinesMgPerL.cu ?? 0) - found.cu)).toBeLessThan(1e-9);
					expect(Math.abs((sample.medicinesMgPerL.pz ?? 0) - found.pz)).toBeLessThan(1e-9);
				}
			}),
			{ seed: 20261125, numRuns: 60 }
		);
	});

	it('no dose lifts copper over its ceiling, and no make-up leaves a hold under its floor', () => {
		fc.assert(
			fc.property(
				fc.integer({ min: 30, max: 600 }),
				fc.constantFrom('20% daily', '35% every 2 d', '50% every 4 d'),
				(volumeL, change) => {
					const plan = planned(
						exampleWith({ tank: { ...exampleDocument.tank, net: `${volumeL} L` } }, { copper: { change } })
					);
					const credit = plan.phases.find(({ id }) => id === 'copper');
					for (const sample of plan.levels) {
						const level = sample.medicinesMgPerL.cu ?? 0;
						expect(level).toBeLessThanOrEqual(0.2);
						const inside = sample.when === 'after' && sample.at > '2026-12-02' && sample.at < `${credit?.to}`;
						if (inside) expect(level).toBeGreaterThanOrEqual(0.15);
					}
				}
			),
			{ seed: 7, numRuns: 40 }
		);
	});

	it('a later start moves every task by the same days, in UTC and without fixed dates', () => {
		const shifted = (days: number) => {
			const start = new Date(Date.UTC(2026, 10, 27 + days)).toISOString().slice(0, 10);
			const lots = [{ ...exampleDocument.lots[0], arrived: start }];
			return planned(exampleWith({ timeZone: 'UTC', away: [], lots }, { settle: { starts: `on ${start}` } }));
		};
		const days = (date: string) => Date.parse(date) / 86_400_000;
		const base = shifted(0).tasks.map(({ id, date, amount }) => [id, days(date), amount?.value]);
		for (const by of [1, 13, 40, 200])
			expect(shifted(by).tasks.map(({ id, date, amount }) => [id, days(date) - by, amount?.value])).toEqual(
				base
			);
	});

	it('splitting an observe phase in two changes no date and no amount', () => {
		for (const change of ['auto', 'none']) {
			const watch: Record<string, unknown>[] = exampleDocument.phases.map((row) =>
				row.id === 'watch' ? { ...row, change, test: 'none' } : row
			);
			const whole = planned({ ...exampleDocument, phases: watch });
			const halves = planned({
				...exampleDocument,
				phases: watch.flatMap((row) =>
					row.id === 'watch'
						? [
								{ ...row, lasts: '5 d' },
								{ ...row, id: 'watch-on', starts: 'after watch', lasts: '9 d' }
							]
						: row.id === 'release'
							? [{ ...row, starts: 'after watch-on' }]
							: [row]
				)
			});
			const moved = (plan: Plan) =>
				plan.tasks
					.filter(({ amount }) => amount)
					.map(({ date, kind, amount }) => [date, kind, amount?.value]);
			expect(moved(halves)).toEqual(moved(whole));
			expect(halves.release).toBe(whole.release);
		}
	});

	it('08:00 stays 08:00 across a clock change', () => {
		const autumn = planned(
			exampleWith(
				{ timeZone: 'America/New_York', away: [], lots: [] },
				{ settle: { starts: 'on 2027-03-10' } }
			)
		);
		expect(new Set(autumn.tasks.map(({ time }) => time))).toEqual(new Set(['08:00']));
		const instants = autumn.tasks
			.filter(({ date }) => date === '2027-03-13' || date === '2027-03-14')
			.map(({ at }) => at.slice(11));
		expect(new Set(instants)).toEqual(new Set(['13:00:00Z', '12:00:00Z']));
	});

	it('changing one cell leaves tasks that do not hang on it as they were', () => {
		const changed = planned(exampleWith({}, { watch: { test: 'NH3 daily' } }));
		const outside = (plan: Plan) =>
			plan.tasks.filter(({ phase, kind }) => phase !== 'watch' || kind !== 'test');
		expect(outside(changed)).toEqual(outside(example));
	});

	it('more fish never mean fewer changes', () => {
		let last = 0;
		for (const feed of ['0.5 g/d', '1.6 g/d', '2.5 g/d', '4 g/d', '8 g/d']) {
			const plan = planned(
				exampleWith({
					tank: { ...exampleDocument.tank, filterClears: undefined },
					lots: [{ ...exampleDocument.lots[0], feed }]
				})
			);
			const changes = ofKind(plan, 'change').length;
			expect(changes).toBeGreaterThanOrEqual(last);
			last = changes;
		}
	});

	it('no two tasks share an id, also where a wash-out is clear at once', () => {
		const unique = ({ tasks }: Plan) => expect(new Set(tasks.map(({ id }) => id)).size).toBe(tasks.length);
		unique(example);
		unique(
			planned(
				exampleWith({ medicines: [{ id: 'cu', active: 'copper-ionic' }, exampleDocument.medicines[1]] })
			)
		);
		unique(planned(exampleWith({ service: ['08:00', '20:00'] })));
	});

	it('ends, whatever the run', () => {
		const endless = planned(exampleWith({}, { settle: { lasts: '5000 d' } }));
		expect(endless.levels.length).toBeLessThan(2 * 400 + 2);
		const stuck = planned(exampleWith({}, { wash: { change: 'none', carbon: undefined } }));
		expect(stuck.release).toBeNull();
	});
});
