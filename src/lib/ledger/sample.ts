import { plan, type Plan } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import type { RawEntry } from './fact-entry.ts';
import type { Names } from './words.ts';

/** A copper run for the tests of this room; invented throughout. It begins on 27 Nov 2026 in Chicago. */
export const document = {
	format: 'lazaret-plan/1',
	id: 'harbour',
	name: 'Harbour',
	timeZone: 'America/Chicago',
	service: '08:00',
	tank: { name: 'Q1', net: '112 L', temperature: '26 C', salinity: '34 ppt', pH: 8.1, aeration: 'fine' },
	source: { name: 'display water', salinity: '34 ppt', nitrate: '5 mg/L' },
	lots: [
		{
			id: 'a',
			what: 'banded cardinalfish',
			group: 'cardinalfish',
			count: 5,
			mass: '64 g',
			feed: '1.2 g/d',
			protein: 0.1,
			arrived: '2026-11-27'
		}
	],
	medicines: [
		{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' },
		{ id: 'pz', active: 'praziquantel', strength: '1 g/g', measure: '10 mg' }
	],
	phases: [
		{
			id: 'settle',
			kind: 'settle',
			starts: 'on 2026-11-27',
			lasts: '3 d',
			change: '25% every 4 d',
			test: 'NH3 daily'
		},
		{
			id: 'copper',
			kind: 'hold',
			medicine: 'cu',
			starts: 'after settle',
			lasts: '28 d',
			level: '0.15-0.20 mg/L',
			aim: '0.18 mg/L',
			repeat: 'ramp 3 d',
			change: '25% every 4 d',
			test: 'Cu daily, NH3 daily'
		},
		{ id: 'watch', kind: 'observe', starts: 'after copper', lasts: '20 d', change: '25% every 4 d' },
		{ id: 'release', kind: 'release', starts: 'after watch' }
	]
};

export const now = '2026-12-03T20:00:00Z';

const plans = new Map<string, Names & { plan: Plan }>();

/** The run with a log, read and planned at {@link now}. */
export function named(log: readonly RawEntry[]): Names & { plan: Plan } {
	const text = JSON.stringify(log);
	const known = plans.get(text);
	if (known) return known;
	const run = readRun({ ...document, log }, { today: null });
	if (run.problems.length > 0) throw new Error(JSON.stringify(run.problems));
	const made = { run, plan: plan(run, now) };
	plans.set(text, made);
	return made;
}
