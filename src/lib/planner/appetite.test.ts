import { describe, expect, it } from 'vitest';
import { readRun } from '../run/index.ts';
import { plan } from './planning.ts';

/** Fish of 64 g that are given 0.12 g of protein a day, in 112 L without a filter; TAN a day after the look. */
function tanNextDay(looks: object[]): { tan: number; band: { low: number; high: number } } {
	const run = readRun(
		{
			format: 'lazaret-plan/1',
			timeZone: 'UTC',
			tank: { net: '112 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1 },
			lots: [
				{
					id: 'a',
					what: 'gobies',
					group: 'goby',
					count: 5,
					mass: '64 g',
					feed: '1.2 g/d',
					protein: 0.1,
					arrived: '2026-11-28'
				}
			],
			phases: [{ id: 'watch', kind: 'observe', starts: 'on 2026-11-28', lasts: '10 d' }],
			log: looks
		},
		{ today: null }
	);
	expect(run.problems).toEqual([]);
	const { levels } = plan(run, '2026-11-28T09:00:00Z');
	const sample = levels.find(({ at, when }) => at === '2026-11-29T08:00:00Z' && when === 'before');
	return { tan: sample?.tanMgNPerL ?? NaN, band: sample?.band?.tanMgNPerL ?? { low: NaN, high: NaN } };
}
const look = (cells: object) => ({
	id: '1',
	at: '2026-11-28T08:00:00Z',
	kind: 'observation',
	lot: 'a',
	...cells
});

// Worked by hand: eaten 0.12 g · 92 mg N = 11.04 mg; refused 0.12 · 160 = 19.2 mg rot, and 64 g of fish that eat
// nothing still give off 100 mg N/kg = 6.4 mg; picked at: half of each, the floor of 6.4 mg being above half of 11.04.
describe('food that is refused rots', () => {
	it.each([
		['eaten', { appetite: 'eaten' }, 11.04],
		['nobody looked', { signs: ['none'] }, 11.04],
		['refused', { appetite: 'refused' }, 19.2 + 6.4],
		['does not eat', { signs: ['off-feed'] }, 19.2 + 6.4],
		['picked', { appetite: 'picked' }, 9.6 + 6.4]
	])('%s', (_, cells, mgN) => {
		expect(tanNextDay([look(cells)]).tan).toBeCloseTo(mgN / 112, 6);
	});

	it('widens the forecast, for it may have been taken out', () => {
		const { band } = tanNextDay([look({ appetite: 'refused' })]);
		expect(band.low).toBeCloseTo((64 * 0.05) / 112, 6);
		expect(band.high).toBeCloseTo((19.2 + 12.8) / 112, 6);
	});

	it('without a lot it speaks of all fish', () => {
		const other = { ...look({ appetite: 'refused' }), lot: undefined };
		expect(tanNextDay([other]).tan).toBeCloseTo((19.2 + 6.4) / 112, 6);
	});
});
