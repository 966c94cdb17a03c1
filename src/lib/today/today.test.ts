import { describe, expect, test } from 'vitest';
import { openSlips } from '../planner/index.ts';
import { judge } from './index.ts';
import { document, held, morning, tankOf, tanksOf, told, type Line } from './sample-round.ts';

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

	test('a low level that is confirmed after the dose of the day asks for the rest until it is given', () => {
		const given: Line = ['2027-02-05T08:10:00Z', 'done', { task: 'copper/dose/4', amount: '1.6 mL' }];
		const read = (hour: number, value: string): Line => [
			`2027-02-05T${hour}:00:00Z`,
			'reading',
			{ task: 'copper/test/4', what: 'Cu', value }
		];
		const owed = (...lines: Line[]) =>
			tankOf('2027-02-05T21:00:00Z', document({}, [...held, ...lines])).rows[0]?.owed?.dose?.now ?? null;
		const first: Line = [
			'2027-02-05T08:05:00Z',
			'reading',
			{ task: 'copper/test/4', what: 'Cu', value: '0.12 mg/L' }
		];
		expect(owed(first, given)).toBe(null);
		// (0.18 - 0.14) x 112 = 4.48 mg = 2.24 mL of 2 mg/mL
		expect(owed(first, given, read(20, '0.14 mg/L'))).toEqual({ value: 2.2, unit: 'mL' });
		expect(owed(first, given, read(20, '0.16 mg/L'))).toBe(null);
		const rest: Line = ['2027-02-05T20:05:00Z', 'dose', { medicine: 'cu', amount: '2.2 mL' }];
		expect(owed(first, given, read(20, '0.14 mg/L'), rest)).toBe(null);
		// the dose of the day still waits, and has the amount
		expect(owed(first, read(20, '0.14 mg/L'))).toBe(null);
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
