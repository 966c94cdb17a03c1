import { expect, test } from 'vitest';
import { presentLots, readRun } from './index.ts';

const at = (hour: number) => `2027-02-0${hour}T08:00:00Z`;
const run = (log: object[]) =>
	readRun(
		{
			format: 'lazaret-plan/1',
			name: 'Four and one',
			timeZone: 'UTC',
			lots: [{ id: 'a', what: 'cardinalfish', group: 'cardinalfish', count: 4, mass: '28 g' }],
			log: log.map((entry, n) => ({ id: `e${n}`, ...entry }))
		},
		{ today: null }
	);
const seen = (log: object[]) => presentLots(run(log)).map(({ id, count, massG }) => [id, count, massG]);

test('fish that joined, left or died are counted, and weigh what the others of their lot do', () => {
	const joins = {
		at: at(2),
		kind: 'fish',
		lot: { id: 'b', what: 'wrasse', group: 'wrasse', count: 1, mass: '4 g' }
	};
	const loss = { at: at(3), kind: 'loss', lot: 'a', count: 1 };
	const leaves = { at: at(4), kind: 'fish', lot: 'a', count: -1 };
	expect(seen([])).toEqual([['a', 4, 28]]);
	expect(seen([joins, loss, leaves])).toEqual([
		['a', 2, 14],
		['b', 1, 4]
	]);
	expect(seen([joins, { at: at(5), kind: 'loss', lot: 'b', count: 1 }])).toEqual([['a', 4, 28]]);
});
