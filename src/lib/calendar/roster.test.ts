import { expect, it } from 'vitest';
import { plan, type Finding, type Task } from '../planner/index.ts';
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
	plan: plan(one, now),
	today: '2027-01-05'
}));

it('lays phases against the days all runs share: the last day belongs to its band', () => {
	const roster = rosterOf(rows);
	// 1 to 10 January: ten days
	expect([roster.from, roster.to]).toEqual(['2027-01-01', '2027-01-10']);
	expect(roster.rows.map(({ today }) => today)).toEqual([0.4, 0.4]);
	expect(roster.rows[0]?.bands.map(({ start, width }) => [start, Number(width.toFixed(9))])).toEqual([
		[0, 0.9],
		[0.9, 0.1]
	]);
	expect(roster.rows[1]?.bands[0]).toMatchObject({ from: '2027-01-04', to: '2027-01-06', start: 0.3 });
	expect(roster.rows.map((row) => row.now)).toEqual([['watch'], ['watch']]);
	expect(roster.rows.map((row) => row.release)).toEqual(['2027-01-10', '2027-01-07']);
});

it('marks today by the day that each run has in its own zone', () => {
	const [one, other] = rows;
	if (!one || !other) throw new Error('two runs');
	const apart = rosterOf([one, { ...other, today: '2027-01-06' }]);
	expect(apart.rows.map(({ today }) => today)).toEqual([0.4, 0.5]);
	expect(rosterOf([{ ...one, today: '2027-03-01' }]).rows[0]?.today).toBeNull();
});

it('names the phases of a day to the last one, and none after it', () => {
	const [, short] = rows;
	if (!short) throw new Error('two runs');
	const nowOn = (today: string) => rosterOf([{ ...short, today }]).rows[0]?.now;
	expect(['2027-01-06', '2027-01-07', '2027-01-08'].map(nowOn)).toEqual([['watch'], ['release'], []]);
});

it('counts what stops, what warns and what is open of a run by themselves', () => {
	const [one] = rows;
	if (!one) throw new Error('two runs');
	const [task] = one.plan.tasks;
	const findings = ['stop', 'caution', 'caution', 'note'].map((severity) => ({ severity }) as Finding);
	const tasks = ['open', 'open', 'open', 'done', 'planned'].map((state) => ({ ...task, state }) as Task);
	const [row] = rosterOf([{ ...one, plan: { ...one.plan, findings, tasks } }]).rows;
	expect(row).toMatchObject({ stops: 1, cautions: 2, openJobs: 3 });
});

it('counts jobs and new water of every day over all runs', () => {
	const { load } = rosterOf(rows);
	const tasks = rows.flatMap((row) => row.plan.tasks);
	expect(load.map(({ day }) => day)).toEqual(
		Array.from({ length: 10 }, (_, at) => `2027-01-${String(at + 1).padStart(2, '0')}`)
	);
	expect(load.reduce((sum, { jobs }) => sum + jobs, 0)).toBe(tasks.length);
	// 25 % of 100 L every third day after the first of each run: the 4th, 7th, and the last of the nine days has none
	expect(load.filter(({ waterL }) => waterL > 0).map(({ day, waterL }) => [day, waterL])).toEqual([
		['2027-01-04', 25],
		['2027-01-07', 25]
	]);
});

it('stacks phases that overlap, and names the weeks', () => {
	const overlapping = readRun(
		{
			name: 'x',
			timeZone: 'UTC',
			tank: { name: 'Q1', net: '100 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1 },
			medicines: [{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }],
			phases: [
				{ id: 'watch', kind: 'observe', starts: 'on 2027-01-01', lasts: '9 d' },
				{
					id: 'flukes',
					kind: 'pulse',
					medicine: 'pz',
					starts: 'with watch + 2 d',
					lasts: '1 doses',
					level: '2.5 mg/L'
				}
			]
		},
		{ today: null }
	);
	const roster = rosterOf([{ id: 'r', run: overlapping, plan: plan(overlapping, now), today: '2027-01-05' }]);
	expect(roster.rows[0]?.bands.map(({ lane }) => lane)).toEqual([0, 1]);
	expect(roster.rows[0]?.lanes).toBe(2);
	// 4 January 2027 is a Monday, the fourth of nine days
	expect(roster.weeks).toEqual([{ day: '2027-01-04', start: 3 / 9, named: true }]);
	expect(roster.rows[0]?.bands.map(({ label }) => label)).toEqual(['1 Observe', '2 Praziquantel']);
});

it('leaves out the years between runs far apart', () => {
	const far = ['2027-01-01', '2031-03-03'].map((starts, i) => {
		const one = run(starts, '9 d');
		return { id: `r${i}`, run: one, plan: plan(one, now), today: '2027-01-05' };
	});
	const roster = rosterOf(far);
	// ten days each, and nothing of the four years between
	expect(roster.load).toHaveLength(20);
	expect(roster.folds).toMatchObject([{ from: '2027-01-11', to: '2031-03-02' }]);
	const [fold] = roster.folds;
	const bands = roster.rows.map((row) => row.bands.map(({ start, width }) => [start, start + width]));
	// each run keeps its order and nearly half of the axis, the fold lies between
	expect(bands[0]?.at(-1)?.[1]).toBeCloseTo(fold?.start ?? 0);
	expect(bands[1]?.[0]?.[0]).toBeCloseTo((fold?.start ?? 0) + (fold?.width ?? 0));
	expect(bands[1]?.at(-1)?.[1]).toBeCloseTo(1);
	expect(roster.weeks.map(({ day }) => day)).toEqual(['2027-01-04', '2031-03-03', '2031-03-10']);
});

it('names no more weeks than there is room for', () => {
	const long = run('2027-01-01', '300 d');
	const { weeks } = rosterOf([{ id: 'r', run: long, plan: plan(long, now), today: '2027-01-05' }]);
	const named = weeks.filter((week) => week.named);
	expect(weeks.length).toBe(43);
	expect(named.length).toBeGreaterThan(4);
	// one that begins at the very end has no room for its date, though the one before it is far enough
	expect(named.at(-1)?.start).toBeLessThan(0.9);
	expect(named.every(({ start }, at) => at === 0 || start - (named[at - 1]?.start ?? 0) > 0.1)).toBe(true);
});

it('is empty without runs', () => {
	expect(rosterOf([])).toEqual({ rows: [], from: null, to: null, load: [], weeks: [], folds: [] });
});
