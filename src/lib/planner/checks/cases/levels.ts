import { bath, bottle, hold, low, moves, settle, watch, type Case } from './case.ts';

/** Levels: above, below, washed out, tested, and courses that are too short. The notation stands in `case.ts`. */
export const levelCases: readonly Case[] = [
	{
		rule: 'washout-short',
		trips: { rows: { wash: { lasts: '2 d' } } },
		near: { rows: { wash: { lasts: '6 d' } } },
		severity: 'caution',
		date: '2026-12-30',
		at: 'phases.wash.lasts',
		says: 'row 4 (washout) ends on 2026-12-30 with 0.045 mg/L of ionic copper; gone is 0.02 mg/L.',
		mend: 'Wash until it is clear'
	},
	{
		rule: 'above-ceiling',
		trips: { rows: { copper: { level: '0.15-0.25 mg/L', aim: '0.22 mg/L' } } },
		near: { rows: { copper: { level: '0.15-0.20 mg/L' } } },
		severity: 'stop',
		date: '2026-11-30',
		at: 'phases.copper.level',
		says: 'row 2 (hold) asks for up to 0.25 mg/L; the ceiling of ionic copper is 0.2 mg/L.',
		mend: 'Write 0.15-0.2 mg/L'
	},
	{
		rule: 'above-ceiling',
		trips: {
			tank: { evaporates: '2 L/d' },
			rows: { copper: { aim: '0.195 mg/L' } },
			away: ['2026-12-05', '2026-12-06', '2026-12-07']
		},
		near: {
			tank: { evaporates: '2 L/d' },
			rows: { copper: { aim: '0.18 mg/L' } },
			away: ['2026-12-05', '2026-12-06', '2026-12-07']
		},
		severity: 'caution',
		date: '2026-12-06',
		at: 'phases.copper.aim',
		says: 'Ionic copper reaches 0.202 mg/L on 2026-12-06, over its ceiling of 0.2 mg/L.',
		mend: 'Aim at 0.185 mg/L'
	},
	{
		rule: 'raise-too-large',
		trips: { rows: { copper: { repeat: 'ramp 1 d' } } },
		near: { rows: { copper: { repeat: 'ramp 2 d' } } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'phases.copper.repeat',
		says: 'Ionic copper 10.0 mL raises ionic copper by 0.179 mg/L in one service; 0.1 mg/L is the most.',
		mend: 'Rise over 2 days'
	},
	{
		rule: 'bath-too-strong',
		trips: bath({ level: '200 uL/L' }),
		near: { tank: { temperature: '20 C' }, ...bath({ level: '200 uL/L' }) },
		severity: 'stop',
		date: '2026-11-28',
		at: 'phases.bath.level',
		says: 'The dip asks for 200 uL/L of formalin; 150 uL/L is the most above 21 °C.',
		mend: 'Dip in 150 uL/L'
	},
	{
		rule: 'bath-too-long',
		trips: bath({ lasts: '90 min' }),
		near: bath({ lasts: '60 min' }),
		severity: 'stop',
		date: '2026-11-28',
		at: 'phases.bath.lasts',
		says: 'The dip is to last 90 min; 60 min in formalin is the longest.',
		mend: 'Dip for 60 min'
	},
	{
		rule: 'below-floor',
		trips: { medicines: [{ ...bottle.cu, halfLife: '1 d' }, bottle.pz] },
		near: { medicines: [{ ...bottle.cu, halfLife: '20 d' }, bottle.pz] },
		severity: 'caution',
		date: '2026-12-03',
		at: 'phases.copper.level',
		says: 'Ionic copper falls to 0.086 mg/L on 2026-12-03, under the floor of 0.15 mg/L.'
	},
	{
		rule: 'below-floor',
		trips: { away: [], medicines: [{ ...bottle.cu, halfLife: '3 d' }, bottle.pz] },
		near: {
			away: [],
			service: ['08:00', '20:00'],
			medicines: [{ ...bottle.cu, halfLife: '3 d' }, bottle.pz]
		},
		severity: 'caution',
		date: '2026-12-02',
		at: 'phases.copper.level',
		says: 'Ionic copper falls to 0.136 mg/L on 2026-12-02, under the floor of 0.15 mg/L.',
		mend: 'Look after the tank twice a day'
	},
	{
		rule: 'window-too-low',
		trips: { rows: { copper: { level: '0.10-0.20 mg/L' } } },
		near: {
			medicines: [{ ...bottle.cu, level: '0.10-0.20 mg/L' }, bottle.pz],
			rows: { copper: { level: '0.10-0.20 mg/L' } }
		},
		severity: 'caution',
		date: '2026-11-30',
		at: 'phases.copper.level',
		says: 'row 2 (hold) counts days from 0.1 mg/L on; ionic copper is known to work from 0.15 mg/L.',
		mend: 'Hold 0.15-0.2 mg/L'
	},
	{
		rule: 'hold-untested',
		trips: { rows: { copper: { test: 'Cu every 3 d, NH3 daily' } } },
		near: { away: [], rows: { copper: { test: 'Cu every 2 d, NH3 daily' } } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'phases.copper.test',
		says: 'After the test of 2026-11-30 nobody tests Cu for 3 days.',
		mend: 'Test Cu daily'
	},
	{
		rule: 'cysts-outlive',
		trips: { rows: { copper: { lasts: '14 d' } } },
		near: {
			medicines: [bottle.cu],
			phases: [
				settle,
				{ ...hold, lasts: '14 d' },
				{ id: 'move', kind: 'transfer', starts: 'after copper', lasts: '1 move' },
				...watch('move')
			]
		},
		severity: 'caution',
		date: '2026-12-14',
		at: 'phases.copper.lasts',
		says: '14 credited days of copper are too few for fish that stay in the same water: cysts open up to day 28.',
		mend: 'Move the fish to a clean second tank right after row 2 (hold)'
	},
	{
		rule: 'cysts-outlive',
		trips: {
			medicines: [bottle.cu],
			phases: [
				settle,
				{ ...hold, lasts: '13 d' },
				{ id: 'move', kind: 'transfer', starts: 'after copper', lasts: '1 move' },
				...watch('move')
			]
		},
		near: {},
		severity: 'caution',
		date: '2026-12-14',
		at: 'phases.copper.lasts',
		says: '13 credited days of copper before the move are too few; 14 are asked.',
		mend: 'Hold it for 14 credited days'
	},
	{
		rule: 'course-short',
		trips: { rows: { flukes: { lasts: '1 dose' } } },
		near: {},
		severity: 'caution',
		date: '2026-12-02',
		at: 'phases.flukes.lasts',
		says: 'row 3 (pulse) gives 1 of the 2 doses that a course of praziquantel has on record.',
		mend: 'Make it the whole course, 2 doses'
	},
	{
		rule: 'course-short',
		trips: low({ lasts: '20 d' }),
		near: low(),
		severity: 'caution',
		date: '2026-12-31',
		at: 'phases.low.lasts',
		says: 'row 2 (low salinity) holds low salinity for 20 of 28 days.',
		mend: 'Make it the whole course, 28 d'
	},
	{
		rule: 'course-short',
		trips: moves({ lasts: '3 moves' }),
		near: moves({ lasts: '1 move' }),
		severity: 'caution',
		date: '2026-12-06',
		at: 'phases.moves.lasts',
		says: 'row 2 (transfer) makes 3 of 4 moves.',
		mend: 'Make it the whole course, 4 moves'
	}
];
