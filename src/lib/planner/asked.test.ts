import { describe, expect, it } from 'vitest';
import { exampleDocument, runOf } from './example.ts';
import { plan, type Plan } from './index.ts';

type Entry = Record<string, unknown>;

const day = (n: number) => new Date(Date.UTC(2026, 10, 27 + n)).toISOString().slice(0, 10);
/** An instant on the n-th day of the run, Chicago winter time. */
const at = (n: number, time: string) => `${day(n)}T${time}:00-06:00`;
/** Fish that foul the water a third more than their food tells; nobody filters. */
const watched = {
	...exampleDocument,
	lots: [{ ...exampleDocument.lots[0], mass: '24 g', feed: '0.6 g/d' }],
	tank: { name: 'Q2', net: '112 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1, aeration: 'coarse' },
	medicines: [],
	away: [],
	phases: [
		{
			id: 'watch',
			kind: 'observe',
			starts: 'on 2026-11-27',
			lasts: '30 d',
			change: 'auto',
			test: 'NH3 daily'
		}
	]
};

const planned = (log: Entry[], now: string): Plan => plan(runOf({ ...watched, log }), now);
const changesOn = ({ tasks }: Plan, date: string) =>
	tasks
		.filter((task) => task.kind === 'change' && task.date === date)
		.map(({ id, amount }) => ({ id, litres: amount?.value }));

/** Days of a keeper who comes at five past eight, reads what the kit shows and pours what is asked. */
function keep(days: number): { log: Entry[]; asked: [string, number][]; limits: number[] } {
	const log: Entry[] = [];
	const asked: [string, number][] = [];
	const limits: number[] = [];
	let tanMg = 0;
	for (let n = 0; n < days; n++) {
		const before = changesOn(planned(log, at(n, '07:59')), day(n));
		const come = planned(log, at(n, '08:05'));
		expect(changesOn(come, day(n)), `day ${n}`).toEqual(before);
		const value = `${(tanMg / 112).toFixed(3)} mg/L`;
		log.push({
			id: `r${n}`,
			at: at(n, '08:05'),
			kind: 'reading',
			task: `watch/test/${n + 1}`,
			what: 'NH3',
			value
		});
		limits.push(come.levels.findLast(({ date }) => date === day(n))?.nh3MgNPerL ?? 0);
		for (const { id, litres = 0 } of before) {
			expect(changesOn(planned(log, at(n, '08:06')), day(n)), `read on day ${n}`).toEqual(before);
			asked.push([id, litres]);
			log.push({ id: `c${n}`, at: at(n, '08:06'), kind: 'done', task: id, amount: `${litres} L` });
			tanMg *= 1 - litres / 112;
			const done = planned(log, at(n, '08:07')).tasks.find((task) => task.id === id);
			expect(done?.state).toBe('done');
		}
		tanMg += 0.6 * 0.09 * 92 * 1.33;
	}
	return { log, asked, limits };
}

describe('automatic changes of days that have begun', () => {
	it('stand as their hour strikes, through a reading, and on the record once they are done', () => {
		const { log, asked, limits } = keep(12);
		expect(asked.length).toBeGreaterThan(2);
		expect(Math.max(...limits)).toBeLessThan(0.03);
		const record = planned(log, at(12, '07:00')).tasks.filter(
			({ kind, date }) => kind === 'change' && date < day(12)
		);
		expect(record.map(({ id, amount, state }) => [id, amount?.value, state])).toEqual(
			asked.map(([id, litres]) => [id, litres, 'done'])
		);
	});

	it('are none weeks later that only the plan of the outset had', () => {
		const read = Array.from({ length: 21 }, (_, n) => ({
			id: `r${n}`,
			at: at(n, '07:30'),
			kind: 'reading',
			what: 'NH3',
			value: '0.01 mg/L'
		}));
		// hardly any ammonia: a change a week, where every fourth day was planned
		const poured = [8, 15].map((n) => ({
			id: `c${n}`,
			at: at(n - 1, '08:06'),
			kind: 'done',
			task: `watch/change/${n}`,
			amount: '22.4 L'
		}));
		expect(changesOn(planned([], at(0, '07:00')), day(11))).toHaveLength(1);
		const record = planned([...read, ...poured], at(20, '07:45')).tasks.filter(
			({ kind, date }) => kind === 'change' && date < day(20)
		);
		expect(record.map(({ id, state }) => [id, state])).toEqual([
			['watch/change/8', 'done'],
			['watch/change/15', 'done']
		]);
	});
});
