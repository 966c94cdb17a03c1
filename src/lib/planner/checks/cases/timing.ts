import { bottle, hold, log, look, low, raised, settle, waiting, watch, type Case } from './case.ts';

const joins = (at: string) => ({
	at,
	kind: 'fish',
	lot: { id: 'b', what: 'blenny', group: 'blenny', count: 1 }
});

/** When things happen: ends, away days, moved jobs, tests after doses, fish that come. The notation stands in `case.ts`. */
export const timingCases: readonly Case[] = [
	{
		rule: 'never-ends',
		trips: { rows: { wash: { change: 'none' } } },
		near: { rows: { wash: { change: '25% daily' } } },
		severity: 'stop',
		date: '2026-12-29',
		at: 'phases.wash.change',
		says: 'row 4 (washout) begins on 2026-12-29 and never ends: nothing in the plan brings about what it waits for.',
		mend: 'Change 50 % daily'
	},
	{
		rule: 'never-ends',
		trips: { rows: { copper: { test: 'NH3 daily' } } },
		near: { rows: { copper: { test: 'Cu every 3 d' } } },
		severity: 'stop',
		date: '2026-11-30',
		at: 'phases.copper.test',
		says: 'row 2 (hold) begins on 2026-11-30 and never ends: nothing in the plan brings about what it waits for.',
		mend: 'Test Cu daily'
	},
	{
		rule: 'never-ends',
		trips: low({ level: '20 ppt' }),
		near: low({ level: '16 ppt' }),
		severity: 'stop',
		date: '2026-11-30',
		at: 'phases.low.level',
		says: 'row 2 (low salinity) begins on 2026-11-30 and never ends: nothing in the plan brings about what it waits for.',
		mend: 'Hold 14 ppt'
	},
	{
		rule: 'never-ends',
		trips: {},
		near: log(...raised),
		now: '2026-12-03T13:00:00Z',
		severity: 'note',
		date: '2026-11-30',
		says: 'row 2 (hold) has no end for now: its doses have no amount.'
	},
	{
		rule: 'plan-cut',
		trips: { rows: { watch: { lasts: '390 d' } } },
		near: { rows: { watch: { lasts: '300 d' } } },
		severity: 'caution',
		date: null,
		says: 'The plan is cut after 400 days.'
	},
	{
		rule: 'time-moved',
		trips: {
			...waiting({ starts: 'on 2027-03-10', lasts: '6 d' }),
			service: '02:30',
			lot: { arrived: '2027-03-10' }
		},
		near: {
			...waiting({ starts: 'on 2027-03-10', lasts: '6 d' }),
			service: '03:30',
			lot: { arrived: '2027-03-10' }
		},
		severity: 'note',
		date: '2027-03-14',
		at: 'settle/test/5',
		says: 'The clocks go forward on 2027-03-14: the service is at 03:30.'
	},
	{
		rule: 'away-on-task',
		trips: {},
		near: { away: [] },
		severity: 'caution',
		date: '2026-12-11',
		at: 'copper/test/12',
		says: 'Nobody is there on 2026-12-11, when a job falls due: test Cu, NH3.'
	},
	{
		rule: 'away-on-task',
		trips: { away: ['2026-12-09'], rows: { copper: { test: 'Cu every 3 d' } } },
		near: { away: ['2026-12-10'], rows: { copper: { test: 'Cu every 3 d' } } },
		severity: 'caution',
		date: '2026-12-09',
		at: 'flukes/dose/2',
		says: 'Nobody is there on 2026-12-09, when a job falls due: praziquantel 280 mg.',
		mend: 'Do it the day after, on 2026-12-10'
	},
	{
		rule: 'away-on-task',
		trips: { away: ['2027-01-17'] },
		near: { away: ['2027-01-18'] },
		severity: 'caution',
		date: '2027-01-17',
		at: 'release/release/1',
		says: 'Nobody is there on 2027-01-17, when 2 jobs fall due: release the fish, strip, disinfect and dry the tank and its tools.',
		mend: 'Begin row 6 (release) a day later'
	},
	{
		rule: 'test-after-dose',
		trips: { moves: { 'copper/test/5': '2026-12-04T18:30' } },
		// the make-up dose of a change goes with it, behind the test of the morning
		near: { moves: { 'copper/change/5': '2026-12-04T18:30' } },
		severity: 'caution',
		date: '2026-12-04',
		at: 'copper/dose/5',
		says: 'On 2026-12-04 ionic copper is dosed at 08:00 and tested at 18:30: the test comes first.',
		mend: 'Put them back at the hour of the service'
	},
	{
		rule: 'away-on-task',
		trips: {
			away: ['2026-12-10'],
			moves: { 'flukes/dose/2': '2026-12-10' },
			rows: { copper: { test: 'Cu every 3 d' } }
		},
		near: {
			away: ['2026-12-08'],
			moves: { 'flukes/dose/2': '2026-12-10' },
			rows: { copper: { test: 'Cu every 3 d' } }
		},
		severity: 'caution',
		date: '2026-12-10',
		at: 'flukes/dose/2',
		says: 'Nobody is there on 2026-12-10, when a job falls due: praziquantel 280 mg. Praziquantel 280 mg was moved there by hand.',
		mend: 'Leave it where its row has it'
	},
	{
		rule: 'away-on-task',
		trips: { hands: { '2026-12-11': 'a neighbour tests' } },
		near: { away: [] },
		severity: 'note',
		date: '2026-12-11',
		at: 'copper/test/12',
		says: 'Nobody is there on 2026-12-11, when a job falls due: test Cu, NH3. To help: a neighbour tests.'
	},
	{
		rule: 'after-release',
		trips: {
			phases: [
				settle,
				...watch('settle'),
				{ id: 'look', kind: 'observe', starts: 'after release', lasts: '5 d' }
			]
		},
		near: {
			phases: [
				settle,
				{ id: 'look', kind: 'observe', starts: 'with settle + 1 d', lasts: '5 d' },
				...watch('settle')
			]
		},
		severity: 'caution',
		date: '2026-12-27',
		at: 'phases.look.starts',
		says: 'row 4 (observe) begins on 2026-12-27, but the fish are released on 2026-12-26.',
		mend: 'Begin row 3 (release) after row 4 (observe)'
	},
	{
		rule: 'fish-added',
		trips: { lot: { arrived: '2026-12-05' } },
		near: { lot: { arrived: '2026-11-28' } },
		severity: 'caution',
		date: '2026-12-05',
		at: 'lots.a.arrived',
		says: 'Banded cardinalfish join on 2026-12-05, after row 2 (hold) began on 2026-11-30.',
		mend: 'Begin row 2 (hold) when all are there'
	},
	{
		rule: 'fish-added',
		trips: log(...raised, {
			at: '2026-12-02T17:00:00-06:00',
			kind: 'fish',
			lot: { id: 'b', what: 'gobies', group: 'goby', count: 1, feed: '0.3 g/d', protein: 0.09 }
		}),
		near: log({
			at: '2026-11-28T17:00:00-06:00',
			kind: 'fish',
			lot: { id: 'b', what: 'gobies', group: 'goby', count: 1, feed: '0.3 g/d', protein: 0.09 }
		}),
		now: '2026-12-03T13:00:00Z',
		severity: 'note',
		date: '2026-12-02',
		at: 'log.3',
		says: 'Gobies join on 2026-12-02, after row 2 (hold) began on 2026-11-30.'
	},
	{
		rule: 'fish-into-copper',
		trips: { lot: { arrived: '2026-12-05' } },
		near: { lot: { arrived: '2026-11-29' } },
		severity: 'stop',
		date: '2026-12-05',
		at: 'lots.a.arrived',
		says: 'Banded cardinalfish would go into 0.179 mg/L of copper on 2026-12-05; 0.1 mg/L is the most to meet at once.'
	},
	{
		rule: 'fish-into-copper',
		trips: log(...raised, joins('2026-12-01T09:00:00-06:00')),
		// 60 % was changed before they came: 0.179 x 0.4 is 0.071
		near: log(
			...raised,
			{ at: '2026-12-01T08:30:00-06:00', kind: 'change', fraction: '60%' },
			joins('2026-12-01T09:00:00-06:00')
		),
		now: '2026-12-01T16:00:00Z',
		severity: 'stop',
		date: '2026-12-01',
		at: 'log.3',
		says: 'Blenny would go into 0.179 mg/L of copper on 2026-12-01; 0.1 mg/L is the most to meet at once.'
	},
	{
		rule: 'copper-before-eating',
		trips: { lot: { arrived: '2026-11-30' } },
		near: { lot: { arrived: '2026-11-30', signs: ['white-spots'] } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'phases.copper.starts',
		says: 'Copper begins on 2026-11-30, the day banded cardinalfish arrive.',
		mend: 'Begin row 2 (hold) 3 days later'
	},
	{
		rule: 'copper-before-eating',
		trips: { medicines: [bottle.cu], phases: [{ ...hold, starts: 'on 2026-11-27' }, ...watch('copper')] },
		near: {},
		severity: 'caution',
		date: '2026-11-27',
		at: 'phases.copper.starts',
		says: 'Copper begins on 2026-11-27, the day banded cardinalfish arrive.',
		mend: 'Begin row 1 (hold) 3 days later'
	},
	{
		rule: 'copper-before-eating',
		trips: log(look('2026-11-29T12:00:00-06:00', { appetite: 'refused' })),
		near: log(look('2026-11-29T12:00:00-06:00', { appetite: 'eaten' })),
		now: '2026-11-29T20:00:00Z',
		severity: 'caution',
		date: '2026-11-30',
		at: 'phases.copper.starts',
		says: 'Copper begins on 2026-11-30, and food was refused at the last look on 2026-11-29.'
	}
];
