import { bottle, formalin, log, pulse, waiting, type Case } from './case.ts';

/** Oxygen, ammonia, nitrate, changes, the source, warmth. The notation stands in `case.ts`. */
export const waterCases: readonly Case[] = [
	{
		rule: 'oxygen-scarce',
		trips: formalin(),
		near: { ...formalin(), tank: { temperature: '22 C' } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'phases.p.level',
		says: 'If the air stops, oxygen falls from 6.7 to 5 mg/L in about 5.5 h.'
	},
	{
		rule: 'ammonia-over',
		trips: { lot: { count: 25, mass: '320 g', feed: '8 g/d' } },
		near: {},
		severity: 'stop',
		date: '2026-11-28',
		at: 'phases.settle.change',
		says: 'Toxic ammonia passes 0.02 mg/L NH3-N on 2026-11-28 and reaches 0.082 on 2027-01-16 (0.1 as NH3).'
	},
	{
		rule: 'ammonia-over',
		trips: { rows: { watch: { change: 'none' } }, lot: { feed: '2.2 g/d' } },
		near: { rows: { watch: { change: 'auto' } }, lot: { feed: '2.2 g/d' } },
		severity: 'caution',
		date: '2027-01-05',
		at: 'phases.watch.change',
		says: 'Toxic ammonia passes 0.02 mg/L NH3-N on 2027-01-05 and reaches 0.025 on 2027-01-17 (0.031 as NH3).',
		mend: 'Let changes in row 5 (observe) plan themselves'
	},
	{
		rule: 'stocking',
		trips: { lot: { count: 25, mass: '320 g', feed: '8 g/d' } },
		near: { lot: { count: 25 } },
		severity: 'note',
		date: null,
		at: 'lots',
		says: '25 fish in 112 L; keepers count four to five small ones to 114 L.'
	},
	{
		rule: 'nitrate-over',
		trips: { source: { nitrate: '25 mg/L' } },
		near: { source: { nitrate: '15 mg/L' } },
		severity: 'note',
		date: null,
		at: 'source.nitrate',
		says: 'The source water carries 25 mg/L nitrate: a limit of 20 cannot be held with it, up to 30 is to be expected.'
	},
	{
		rule: 'nitrate-over',
		trips: { limits: { nitrate: '10 mg/L' }, rows: { copper: { change: '20% every 7 d' } } },
		near: { rows: { copper: { change: '20% every 7 d' } } },
		severity: 'note',
		date: '2026-12-13',
		at: 'limits.nitrate',
		says: 'Nitrate passes 10 mg/L on 2026-12-13 and reaches 14.9.',
		mend: 'Let changes plan themselves in every row'
	},
	{
		rule: 'nitrate-over',
		trips: { source: { nitrate: '60 mg/L' } },
		near: {},
		severity: 'caution',
		date: null,
		at: 'source.nitrate',
		says: 'The source water carries 60 mg/L nitrate: a limit of 20 cannot be held with it, up to 69.8 is to be expected.'
	},
	{
		rule: 'filter-stalls',
		trips: pulse(bottle.cq, { level: '10 mg/L', lasts: '2 doses', repeat: 'every 14 d' }),
		near: {
			...pulse(bottle.cq, { level: '10 mg/L', lasts: '2 doses', repeat: 'every 14 d' }),
			tank: { filterClears: 'none' }
		},
		severity: 'note',
		date: '2026-11-30',
		at: 'tank.filterClears',
		says: 'Chloroquine phosphate harms filter bacteria: from 2026-11-30 the filter’s 40 L a day count as none.'
	},
	{
		rule: 'week-without-change',
		trips: { rows: { watch: { change: 'none' } } },
		near: { rows: { watch: { change: '25% every 5 d' } } },
		severity: 'caution',
		date: '2027-01-01',
		at: 'phases.watch.change',
		says: 'No water is changed from 2027-01-01 to 2027-01-17, 16 days.',
		mend: 'Let changes in row 5 (observe) plan themselves'
	},
	{
		rule: 'week-without-change',
		trips: waiting({ lasts: '12 d', change: '30% every 10 d' }),
		near: waiting({ lasts: '10 d', change: '30% every 6 d' }),
		severity: 'caution',
		date: '2026-11-27',
		at: 'phases.settle.change',
		says: 'No water is changed from 2026-11-27 to 2026-12-07, 10 days.',
		mend: 'Let changes plan themselves in every row'
	},
	{
		rule: 'change-size',
		trips: { rows: { watch: { change: '10% every 3 d' } } },
		near: { rows: { watch: { change: '20% every 3 d' } } },
		severity: 'note',
		date: '2027-01-06',
		at: 'phases.watch.change',
		says: 'Changes of 10 % in row 5 (observe) are outside 20 to 50 %.',
		mend: 'Change 20 %'
	},
	{
		rule: 'change-size',
		trips: { rows: { watch: { change: '70% every 3 d' } } },
		near: { rows: { wash: { change: '70% daily' } } },
		severity: 'note',
		date: '2027-01-06',
		at: 'phases.watch.change',
		says: 'Changes of 70 % in row 5 (observe) are outside 20 to 50 %.',
		mend: 'Change 50 %'
	},
	{
		rule: 'source-unmatched',
		trips: { source: { temperature: '23 C' } },
		near: { source: { temperature: '24.5 C' } },
		severity: 'caution',
		date: '2026-12-29',
		at: 'source.temperature',
		says: 'New water at 23 °C moves the tank by -1.5 °C in a change of 50 %.',
		mend: 'Bring new water to 26 °C first'
	},
	{
		rule: 'source-unmatched',
		trips: { source: { salinity: '42 ppt' } },
		near: { source: { salinity: '36 ppt' } },
		severity: 'caution',
		date: '2026-12-04',
		at: 'source.salinity',
		says: 'Change 22.4 L on 2026-12-04 raises salinity from 34 by 1.6 ppt.',
		mend: 'Mix new water to 34 ppt'
	},
	{
		rule: 'source-unmatched',
		trips: { source: { pH: 8.6 } },
		near: { source: { pH: 8.4 } },
		severity: 'caution',
		date: '2026-12-29',
		at: 'source.pH',
		says: 'New water at pH 8.6 moves the tank by about 0.25 in a change of 50 %.',
		mend: 'Bring new water to pH 8.1 first'
	},
	{
		rule: 'source-unmatched',
		trips: { source: { ammonia: '0.2 mg/L' } },
		near: {},
		severity: 'note',
		date: '2026-12-29',
		at: 'source.ammonia',
		says: 'The source water carries 0.2 mg/L total ammonia as N, 0.011 of it toxic in this tank.'
	},
	{
		rule: 'source-unmatched',
		trips: { source: { ammonia: '0.6 mg/L' } },
		near: {},
		severity: 'caution',
		date: '2026-12-29',
		at: 'source.ammonia',
		says: 'The source water carries 0.6 mg/L total ammonia as N, 0.034 of it toxic in this tank.'
	},
	{
		rule: 'heat-loose',
		trips: { tank: { heater: { holdsWithin: '3 C' } } },
		near: { tank: { heater: { holdsWithin: '2 C' } } },
		severity: 'caution',
		date: null,
		at: 'tank.heater.holdsWithin',
		says: 'The heater holds within 3 °C; 2 °C is the most.',
		mend: 'Use a heater that holds within 1 °C'
	},
	{
		rule: 'heat-loose',
		trips: log({ at: '2026-11-28T07:00:00-06:00', kind: 'reading', what: 'T', value: '29 C' }),
		near: log({ at: '2026-11-28T07:00:00-06:00', kind: 'reading', what: 'T', value: '27.5 C' }),
		now: '2026-11-28T18:00:00Z',
		severity: 'caution',
		date: '2026-11-28',
		at: 'tank.temperature',
		says: 'The latest reading is 29 °C, the plan counts on 26 °C.'
	}
];
