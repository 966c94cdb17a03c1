import {
	bath,
	bottle,
	formalin,
	hold,
	log,
	low,
	moves,
	pulse,
	settle,
	waiting,
	watch,
	type Case
} from './case.ts';

/** Medicines: quantities, sharing, levels, courses, gaps, kits. The notation stands in `case.ts`. */
export const medicineCases: readonly Case[] = [
	{
		rule: 'quantity-missing',
		trips: { tank: { net: undefined } },
		near: {},
		severity: 'stop',
		date: null,
		at: 'tank.net',
		says: 'The true water volume is missing.'
	},
	{
		rule: 'quantity-missing',
		trips: { tank: { pH: undefined } },
		near: {},
		severity: 'caution',
		date: null,
		at: 'tank.pH',
		says: 'The pH is missing.'
	},
	{
		rule: 'quantity-missing',
		trips: { tank: { temperature: undefined } },
		near: {},
		severity: 'caution',
		date: null,
		at: 'tank.temperature',
		says: 'The temperature is missing.'
	},
	{
		rule: 'quantity-missing',
		trips: { tank: { salinity: undefined }, source: { salinity: undefined } },
		near: { tank: { salinity: undefined } },
		severity: 'caution',
		date: null,
		at: 'tank.salinity',
		says: 'The salinity is missing.'
	},
	{
		rule: 'quantity-missing',
		trips: { medicines: [{ ...bottle.cu, strength: undefined }, bottle.pz] },
		near: {},
		severity: 'stop',
		date: null,
		at: 'medicines.cu.strength',
		says: 'The strength of the bottle of ionic copper is missing.'
	},
	{
		rule: 'quantity-missing',
		trips: { rows: { copper: { level: undefined, aim: undefined } } },
		near: { rows: { copper: { aim: undefined } } },
		severity: 'stop',
		date: null,
		at: 'phases.copper.level',
		says: 'The level of ionic copper is missing in row 2 (hold).'
	},
	{
		rule: 'quantity-missing',
		trips: { rows: { flukes: { medicine: undefined } } },
		near: {},
		severity: 'stop',
		date: null,
		at: 'phases.flukes.medicine',
		says: 'The medicine is missing in row 3 (pulse).'
	},
	{
		rule: 'quantity-missing',
		trips: { lot: { feed: undefined, mass: undefined } },
		near: { lot: { feed: undefined } },
		severity: 'caution',
		date: null,
		at: 'lots.a.feed',
		says: 'What banded cardinalfish eat or weigh is missing.'
	},
	{
		rule: 'quantity-missing',
		trips: { rows: { watch: { lasts: undefined } } },
		near: {},
		severity: 'caution',
		date: null,
		at: 'phases.watch.lasts',
		says: 'How long row 5 (observe) lasts is missing in row 5 (observe).'
	},
	{
		rule: 'quantity-missing',
		trips: bath({ bath: undefined }),
		near: bath(),
		severity: 'stop',
		date: null,
		at: 'phases.bath.bath',
		says: 'The volume of the bath is missing in row 1 (dip).'
	},
	{
		rule: 'quantity-missing',
		trips: low({ level: undefined }),
		near: low(),
		severity: 'stop',
		date: null,
		at: 'phases.low.level',
		says: 'The salinity to hold is missing in row 2 (low salinity).'
	},
	{
		rule: 'quantity-missing',
		trips: { lots: [] },
		near: {},
		severity: 'note',
		date: null,
		at: 'lots',
		says: 'The fish is missing.'
	},
	{
		rule: 'measure-missing',
		trips: { medicines: [{ ...bottle.cu, measure: undefined }, bottle.pz] },
		near: {},
		severity: 'note',
		date: null,
		at: 'medicines.cu.measure',
		says: 'No measuring step is given for cu: amounts are not rounded.',
		mend: 'Measure liquids to 0.1 mL and powders to 10 mg'
	},
	{
		rule: 'shared-water',
		trips: {
			medicines: [bottle.cu, bottle.cq],
			rows: { flukes: { medicine: 'cq', level: '10 mg/L' }, watch: { lasts: '30 d', change: '40% daily' } }
		},
		near: {},
		severity: 'stop',
		date: '2026-12-02',
		at: 'phases.flukes.starts',
		says: 'Ionic copper and chloroquine phosphate share water from 2026-12-02 on.',
		mend: 'Begin row 3 (pulse) after row 4 (washout)'
	},
	{
		rule: 'shared-water',
		trips: {
			medicines: [bottle.cu, bottle.fo],
			phases: [
				settle,
				hold,
				{
					id: 'ciliate',
					kind: 'pulse',
					medicine: 'fo',
					starts: 'after copper',
					lasts: '3 doses',
					level: '25 uL/L',
					repeat: 'every 2 d',
					change: '50% before dose'
				},
				...watch('ciliate')
			]
		},
		near: {
			medicines: [bottle.cu, bottle.fo],
			phases: [
				settle,
				hold,
				{
					id: 'wash',
					kind: 'washout',
					medicine: 'cu',
					starts: 'after copper',
					lasts: 'until clear',
					change: '50% daily'
				},
				{
					id: 'ciliate',
					kind: 'pulse',
					medicine: 'fo',
					starts: 'after wash',
					lasts: '3 doses',
					level: '25 uL/L',
					repeat: 'every 2 d',
					change: '50% before dose'
				},
				...watch('ciliate')
			]
		},
		severity: 'stop',
		date: '2026-12-30',
		at: 'phases.ciliate.starts',
		says: 'On 2026-12-30, when formalin begins, 0.179 mg/L of ionic copper may still be in the water; gone is 0.02.',
		mend: 'Wash ionic copper out before row 3 (pulse)'
	},
	{
		rule: 'shared-water',
		trips: {
			medicines: [bottle.cu, { id: 'me', active: 'metronidazole', strength: '1 g/g', measure: '10 mg' }],
			rows: { flukes: { medicine: 'me', level: '25 mg/L', lasts: '3 doses', repeat: 'every 2 d' } }
		},
		near: {
			medicines: [
				bottle.cu,
				{ id: 'me', active: 'metronidazole', strength: '1 g/g', measure: '10 mg', prescribed: true }
			],
			rows: { flukes: { medicine: 'me', level: '25 mg/L', lasts: '3 doses', repeat: 'every 2 d' } }
		},
		severity: 'caution',
		date: '2026-12-02',
		at: 'phases.flukes.starts',
		says: 'Ionic copper and metronidazole share water from 2026-12-02 on.',
		mend: 'Begin row 3 (pulse) after row 4 (washout)'
	},
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
	},
	{
		rule: 'target-untreated',
		trips: { rows: { flukes: { target: 'cryptocaryon' } } },
		near: { rows: { flukes: { target: 'neobenedenia' } } },
		severity: 'caution',
		date: '2026-12-02',
		at: 'phases.flukes.target',
		says: 'Praziquantel does not treat cryptocaryon, which row 3 (pulse) is meant for.'
	},
	{
		rule: 'pulse-gap',
		trips: { rows: { flukes: { repeat: 'every 4 d' } } },
		near: { rows: { flukes: { repeat: 'every 9 d' } } },
		severity: 'caution',
		date: '2026-12-06',
		at: 'phases.flukes.repeat',
		says: 'The dose of 2026-12-06 comes 4 days after the one before; at 26 °C it belongs on day 7 to 9.',
		mend: 'Dose every 7 days'
	},
	{
		rule: 'pulse-gap',
		trips: { rows: { flukes: { repeat: 'every 10 d' } } },
		near: { tank: { temperature: '25 C' }, rows: { flukes: { repeat: 'every 10 d' } } },
		severity: 'stop',
		date: '2026-12-12',
		at: 'phases.flukes.repeat',
		says: 'The dose of 2026-12-12 comes 10 days after the one before; at 26 °C it belongs on day 7 to 9.',
		mend: 'Dose every 7 days'
	},
	{
		rule: 'pulse-gap',
		trips: { tank: { temperature: '18 C' } },
		near: { tank: { temperature: '20 C' }, rows: { flukes: { repeat: 'every 11 d' } } },
		severity: 'caution',
		date: null,
		at: 'phases.flukes.repeat',
		says: 'No timetable of flukes is known at 18 °C: nobody can say when the second dose is due.'
	},
	{
		// six and a half days by the clock are not seven, though the calendar counts seven
		rule: 'pulse-gap',
		trips: { moves: { 'flukes/dose/1': '2026-12-02T20:00' } },
		near: { moves: { 'flukes/dose/1': '2026-12-02T09:30' } },
		severity: 'caution',
		date: '2026-12-09',
		at: 'phases.flukes.repeat',
		says: 'The dose of 2026-12-09 comes 6.5 days after the one before; at 26 °C it belongs on day 7 to 9.',
		mend: 'Put moved doses back on their days'
	},
	{
		rule: 'pulse-gap',
		trips: { moves: { 'flukes/dose/2': '2026-12-13' } },
		near: { moves: { 'flukes/dose/2': '2026-12-10' } },
		severity: 'stop',
		date: '2026-12-13',
		at: 'phases.flukes.repeat',
		says: 'The dose of 2026-12-13 comes 11 days after the one before; at 26 °C it belongs on day 7 to 9.',
		mend: 'Put moved doses back on their days'
	},
	{
		rule: 'pulse-gap',
		trips: pulse(bottle.ka, {
			level: '50 mg/L',
			lasts: '3 doses',
			repeat: 'every 2 d',
			change: '25% before dose'
		}),
		near: pulse(bottle.ka, {
			level: '50 mg/L',
			lasts: '3 doses',
			repeat: 'every 3 d',
			change: '25% before dose'
		}),
		severity: 'caution',
		date: '2026-12-02',
		at: 'phases.p.repeat',
		says: 'The dose of 2026-12-02 comes 2 days after the one before; a course of kanamycin leaves 3 between.',
		mend: 'Dose every 3 days'
	},
	{
		rule: 'dose-too-soon',
		trips: { rows: { flukes: { repeat: 'every 1 d' } } },
		near: { rows: { flukes: { repeat: 'every 2 d' } } },
		severity: 'stop',
		date: '2026-12-03',
		at: 'phases.flukes.repeat',
		says: 'Praziquantel 280 mg on 2026-12-03 comes 24 h after Praziquantel 280 mg; a dose acts for 30 h.',
		mend: 'Dose every 2 days'
	},
	{
		rule: 'dose-too-soon',
		trips: log({ at: '2026-12-02T06:00:00-06:00', kind: 'dose', medicine: 'pz', amount: '280 mg' }),
		near: log({ at: '2026-11-30T20:00:00-06:00', kind: 'dose', medicine: 'pz', amount: '280 mg' }),
		now: '2026-12-02T13:00:00Z',
		severity: 'stop',
		date: '2026-12-02',
		at: 'phases.flukes.starts',
		says: 'Praziquantel 280 mg on 2026-12-02 comes 2 h after a dose outside the plan; a dose acts for 30 h.',
		mend: 'Begin row 3 (pulse) 7 days later'
	},
	{
		rule: 'transfer-gap',
		trips: moves({ repeat: 'every 4 d' }),
		near: moves({ repeat: 'every 3 d' }),
		severity: 'stop',
		date: '2026-12-04',
		at: 'phases.moves.repeat',
		says: 'The move of 2026-12-04 comes 96 h after the one before; 78 h is the most.',
		mend: 'Move every 72 hours'
	},
	{
		rule: 'spare-missing',
		trips: { ...moves(), spare: undefined },
		near: moves(),
		severity: 'note',
		date: '2026-11-30',
		at: 'spare',
		says: 'The fish move on 2026-11-30, and the plan names no second tank.',
		mend: 'Add a second tank'
	},
	{
		rule: 'step-too-coarse',
		trips: { medicines: [{ ...bottle.cu, strength: '20 mg/mL', measure: '0.2 mL' }, bottle.pz] },
		near: {},
		severity: 'note',
		date: null,
		at: 'medicines.cu.measure',
		says: 'One step of the measuring tool is 0.036 mg/L in 112 L, more than half the window of 0.05 mg/L.',
		mend: 'Measure ten times finer'
	},
	{
		rule: 'kit-too-coarse',
		trips: {},
		near: waiting(),
		severity: 'note',
		date: null,
		at: 'phases.copper.level',
		says: 'A colour card for ionic copper tells 0.05 mg/L apart; the window is 0.05 wide.'
	},
	{
		rule: 'kit-disturbed',
		trips: formalin({ test: 'NH3 daily' }),
		near: formalin(),
		severity: 'note',
		date: '2026-12-01',
		at: 'p/test/2',
		says: 'While formalin is in the water, the kit for ammonia cannot be believed.'
	},
	{
		rule: 'kit-disturbed',
		trips: { ...waiting(), tank: { conditioner: 'binder' } },
		near: waiting(),
		severity: 'note',
		date: null,
		at: 'tank.conditioner',
		says: 'A conditioner is in the water: an ammonia kit may show bound ammonia as if it were free, or none at all.'
	},
	{
		rule: 'prescription-missing',
		trips: pulse(
			{ ...bottle.cq, prescribed: undefined },
			{ level: '10 mg/L', lasts: '2 doses', repeat: 'every 14 d' }
		),
		near: pulse(bottle.cq, { level: '10 mg/L', lasts: '2 doses', repeat: 'every 14 d' }),
		severity: 'caution',
		date: '2026-11-30',
		at: 'medicines.cq.prescribed',
		says: 'Chloroquine phosphate is a prescription drug in many countries, and no prescription is noted.'
	}
];
