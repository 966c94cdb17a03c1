/** Work and readings logged before the written hour of the service they belong to. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exampleDocument, exampleNow, exampleWith, runOf } from './example.ts';
import { plan, type Plan } from './index.ts';

type Entry = Record<string, unknown>;

const day = (n: number) => new Date(Date.UTC(2026, 10, 27 + n)).toISOString().slice(0, 10);
/** An instant on the n-th day of the run, Chicago winter time; its service is at 08:00. */
const at = (n: number, time: string) => `${day(n)}T${time}:00-06:00`;
const steady = exampleWith(
	{ away: [], medicines: exampleDocument.medicines },
	{ copper: { aim: '0.17 mg/L', change: 'none' } }
);
const before: Entry[] = plan(runOf(steady), exampleNow)
	.tasks.filter(({ date }) => date < day(10))
	.map(({ id, at: when }, i) => ({ id: `p${i}`, at: when, kind: 'done', task: id }));

const seen = (log: Entry[], now: string): Plan => plan(runOf({ ...steady, log: [...before, ...log] }), now);
const dose = ({ tasks }: Plan) => tasks.find(({ id }) => id === 'copper/dose/8');
const ahead = ({ tasks }: Plan) =>
	tasks.filter(({ date }) => date > day(10)).map(({ id, date, amount }) => [id, date, amount?.value ?? null]);
const read = (id: string, time: string, value: number, n = 10): Entry => ({
	id,
	at: at(n, time),
	kind: 'reading',
	what: 'Cu',
	value: `${value} mg/L`,
	...(n === 10 ? { task: 'copper/test/8' } : {})
});
const yesterday = read('y', '08:10', 0.17, 9);

describe('before the hour of a service', () => {
	it('the test that a low reading answers does not confirm it; a second reading does', () => {
		const once = seen([yesterday, read('a', '07:50', 0.12)], at(10, '07:52'));
		// worked example of common practice, no source: (0.20 - 0.17) x 112 L = 3.36 mg = 1.6 mL of 2 mg/mL
		expect(dose(once)?.amount).toEqual({ value: 1.6, unit: 'mL' });
		expect(dose(once)?.because).toContain('not confirmed');
		const twice = seen([yesterday, read('a', '07:50', 0.12), read('b', '07:55', 0.12)], at(10, '07:56'));
		// (0.17 - 0.12) x 112 / 2 = 2.8 mL
		expect(dose(twice)?.amount).toEqual({ value: 2.8, unit: 'mL' });
		expect(dose(twice)?.because).not.toContain('not confirmed');
	});

	it('work that is done early is done once, and changes nothing to come', () => {
		const minute = fc.integer({ min: 1, max: 50 });
		fc.assert(
			fc.property(fc.constantFrom(0.1, 0.12, 0.14, 0.16, 0.18), minute, minute, (value, a, b) => {
				const [first, second] = [`07:${String(Math.min(a, b)).padStart(2, '0')}`, `07:${50 + (b % 9)}`];
				const log = [yesterday, read('a', first, value)];
				const now = at(10, '07:59');
				const left = seen(log, now);
				const given = dose(left);
				const answers = left.tasks
					.filter(({ date, kind }) => date === day(10) && kind !== 'test')
					.map(({ id }, i): Entry => ({ id: `d${i}`, at: at(10, second), kind: 'done', task: id }));
				const done = seen([...log, ...answers], now);
				expect(ahead(done)).toEqual(ahead(left));
				expect(done.release).toBe(left.release);
				if (given) expect(dose(done)).toMatchObject({ state: 'done', amount: given.amount });
				for (const level of done.levels.filter(({ date }) => date >= day(10)))
					expect(level.medicinesMgPerL.cu).toBeLessThanOrEqual(0.2 + 1e-9);
			}),
			{ seed: 20261126, numRuns: 12 }
		);
	});

	it('a reading after work that was done early still sets the dose', () => {
		const topped = { id: 't', at: at(10, '07:40'), kind: 'done', task: 'copper/topoff/8' };
		const drying = exampleWith(
			{ away: [], tank: { ...exampleDocument.tank, evaporates: '1 L/d' } },
			{ copper: { aim: '0.17 mg/L', change: 'none' } }
		);
		const low = [read('a', '07:50', 0.12), read('b', '07:52', 0.12)];
		const left = plan(runOf({ ...drying, log: [...before, yesterday, topped, ...low] }), at(10, '07:55'));
		// read after the top-off: (0.17 - 0.12) x 112 / 2 = 2.8 mL
		expect(dose(left)?.amount).toEqual({ value: 2.8, unit: 'mL' });
	});

	it('a make-up within a day of the last good reading keeps the days that were credited', () => {
		const log = [yesterday, read('a', '07:40', 0.12), read('b', '07:45', 0.12)];
		const kept = seen(log, at(10, '07:50'));
		const began = seen(
			[...log, { id: 'm', at: at(10, '07:50'), kind: 'missed', task: 'copper/dose/8' }],
			at(11, '07:50')
		);
		const ends = ({ phases }: Plan) => phases.find(({ id }) => id === 'copper')?.to ?? '';
		const asPlanned = ends(seen([], at(10, '07:30')));
		const late = (to: string) => (Date.parse(to) - Date.parse(asPlanned)) / 86_400_000;
		expect(late(ends(kept))).toBe(1);
		expect(late(ends(began))).toBeGreaterThan(5);
	});
});
