import { expect, it } from 'vitest';
import { plan } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import { rosterOf } from './roster.ts';

const now = '2027-01-05T12:00:00Z';
const run = (starts: string, lasts: string) =>
	readRun(
		{
			name: 'x',
			timeZone: 'UTC',
			tank: { name: 'Q1', net: '100 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1 },
			phases: [
				{ id: 'watch', kind: 'observe', starts: `on ${starts}`, lasts, change: '25% every 3 d' },
				{ id: 'release', kind: 'release', starts: 'after watch' }
			]
		},
		{ today: null }
	);
const rows = [run('2027-01-01', '9 d'), run('2027-01-04', '3 d')].map((one, i) => ({
	id: `r${i}`,
	run: one,
	plan: plan(one, now)
}));

it('lays phases against the days all runs share: the last day belongs to its band', () => {
	const roster = rosterOf(rows, '2027-01-05');
	// 1 to 10 January: ten days
	expect([roster.from, roster.to, roster.today]).toEqual(['2027-01-01', '2027-01-10', 0.4]);
	expect(roster.rows[0]?.bands.map(({ start, width }) => [start, Number(width.toFixed(9))])).toEqual([
		[0, 0.9],
		[0.9, 0.1]
	]);
	expect(roster.rows[1]?.bands[0]).toMatchObject({ from: '2027-01-04', to: '2027-01-06', start: 0.3 });
	expect(roster.rows.map((row) => row.now)).toEqual([['watch'], ['watch']]);
	expect(roster.rows.map((row) => row.release)).toEqual(['2027-01-10', '2027-01-07']);
});

it('is empty without runs', () => {
	expect(rosterOf([], '2027-01-05')).toEqual({ rows: [], from: null, to: null, today: null });
});
