import { plan } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import { todayOf, type SentEntry, type ShownRow } from './index.ts';

/**
 * One run in UTC: copper held in 112 L from 2 February at 0.15 to 0.20 mg/L, aim 0.18, bottle 2 mg/mL, syringe 0.1 mL;
 * `log` is written as [moment, kind, rest].
 */
export type Line = [at: string, kind: string, rest: Record<string, unknown>];
/** The lines as the log has them, with an id each. */
export const entries = (lines: readonly Line[]): SentEntry[] =>
	lines.map(([at, kind, rest], n) => ({ id: `e${n}`, at, kind, ...rest }));

export function document(over: Record<string, unknown> = {}, lines: readonly Line[] = []) {
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

/** The round of these runs at that moment; throws where one cannot be read. */
export const tanksOf = (now: string, ...documents: object[]) =>
	todayOf(
		documents.map((one) => {
			const run = readRun(one, { today: now.slice(0, 10) });
			if (run.problems.length > 0) throw new Error(JSON.stringify(run.problems));
			return { run, plan: plan(run, now) };
		}),
		now
	);

/** The only tank of the round. */
export const tankOf = (now: string, one: object) => {
	const [tank] = tanksOf(now, one).tanks;
	if (!tank) throw new Error('no tank today');
	return tank;
};
/** What a job says, and what is logged on it. */
export const told = (rows: readonly ShownRow[] | ReturnType<typeof tankOf>['rows']) =>
	rows.map(({ text, logged }) => [text, logged.map(({ says }) => says).join()]);

/** Days of copper done as planned, with what was read: 4 February ends at a forecast of 0.17. */
export const held: Line[] = [
	['2027-02-02T08:05:00Z', 'reading', { task: 'copper/test/1', what: 'Cu', value: '0 mg/L' }],
	['2027-02-02T08:10:00Z', 'done', { task: 'copper/dose/1' }],
	['2027-02-03T08:05:00Z', 'reading', { task: 'copper/test/2', what: 'Cu', value: '0.09 mg/L' }],
	['2027-02-03T08:10:00Z', 'done', { task: 'copper/dose/2' }],
	['2027-02-04T08:05:00Z', 'reading', { task: 'copper/test/3', what: 'Cu', value: '0.18 mg/L' }],
	// 0.18 x (1 - 0.055) = 0.17
	['2027-02-04T20:00:00Z', 'change', { fraction: '5.5%' }]
];
/** The morning after `held`. */
export const morning = '2027-02-05T08:30:00Z';
