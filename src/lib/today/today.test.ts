import { describe, expect, test } from 'vitest';
import { openSlips, plan } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import { judge, readTyped, todayOf, withEntries, type SentEntry, type ShownRow } from './index.ts';

/**
 * One run in UTC: copper held in 112 L from 2 February at 0.15 to 0.20 mg/L, aim 0.18, bottle 2 mg/mL, syringe 0.1 mL;
 * `log` is written as [moment, kind, rest].
 */
type Line = [at: string, kind: string, rest: Record<string, unknown>];
const entries = (lines: readonly Line[]): SentEntry[] =>
	lines.map(([at, kind, rest], n) => ({ id: `e${n}`, at, kind, ...rest }));

function document(over: Record<string, unknown> = {}, lines: readonly Line[] = []) {
	return {
		format: 'lazaret-plan/1',
		id: 'q2',
		name: 'Cardinals',
		timeZone: 'UTC',
		service: '08:00',
		tank: { name: 'Q2', net: '112 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1, aeration: 'coarse' },
		source: { ammonia: '0 mg/L', nitrate: '2 mg/L', salinity: '34 ppt' },
		lots: [
			{
				id: 'a',
				what: 'cardinalfish',
				group: 'cardinalfish',
				count: 5,
				feed: '1 g/d',
				protein: 0.09,
				arrived: '2027-02-01'
			}
		],
		medicines: [
			{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL', halfLife: 'none' }
		],
		phases: [
			{ id: 'settle', kind: 'settle', starts: 'on 2027-02-01', lasts: '1 d' },
			{
				id: 'copper',
				kind: 'hold',
				medicine: 'cu',
				starts: 'after settle',
				lasts: '28 d',
				level: '0.15-0.20 mg/L',
				aim: '0.18 mg/L',
				repeat: 'ramp 2 d',
				test: 'Cu daily, NH3 daily'
			},
			{ id: 'watch', kind: 'observe', starts: 'after copper', lasts: '14 d', test: 'NH3 every 2 d' }
		],
		log: entries(lines),
		...over
	};
}

const tanksOf = (now: string, ...documents: object[]) =>
	todayOf(
		documents.map((one) => {
			const run = readRun(one, { today: now.slice(0, 10) });
			expect(run.problems).toEqual([]);
			return { run, plan: plan(run, now) };
		}),
		now
	);

const tankOf = (now: string, one: object) => {
	const [tank] = tanksOf(now, one).tanks;
	if (!tank) throw new Error('no tank today');
	return tank;
};
const told = (rows: readonly ShownRow[] | ReturnType<typeof tankOf>['rows']) =>
	rows.map(({ text, logged }) => [text, logged.map(({ says }) => says).join()]);

/** Days of copper done as planned, with what was read: 4 February ends at a forecast of 0.17. */
const held: Line[] = [
	['2027-02-02T08:05:00Z', 'reading', { task: 'copper/test/1', what: 'Cu', value: '0 mg/L' }],
	['2027-02-02T08:10:00Z', 'done', { task: 'copper/dose/1' }],
	['2027-02-03T08:05:00Z', 'reading', { task: 'copper/test/2', what: 'Cu', value: '0.09 mg/L' }],
	['2027-02-03T08:10:00Z', 'done', { task: 'copper/dose/2' }],
	['2027-02-04T08:05:00Z', 'reading', { task: 'copper/test/3', what: 'Cu', value: '0.18 mg/L' }],
	// 0.18 x (1 - 0.055) = 0.17
	['2027-02-04T20:00:00Z', 'change', { fraction: '5.5%' }]
];
const morning = '2027-02-05T08:30:00Z';

describe('the jobs of a tank', () => {
	test('stand in working order with their amounts, a line for each thing a test measures', () => {
		const tank = tankOf(morning, document({}, held));
		expect([tank.day, tank.date, tank.standing]).toEqual([5, '2027-02-05', 'treated']);
		expect(told(tank.rows)).toEqual([
			['Test copper', ''],
			['Test ammonia', ''],
			// (0.18 - 0.17) x 112 = 1.12 mg = 0.56 mL of 2 mg/mL, rounded down to the syringe
			['Ionic copper 0.5 mL', '']
		]);
		expect(tank.rows[0]?.line).toBe('Forecast 0.17 mg/L · keep 0.15–0.20');
		expect(tank.minutes).toBe(20);
		expect(tank.rows[2]?.hazards.length).toBeGreaterThan(0);
	});

	test('a low reading confirms nothing when the dose behind it has lifted the level since', () => {
		const ask = (lines: Line[]) => tankOf('2027-02-04T08:02:00Z', document({}, lines)).rows[0]?.ask;
		// 0.09 was what the ramp had come to; the step behind it brings 0.18
		expect(ask(held.slice(0, 4))).toMatchObject({ what: 'Cu', lowBefore: false });
		const against: Line = ['2027-02-03T20:00:00Z', 'reading', { what: 'Cu', value: '0.12 mg/L' }];
		expect(ask([...held.slice(0, 4), against])).toMatchObject({ lowBefore: true });
	});

	test('where nobody logged for three days, a level that the doses would explain is no slip', () => {
		const ask = tankOf(morning, document()).rows.find((row) => row.ask?.what === 'Cu')?.ask;
		if (!ask) throw new Error('copper is read');
		const said = judge(ask, { value: 0.12 });
		expect(said.text).not.toContain('ten times off');
		expect(said.card).toBeUndefined();
		// up to the ceiling of 0.2 the doses may stand in it; more than that is unsafe whatever was given
		expect(judge(ask, { value: 0.25 })).toMatchObject({ tone: 'stop', card: 'overdose' });
		const read: Line = [
			'2027-02-05T08:31:00Z',
			'reading',
			{ task: 'copper/test/4', what: 'Cu', value: '0.12 mg/L' }
		];
		const after = tankOf('2027-02-05T08:32:00Z', document({}, [read]));
		expect(after.findings.map(({ rule }) => rule)).not.toContain('reading-doubtful');
	});

	test('the reading after one in doubt is heard, as the plan hears it', () => {
		const slip: Line = [
			'2027-02-05T08:05:00Z',
			'reading',
			{ task: 'copper/test/4', what: 'Cu', value: '170 mg/L' }
		];
		const doubted = tankOf(morning, document({}, [...held, slip]));
		const stop = doubted.findings.find(({ rule }) => rule === 'reading-doubtful');
		expect(stop?.because).toContain('1000 times the forecast of 0.17');
		expect(stop?.because).toContain('test again at once');
		const ask = doubted.rows.find((row) => row.ask?.what === 'Cu')?.ask;
		if (!ask) throw new Error('copper is read');
		const retest = judge(ask, { value: 0.17 });
		expect(retest.text).not.toContain('ten times off');
		const again: Line = ['2027-02-05T08:31:00Z', 'reading', { what: 'Cu', value: '0.17 mg/L' }];
		const dose = tankOf('2027-02-05T08:32:00Z', document({}, [...held, slip, again])).rows.find(
			({ kind }) => kind === 'dose'
		);
		expect(dose?.amount ?? null).toEqual(retest.dose?.now ?? null);
	});

	test('a reading that is doubted asks for a second one until that is there', () => {
		const again = (...values: string[]) => {
			const read = values.map((value, n): Line => [
				`2027-02-05T${10 + n}:00:00Z`,
				'reading',
				{ what: 'Cu', value }
			]);
			return tankOf('2027-02-05T20:00:00Z', document({}, [...held, ...read])).rows[0]?.again;
		};
		expect(again()).toBe(false);
		// below the floor, above the ceiling, ten times off
		expect([again('0.12 mg/L'), again('0.25 mg/L'), again('0.015 mg/L')]).toEqual([true, true, true]);
		expect([again('0.12 mg/L', '0.13 mg/L'), again('0.25 mg/L', '0.17 mg/L')]).toEqual([false, false]);
	});

	test('a skipped job that asks how to go on is counted, until a way is chosen', () => {
		const lines: Line[] = [
			...held.slice(0, 3),
			['2027-02-03T20:00:00Z', 'missed', { task: 'copper/dose/2' }]
		];
		const document2 = document({}, lines);
		const skipped = tankOf('2027-02-03T21:00:00Z', document2).skipped;
		expect(skipped).toEqual({ task: 'copper/dose/2', count: 1 });
		expect(openSlips(document2, '2027-02-03T21:00:00Z', '2027-02-03').map(({ task }) => task.id)).toEqual([
			'copper/dose/2'
		]);
		const chosen: Line = ['2027-02-03T20:30:00Z', 'choice', { task: 'copper/dose/2', taken: 'skip' }];
		const tank = tankOf('2027-02-03T21:00:00Z', document({}, [...lines, chosen]));
		expect(tank.skipped).toBeNull();
		expect(tank.logged.map(({ says }) => says)).toEqual([
			expect.stringContaining('chosen: leave it to the next make-up')
		]);
	});

	test('what nobody logged in an earlier service is missed, this service is only open', () => {
		const tank = tankOf('2027-02-05T08:30:00Z', document({}, held.slice(0, 2)));
		const doses = tank.missed.find(({ rows }) => rows[0]?.kind === 'dose');
		// the first one holds up those behind it: on 3 February, with its amount, the next day's folded into it
		expect(doses).toMatchObject({ date: '2027-02-03', others: ['copper/dose/3'] });
		expect(doses?.leaves).toContain('No later dose');
		expect(doses?.rows[0]?.text).toMatch(/^Ionic copper \d/);
		expect(tank.rows.map(({ task }) => task)).toContain('copper/test/4');
		// a later dose says by its day, not by an id, what it waits for
		expect(tank.rows.find(({ kind }) => kind === 'dose')?.line).toContain('the dose of 2027-02-03');
	});

	test('until the next service a missed dose is said to count as the forecast counts it', () => {
		const at = (now: string) => {
			const tank = tankOf(now, document({}, held));
			const says = tank.missed.find(({ rows }) => rows[0]?.kind === 'dose')?.leaves;
			return [says, tank.rows.find((row) => row.ask?.what === 'Cu')?.ask?.forecast];
		};
		const [early, forecast] = at('2027-02-06T07:30:00Z');
		expect(early).toContain('Until the next service the plan takes it as done');
		// 0.17 and the 1.0 mg in 112 L of the dose of the day before
		expect(forecast).toBeCloseTo(0.17 + 1 / 112, 3);
		const [late, without] = at('2027-02-06T08:30:00Z');
		expect(late).toContain('No later dose of this medicine has an amount');
		expect(without).toBeCloseTo(0.17, 3);
	});

	test('a missed dose holds nothing up once the level was read', () => {
		const read: Line = ['2027-02-04T20:00:00Z', 'reading', { what: 'Cu', value: '0.17 mg/L' }];
		const tank = tankOf('2027-02-05T08:30:00Z', document({}, [...held.slice(0, 2), read]));
		expect(tank.rows.find(({ kind }) => kind === 'dose')?.amount).toMatchObject({ unit: 'mL' });
		const doses = tank.missed.find(({ rows }) => rows[0]?.kind === 'dose');
		expect(doses?.leaves).toBe('Later doses are figured without it: say what became of it.');
	});

	test('with two services a day, the morning’s open jobs are missed once the evening has begun', () => {
		const twice = document({ service: ['08:00', '20:00'] }, held);
		const missed = (now: string) =>
			tankOf(now, twice).missed.flatMap(({ rows }) => rows.map(({ task }) => task));
		expect(missed('2027-02-05T19:59:00Z')).not.toContain('copper/test/4');
		expect(missed('2027-02-05T20:01:00Z')).toContain('copper/test/4');
	});

	test('what is missed here, and only that, has its ways to go on, at every hour of two days', () => {
		for (let hour = 0; hour < 48; hour++) {
			const now = new Date(Date.UTC(2027, 1, 5, hour, 30)).toISOString();
			const one = document({ service: ['08:00', '20:00'] }, held);
			const [tank] = tanksOf(now, one).tanks;
			const missed = tank?.missed.flatMap(({ rows, others }) => [...rows.map(({ task }) => task), ...others]);
			const open = openSlips(one, now, null).map(({ task }) => task.id);
			const tests = (ids: readonly string[] = []) => [...new Set(ids)].filter((id) => id.includes('/test/'));
			expect([now, tests(missed).toSorted()]).toEqual([now, tests(open).toSorted()]);
			// a dose behind one without an answer was figured none, and asks for no choice of its own
			expect([now, missed]).toEqual([now, expect.arrayContaining(open)]);
		}
	});

	test('a day belongs to the run’s own zone', () => {
		const far = document({ timeZone: 'Pacific/Auckland' });
		// 12:30 UTC on 3 February is 01:30 on the 4th in Auckland (UTC+13)
		expect(tankOf('2027-02-03T12:30:00Z', far).date).toBe('2027-02-04');
	});

	test('a run that is over, or not begun, is not in the round', () => {
		expect(tanksOf('2027-01-20T08:00:00Z', document()).tanks).toEqual([]);
		expect(tanksOf('2027-09-20T08:00:00Z', document()).tanks.flatMap(({ rows }) => rows)).toEqual([]);
	});
});

describe('the order of tanks', () => {
	const named = (name: string, over: Record<string, unknown> = {}, lines: readonly Line[] = held) => {
		const base = document(over, lines);
		return { ...base, id: name, tank: { ...base.tank, name, ...(over.tank as object | undefined) } };
	};
	const sign = (at: string, signs: string[]): Line => [at, 'observation', { signs }];
	const days = {
		display: named('display', { tank: { holds: ['fish', 'invertebrates'] } }),
		treated: named('treated'),
		new: named('new', {
			phases: [{ id: 'settle', kind: 'settle', starts: 'on 2027-02-04', lasts: '5 d', test: 'NH3 daily' }],
			medicines: [],
			log: []
		}),
		suspected: named('suspected', {}, [...held, sign('2027-02-04T21:00:00Z', ['flashing'])]),
		loud: named('loud', {}, [...held, sign('2027-02-04T21:00:00Z', ['white-spots'])]),
		lost: named('lost', {}, [...held, ['2027-02-04T21:00:00Z', 'loss', { lot: 'a', count: 1 }]])
	};
	const cleanest = ['display', 'treated', 'new', 'suspected', 'lost', 'loud'];

	test('displays first, the cleanest before the treated, suspected and sick last, however they come in', () => {
		for (const names of [Object.keys(days), Object.keys(days).reverse()]) {
			const round = tanksOf(morning, ...names.map((name) => days[name as keyof typeof days]));
			expect(round.tanks.map(({ tank }) => tank)).toEqual(cleanest);
			expect(round.tanks.map(({ standing }) => standing)).toEqual([
				'display',
				'treated',
				'new',
				'suspected',
				'sick',
				'sick'
			]);
		}
	});

	test('a hygiene step stands between two tanks, a graver one before the sick, and one after them', () => {
		const round = tanksOf(morning, ...Object.values(days));
		expect(round.tanks.map(({ hygiene }) => hygiene !== null)).toEqual([false, true, true, true, true, true]);
		expect(round.tanks[1]?.hygiene?.text).toContain('own net');
		expect(round.tanks[3]?.hygiene?.text).toContain('come last');
		expect(round.hygieneAfter?.text).toContain('200 mg/L for 10 minutes');
		expect(tanksOf(morning, days.display, days.treated).hygieneAfter).toBeNull();
	});

	test('signs fade after fourteen days, and a clean look is no sign', () => {
		const old = named('old', {}, [...held, sign('2027-02-04T21:00:00Z', ['flashing'])]);
		expect(tankOf('2027-02-18T20:59:00Z', old).standing).toBe('suspected');
		expect(tankOf('2027-02-18T21:01:00Z', old).standing).toBe('treated');
		expect(
			tankOf(morning, named('clean', {}, [...held, sign('2027-02-04T21:00:00Z', ['none'])])).standing
		).toBe('treated');
	});
});

test('nitrite has no limit in salt water, and that is said instead of one', () => {
	const phases = document().phases.map((row) => (row.id === 'copper' ? { ...row, test: 'NO2 daily' } : row));
	const ask = tankOf(morning, document({ phases }, held.slice(1, 2))).rows.find(
		(row) => row.ask?.what === 'NO2'
	)?.ask;
	if (!ask) throw new Error('nitrite is read');
	expect(judge(ask, { value: 2 })).toMatchObject({
		tone: 'note',
		text: expect.stringMatching(/^2 mg\/L: no limit is given\./) as string
	});
	expect(judge(ask, { value: 0 })).toEqual({ tone: 'good', text: '0 mg/L.' });
});

describe('what a device knows before the plan does', () => {
	const tank = tankOf(morning, document({}, held));
	const low: SentEntry = {
		id: 'low',
		at: '2027-02-05T08:31:00Z',
		kind: 'reading',
		task: 'copper/test/4',
		what: 'Cu',
		value: '0.12 mg/L'
	};
	const shown = (...made: SentEntry[]) => withEntries(tank, made, { judge });
	const dose = (rows: readonly ShownRow[]) => rows.find(({ kind }) => kind === 'dose');

	test('a sign or a loss logged without network counts at once', () => {
		expect(tank).toMatchObject({ standing: 'treated', why: 'no sign on record' });
		const sent = { id: 'own', at: '2027-02-05T08:31:00Z' };
		const look = { ...sent, kind: 'observation', signs: ['into-flow'] };
		expect(shown(look)).toMatchObject({
			standing: 'suspected',
			why: 'into flow logged',
			signs: ['into-flow']
		});
		expect(shown({ ...look, signs: ['none'] })).toMatchObject({ standing: 'treated' });
		const loss = { ...sent, kind: 'loss', lot: 'a', count: 2 };
		expect(shown(loss)).toMatchObject({ standing: 'sick', why: '2 lost just now' });
		const back = { id: 'void-own', at: sent.at, kind: 'correct', entry: 'own', void: true };
		expect(shown(look, back)).toMatchObject({ standing: 'treated', why: 'no sign on record' });
	});

	// the keepers' worked example: 112 L, forecast 0.17, reading 0.12, ceiling 0.20, 2 mg/mL: 1.6 mL
	test('a low reading sets the dose at once, and the plan marched again says the same', () => {
		const rows = shown(low).rows;
		expect(rows[0]?.verdict?.dose?.now).toEqual({ value: 1.6, unit: 'mL' });
		expect(dose(rows)).toMatchObject({ text: 'Ionic copper 1.6 mL', amended: 'By the reading just taken.' });
		// the rise was figured for another amount
		expect(dose(rows)?.line).not.toContain(' to ');
		const again = tankOf('2027-02-05T08:32:00Z', document({ log: [...entries(held), low] }));
		expect(again.rows.find(({ kind }) => kind === 'dose')?.text).toBe('Ionic copper 1.6 mL');
		// beside what was read stands what was expected before it, and its unit
		expect(again.rows[0]).toMatchObject({
			line: tank.rows[0]?.line,
			logged: [{ says: '0.12 mg/L' }]
		});
		expect(tank.rows[0]?.line).toContain('Forecast 0.17 mg/L');
		// read a second time, it is still the word from before both
		const twice = { ...low, id: 'low-again', at: '2027-02-05T08:31:30Z' };
		const after = tankOf('2027-02-05T08:32:00Z', document({ log: [...entries(held), low, twice] }));
		expect(after.rows[0]?.line).toBe(tank.rows[0]?.line);
	});

	test('law: for any reading the dose shown at once is the dose of the plan marched again', () => {
		for (let step = 2; step <= 20; step++) {
			const value = `${(step / 100).toFixed(2)} mg/L`;
			const reading = { ...low, value };
			const atOnce = dose(shown(reading).rows);
			const replanned = tankOf('2027-02-05T08:32:00Z', document({ log: [...entries(held), reading] }));
			const planned = replanned.rows.find(({ kind }) => kind === 'dose');
			expect([value, atOnce?.amount?.value ?? 0]).toEqual([value, planned?.amount?.value ?? 0]);
		}
	});

	test('a reading above the ceiling takes the dose away, here and in the plan marched again', () => {
		const high = { ...low, value: '0.25 mg/L' };
		expect(dose(shown(high).rows)).toMatchObject({
			amount: null,
			amended: 'No dose until a second reading.'
		});
		const again = tankOf('2027-02-05T08:32:00Z', document({ log: [...entries(held), high] }));
		expect(again.rows.find(({ kind }) => kind === 'dose')?.amount ?? null).toBeNull();
	});

	test('an entry answers its job, one taken back leaves it open, one the plan knows counts once', () => {
		const done = {
			id: 'd',
			at: '2027-02-05T08:40:00Z',
			kind: 'done',
			task: 'copper/dose/4',
			amount: '0.5 mL'
		};
		const back = { id: 'v', at: '2027-02-05T08:41:00Z', kind: 'correct', entry: 'd', void: true };
		expect(told(shown(done).rows)[2]).toEqual(['Ionic copper 0.5 mL', '0.5 mL']);
		expect(told(shown(done, back).rows)[2]).toEqual(['Ionic copper 0.5 mL', '']);
		const known = tankOf('2027-02-05T08:42:00Z', document({ log: [...entries(held), done] }));
		expect(withEntries(known, [done], { judge }).rows[2]?.logged.length).toBe(1);
		expect(withEntries(known, [done, back], { judge }).rows[2]?.logged).toEqual([]);
	});

	test('a reading answers only its own line of a test; skipping answers all of it', () => {
		expect(told(shown(low).rows).slice(0, 2)).toEqual([
			['Test copper', '0.12 mg/L'],
			['Test ammonia', '']
		]);
		const skip = { id: 's', at: low.at, kind: 'missed', task: 'copper/test/4', reason: 'no kit' };
		expect(told(shown(skip).rows).slice(0, 2)).toEqual([
			['Test copper', 'skipped: no kit'],
			['Test ammonia', 'skipped: no kit']
		]);
	});

	test('ammonia that asks for more water speaks on the change the plan has', () => {
		const phases = document().phases.map((row) =>
			row.id === 'copper' ? { ...row, change: '30% every 3 d' } : row
		);
		const changing = tankOf(morning, document({ phases }, held));
		expect(changing.rows.find(({ kind }) => kind === 'change')?.amount?.value).toBeCloseTo(33.6, 6);
		const amended = (value: string) => {
			const read = { ...low, what: 'NH3', value };
			return withEntries(changing, [read], { judge }).rows.find(({ kind }) => kind === 'change')?.amended;
		};
		// 5.61 % of 1 mg/L is 0.056 mg/L NH3-N: 1 - 0.02 / 0.0561 = 64.4 % of 112 L, 72.1 L and up to a whole litre
		expect(amended('1 mg/L')).toMatch(
			/^The ammonia just read asks for more, 7[23](\.\d)? L: change that much/
		);
		// 0.5 mg/L asks for 1 - 0.02 / 0.02805 = 28.7 %, 32.1 L: the planned change does it
		expect(amended('0.5 mg/L')).toBe('');
		expect(amended('0.2 mg/L')).toBe('');
	});

	test('a look of one’s own accord stands below the jobs', () => {
		const look = { id: 'l', at: low.at, kind: 'observation', signs: ['flashing'], appetite: 'picked' };
		expect(shown(look).logged.map(({ says }) => says)).toEqual(['flashing, food picked']);
	});
});

describe('a reading as it is typed', () => {
	const ask = (what: string) => {
		const row = tankOf(morning, document({}, held)).rows.find((one) => one.ask?.what === what);
		if (!row?.ask) throw new Error(`no test of ${what}`);
		return row.ask;
	};
	const value = (what: string, text: string, system: 'metric' | 'us' = 'metric') => {
		const read = readTyped(ask(what), text, system);
		return read.ok ? [read.value.value, read.value.text] : read.problem.expected;
	};

	test('a bare number is meant in the unit shown, another unit of the kind is read as such', () => {
		expect(value('Cu', '0.12')).toEqual([0.12, '0.12 mg/L']);
		expect(value('Cu', '0,12')).toEqual([0.12, '0.12 mg/L']);
		expect(value('Cu', '120 ug/L')).toEqual([0.12, '120 ug/L']);
		expect(value('Cu', '0.12 ppm')).toEqual([0.12, '0.12 ppm']);
	});

	test('what cannot be read is said, never guessed', () => {
		for (const text of ['twelve', '-0.1', '0.12 mL', '0.1.2'])
			expect(typeof value('Cu', text)).toBe('string');
	});

	test('temperature follows the keeper’s units', () => {
		const read = readTyped({ ...ask('Cu'), what: 'T', unit: '°C' }, '79', 'us');
		// (79 - 32) / 1.8
		expect(read.ok && read.value.value).toBeCloseTo(26.11, 2);
		expect(read.ok && read.value.text).toBe('79 °F');
	});
});

describe('what cannot wait, read again from the log', () => {
	const morning: Line[] = [
		['2027-02-02T08:05:00Z', 'reading', { task: 'copper/test/1', what: 'NH3', value: '2.5 mg/L' }]
	];

	test('ammonia at an emergency keeps its stop, its litres and its card until it is read lower', () => {
		const stop = tankOf('2027-02-02T08:30:00Z', document({}, morning)).findings[0];
		expect(stop).toMatchObject({ rule: 'ammonia-now', severity: 'stop', card: 'fouling' });
		expect(stop?.because).toContain('change 97 L');
		const lower: Line = ['2027-02-02T09:00:00Z', 'reading', { what: 'NH3', value: '0.2 mg/L' }];
		const after = tankOf('2027-02-02T09:10:00Z', document({}, [...morning, lower]));
		expect(after.findings.map(({ rule }) => rule)).not.toContain('ammonia-now');
	});

	test('the change that ammonia asks for is a job of the day, with the litres of its verdict and of its stop', () => {
		const ask = tankOf('2027-02-02T08:02:00Z', document({}, [])).rows.find(
			({ ask: one }) => one?.what === 'NH3'
		)?.ask;
		if (!ask) throw new Error('ammonia is not tested today');
		expect(judge(ask, { value: 2.5 }).text).toContain('97 L (87 %) of matched water in one go now');
		const tank = tankOf('2027-02-02T08:30:00Z', document({}, morning));
		expect(tank.findings[0]?.because).toContain('change 97 L, 87 %');
		const row = tank.rows.find(({ kind }) => kind === 'change');
		expect(row).toMatchObject({
			text: 'Change 97 L at once',
			time: '08:05',
			state: 'open',
			amount: { value: 97 }
		});
		expect(row?.line).toBe('87 % · match 26 °C, 34 ppt');
		// 97 of 112 L in three steps leave (1 - 97 / 336)^3 = 36 % of the ammonia, in one go 13 %
		expect(row?.hazards.join()).toContain('Drain in one go');
	});

	test('the change that cannot wait stands before the dose of its morning, before and after it is done', () => {
		const told = (...more: Line[]) =>
			tankOf('2027-02-02T08:30:00Z', document({}, [...morning, ...more])).rows.map(({ kind, line }) =>
				`${kind} ${kind === 'dose' ? line : ''}`.trim()
			);
		expect(told()).toEqual(['change', 'test', 'test', 'dose after the change · 0 to 0.089 mg/L']);
		const changed: Line = ['2027-02-02T08:20:00Z', 'done', { task: 'copper/change/1.0805' }];
		expect(told(changed)).toEqual(['change', 'test', 'test', 'dose 0 to 0.089 mg/L']);
	});

	test('a pH that was read says how much of the ammonia is toxic', () => {
		const read: Line = ['2027-02-02T08:01:00Z', 'reading', { what: 'pH', value: '7.8' }];
		const { rows } = tankOf('2027-02-02T08:02:00Z', document({}, [read]));
		expect(rows.find(({ ask }) => ask?.what === 'NH3')?.ask?.ammonia?.water).toContain('pH 7.8');
	});

	test('two deaths among fish with signs are a stop, and the signs stay beside them', () => {
		const look: Line = ['2027-02-02T08:05:00Z', 'observation', { signs: ['gold-dust', 'fast-breathing'] }];
		const loss: Line = ['2027-02-02T08:10:00Z', 'loss', { lot: 'a', count: 2 }];
		const tank = tankOf('2027-02-02T08:30:00Z', document({}, [look, loss]));
		expect(tank.why).toBe('gold dust, fast breathing, 2 lost within 14 days');
		expect(tank.findings.find(({ rule }) => rule === 'call-the-vet')?.severity).toBe('stop');
		const quiet = tankOf('2027-02-02T08:30:00Z', document({}, [loss]));
		expect(quiet.findings.find(({ rule }) => rule === 'call-the-vet')?.severity).toBe('caution');
	});
});
