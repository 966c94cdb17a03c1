import { readRun, type Run } from '../run/index.ts';

/** The contract's own worked example as a plan document: 112 L, five cardinalfish, copper with two rounds against flukes. */
export const exampleDocument = {
	format: 'lazaret-plan/1',
	name: 'Five cardinalfish in Q2',
	timeZone: 'America/Chicago',
	service: '08:00',
	tank: {
		name: 'Q2',
		net: '112 L',
		temperature: '26 C',
		salinity: '34 ppt',
		pH: 8.1,
		filterClears: '40 L/d',
		aeration: 'coarse',
		substrate: 'none'
	},
	source: { name: 'display water', ammonia: '0 mg/L', nitrate: '5 mg/L', salinity: '34 ppt' },
	limits: { nh3: '0.02 mg/L', nitrate: '20 mg/L' },
	lots: [
		{
			id: 'a',
			what: 'banded cardinalfish',
			group: 'cardinalfish',
			count: 5,
			mass: '64 g',
			feed: '1.6 g/d',
			protein: 0.09,
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
			kind: 'observe',
			starts: 'on 2026-11-27',
			lasts: '3 d',
			change: 'auto',
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
			repeat: 'ramp 2 d',
			change: 'auto',
			test: 'Cu daily, NH3 daily'
		},
		{
			id: 'flukes',
			kind: 'pulse',
			medicine: 'pz',
			starts: 'with copper + 2 d',
			lasts: '2 doses',
			level: '2.5 mg/L',
			repeat: 'every 7 d'
		},
		{
			id: 'wash',
			kind: 'washout',
			medicine: 'cu',
			starts: 'after copper',
			lasts: 'until clear',
			level: '0.02 mg/L',
			change: '50% daily',
			carbon: true,
			test: 'Cu daily'
		},
		{
			id: 'watch',
			kind: 'observe',
			starts: 'after wash',
			lasts: '14 d',
			change: '25% every 3 d',
			test: 'NH3 every 2 d'
		},
		{ id: 'release', kind: 'release', starts: 'after watch' }
	],
	away: ['2026-12-11'],
	log: [] as Record<string, unknown>[]
};

export type ExampleDocument = typeof exampleDocument;

/** The example before it begins. */
export const exampleNow = '2026-11-25T12:00:00Z';

/** A run from a document, with every cell read; throws where one is not, since tests write them. */
export function runOf(document: object): Run {
	const run = readRun(document, { today: null });
	const [problem] = run.problems;
	if (problem) throw new Error(`${problem.cell}: saw ${problem.seen}, expected ${problem.expected}`);
	return run;
}

/** The example with some rows and keys replaced. */
export function exampleWith(
	change: Record<string, unknown>,
	phases: Record<string, Record<string, unknown>> = {}
): object {
	return {
		...exampleDocument,
		...change,
		phases: exampleDocument.phases.map((row) => ({ ...row, ...phases[row.id] }))
	};
}
