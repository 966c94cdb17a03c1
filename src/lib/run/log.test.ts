import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readLog, readRun, type Fact, type LogEntry } from './index.ts';
import { fullDocument } from './sample.ts';

const flukes = { id: 'flukes', kind: 'pulse', medicine: 'pz', starts: 'after fresher', lasts: '2 doses' };
const base = { ...fullDocument, phases: [...fullDocument.phases, flukes], log: [] };

/** The log of the sample run, read as a plan file; every entry must be readable. */
function entriesOf(log: readonly object[]): LogEntry[] {
	const run = readRun({ ...base, log }, { today: null });
	expect(run.problems).toEqual([]);
	return run.log;
}
const facts = (log: readonly object[]): Fact[] => readLog(entriesOf(log));

const at = (hour: number) => `2026-12-03T${String(hour).padStart(2, '0')}:00:00Z`;
const topoff = (id: string, hour: number, litres = '1 L') => ({ id, at: at(hour), kind: 'topoff', litres });
const correct = (id: string, hour: number, entry: string, rest: object) => ({
	id,
	at: at(hour),
	kind: 'correct',
	entry,
	...rest
});
const litres = (log: readonly Fact[]) =>
	log.map((entry) => (entry.kind === 'topoff' ? `${entry.id}:${entry.litres}` : entry.id));

describe('the log', () => {
	it('of every kind becomes numbers in one unit, with its instant', () => {
		const read = facts(fullDocument.log);
		expect(read.map(({ id }) => id)).toEqual(['1', '2', '3', '4', '5', '6', '8', '9', '10', '12', '14']);
		expect(read[0]).toMatchObject({ amount: { value: 5, unit: 'mL' }, by: 'Ana', note: 'slowly' });
		// 2026-11-30T08:12Z: Unix time 1796026320, by `date -u -d 2026-11-30T08:12Z +%s`
		expect(read[0]?.atMs).toBe(1_796_026_320_000);
		expect(read[2]).toEqual({
			id: '3',
			at: '2026-12-03T08:05:00Z',
			atMs: Date.UTC(2026, 11, 3, 8, 5),
			kind: 'reading',
			what: 'Cu',
			value: 0.17,
			task: 'copper/test/4',
			as: 'ionic'
		});
		expect(read[3]).toMatchObject({ lot: 'a', signs: ['thin'], appetite: 'picked', breathsPerMinute: 90 });
		expect(read[5]).toMatchObject({
			lot: { id: 'b', feedGPerDay: 0.3, arrived: '2026-12-05' },
			restart: false
		});
		expect(read.at(-1)).toMatchObject({ lotId: 'b', count: -1, restart: true });
	});

	it.each([
		['Cu', '180 ug/L', 0.18],
		['NH3', '0.5 ppm', 0.5],
		['pH', 8.1, 8.1],
		['pH', '8.1', 8.1],
		['S', '1.025 (20C/20C)', 32.9], // EOS-80 (UNESCO 1983)
		['T', '79 F', 26.11],
		['fo', '25 ppm', 25], // counted whole: uL/L
		['pz', '2.5 mg/L', 2.5]
	])('reads %s of %s', (what, value, number) => {
		const [entry] = facts([{ id: '1', at: at(8), kind: 'reading', what, value }]);
		expect(entry).toMatchObject({ kind: 'reading', what, value: expect.closeTo(number, 1) });
	});

	// a US gallon is 231 cubic inches, 3.785411784 L (NIST SP 811)
	it.each([
		['copper/dose/1', '5.0 mL', { value: 5, unit: 'mL' }],
		['copper/dose/1', '0.005 L', { value: 5, unit: 'mL' }],
		['flukes/dose/1', '280 mg', { value: 280, unit: 'mg' }],
		['flukes/dose/1', '0.28 g', { value: 280, unit: 'mg' }],
		['copper/change/1', '30 L', { value: 30, unit: 'L' }],
		['copper/change/1', '500 mL', { value: 0.5, unit: 'L' }],
		['copper/change/1', '5 gal', { value: 18.927, unit: 'L' }]
	])('takes for %s %s, in the unit of the job', (task, amount, expected) => {
		const [entry] = facts([{ id: '1', at: at(8), kind: 'done', task, amount }]);
		expect(entry).toMatchObject({
			amount: { value: expect.closeTo(expected.value, 3), unit: expected.unit }
		});
	});

	it.each([
		[{ kind: 'done', task: 'copper/dose/1', amount: '280 mg' }, 'an amount in mL, such as 3.0 mL'],
		[{ kind: 'done', task: 'flukes/dose/1', amount: '5 mL' }, 'an amount in mg, such as 280 mg'],
		[{ kind: 'done', task: 'copper/change/1', amount: '5 g' }, 'an amount in L, such as 30 L'],
		[{ kind: 'done', task: 'copper/dose/1', amount: '0 mL' }, 'more than nothing'],
		[{ kind: 'done', task: 'copper/change/1', amount: '500 L' }, 'at most the 113.6 L in the tank'],
		[{ kind: 'dose', medicine: 'cu', amount: '2 g' }, 'an amount in mL, such as 3.0 mL'],
		[{ kind: 'dose', medicine: 'pz', amount: '0 mg' }, 'more than nothing'],
		[{ kind: 'change', litres: '0 L' }, 'more than nothing'],
		[{ kind: 'change', litres: '150 L' }, 'at most the 113.6 L in the tank'],
		[{ kind: 'change', fraction: '0%' }, 'more than nothing'],
		[{ kind: 'topoff', litres: '115 L' }, 'at most the 113.6 L in the tank'],
		[{ kind: 'topoff', litres: '2 g' }, 'an amount in L, such as 30 L']
	])('refuses %j on its way in', (fact, expected) => {
		const { problems, log } = readRun({ ...base, log: [{ id: '1', at: at(8), ...fact }] }, { today: null });
		expect(problems.map((one) => one.expected)).toEqual([expect.stringContaining(expected)]);
		expect(log).toEqual([]);
	});

	describe('of fish that died or left', () => {
		const lots = [{ id: 'a', what: 'anthias', group: 'anthias', count: 5 }];
		const loss = (id: string, hour: number, count: number) => ({
			id,
			at: at(hour),
			kind: 'loss',
			lot: 'a',
			count
		});
		const left = { id: 'l', at: at(9), kind: 'fish', lot: 'a', count: -3 };
		const joined = { id: 'j', at: at(20), kind: 'fish', lot: 'a', count: 6 };
		const told = (...log: object[]) =>
			readRun({ ...base, lots, log }, { today: null }).problems.map(({ cell, expected }) => [cell, expected]);
		const most = (n: number) =>
			`at most ${n}, as many anthias as are known in the tank: correct the number, or first log those that joined`;

		it('takes no more than are known, and says how many those are', () => {
			expect(told(loss('1', 8, 11))).toEqual([['log.1.count', most(5)]]);
			expect(told(loss('1', 8, 5))).toEqual([]);
			// what was written first stands, whenever it was
			expect(told(left, loss('1', 8, 3))).toEqual([['log.1.count', most(2)]]);
			expect(told(loss('1', 8, 3), left)).toEqual([['log.l.count', most(2)]]);
			expect(told(joined, loss('1', 8, 11))).toEqual([]);
		});

		it('is corrected as far as fish are known', () => {
			const as = (count: number) => ({ as: { kind: 'loss', lot: 'a', count } });
			expect(told(loss('1', 8, 3), correct('x', 9, '1', as(5)))).toEqual([]);
			expect(told(loss('1', 8, 3), correct('x', 9, '1', as(6)))).toEqual([['log.x.as.count', most(5)]]);
			expect(told(loss('1', 8, 5), correct('x', 9, '1', { void: true }), loss('2', 10, 4))).toEqual([]);
			// and a log that once took too many can be put right
			expect(told(loss('1', 8, 11), correct('x', 9, '1', as(1)), loss('2', 10, 4))).toEqual([]);
		});

		it('keeps a number that stands in the log, and asks nothing of fish that nobody counted', () => {
			const run = readRun({ ...base, lots, log: [loss('1', 8, 11)] }, { today: '2026-12-04' });
			expect(run.log).toHaveLength(1);
			const uncounted = [{ id: 'a', what: 'anthias', group: 'anthias' }];
			expect(
				readRun({ ...base, lots: uncounted, log: [loss('1', 8, 11)] }, { today: null }).problems
			).toEqual([]);
		});
	});

	it('keeps what stands in it when the tank is written smaller and the bottle anew', () => {
		const tank = { ...base.tank, net: '100 L' };
		const medicines = base.medicines.map((row) => (row.id === 'cu' ? { ...row, strength: '0.2 g/g' } : row));
		const log = [
			{ id: '1', at: at(8), kind: 'change', litres: '110 L' },
			{ id: '2', at: at(9), kind: 'dose', medicine: 'cu', amount: '2 mL' }
		];
		const run = readRun({ ...base, tank, medicines, log }, { today: '2026-12-04' });
		expect(run.log.map(({ id }) => id)).toEqual(['1', '2']);
	});

	it('is in the order of the moments, then of the ids, whatever their offsets', () => {
		const log = [topoff('b', 10), topoff('a', 10), { ...topoff('c', 0), at: '2026-12-03T12:30:00+05:00' }];
		expect(facts(log).map(({ id }) => id)).toEqual(['c', 'a', 'b']);
	});

	it('takes an id that comes again once', () => {
		expect(litres(facts([topoff('a', 8), topoff('b', 9), topoff('a', 8)]))).toEqual(['a:1', 'b:1']);
	});

	const replaces = { as: { kind: 'topoff', litres: '2 L' } };
	const again = { as: { kind: 'topoff', litres: '3 L' } };
	it.each<[string, object[], string[]]>([
		['a replacement stands in the place of the entry', [correct('x', 9, 'a', replaces)], ['a:2', 'b:1']],
		['a void takes it out', [correct('x', 9, 'a', { void: true })], ['b:1']],
		[
			'the later of two holds',
			[correct('y', 11, 'a', again), correct('x', 9, 'a', replaces)],
			['a:3', 'b:1']
		],
		[
			'a later void holds over a replacement',
			[correct('x', 9, 'a', replaces), correct('y', 11, 'a', { void: true })],
			['b:1']
		],
		[
			'a replacement after a void brings it back',
			[correct('x', 9, 'a', { void: true }), correct('y', 11, 'a', again)],
			['a:3', 'b:1']
		],
		[
			'a void correction never was',
			[correct('x', 9, 'a', replaces), correct('y', 11, 'x', { void: true })],
			['a:1', 'b:1']
		],
		[
			'a corrected correction says the new thing',
			[correct('x', 9, 'a', replaces), correct('y', 11, 'x', again)],
			['a:3', 'b:1']
		],
		[
			'a void void lets the correction stand',
			[
				correct('x', 9, 'a', replaces),
				correct('y', 10, 'x', { void: true }),
				correct('z', 11, 'y', { void: true })
			],
			['a:2', 'b:1']
		],
		[
			'a moment of its own moves the entry',
			[correct('x', 11, 'a', { as: { kind: 'topoff', litres: '2 L', at: at(12) } })],
			['b:1', 'a:2']
		]
	])('%s', (_, corrections, expected) => {
		const log = [topoff('a', 8), topoff('b', 10), ...corrections];
		expect(litres(facts(log))).toEqual(expected);
		expect(litres(facts(log.toReversed()))).toEqual(expected);
	});

	it('keeps the task of a corrected reading, and drops it when another kind takes its place', () => {
		const reading = {
			id: '1',
			at: at(8),
			kind: 'reading',
			task: 'copper/test/4',
			what: 'Cu',
			value: '0.12 mg/L'
		};
		const same = correct('2', 9, '1', { as: { kind: 'reading', what: 'Cu', value: '0.17 mg/L' } });
		const other = correct('2', 9, '1', { as: { kind: 'topoff', litres: '1 L' } });
		expect(facts([reading, same])[0]).toMatchObject({ task: 'copper/test/4', value: 0.17, at: at(8) });
		expect(facts([reading, other])[0]).not.toHaveProperty('task');
	});

	it('reads the same in whatever order and however often its entries arrive', () => {
		const log = entriesOf(fullDocument.log);
		const expected = readLog(log);
		const arrivals = fc.array(fc.nat(log.length - 1), { maxLength: 20 }).chain((again) =>
			fc.shuffledSubarray([...log, ...again.flatMap((i) => log[i] ?? [])], {
				minLength: log.length + again.length
			})
		);
		fc.assert(
			fc.property(arrivals, (arrived) => {
				expect(readLog(arrived)).toEqual(expected);
			}),
			{ seed: 7 }
		);
	});

	it('of a sheet leaves out what it cannot read and keeps the rest', () => {
		const log = [topoff('a', 8), topoff('b', 9, '1 pound'), { id: 'c', at: at(10), kind: 'wish' }, 7];
		const run = readRun({ ...base, log }, { today: '2026-12-03' });
		expect(run.log.map(({ id }) => id)).toEqual(['a']);
		expect(run.problems.map(({ cell }) => cell)).toEqual(['log.b.litres', 'log.c.kind', 'log.3']);
	});
});
