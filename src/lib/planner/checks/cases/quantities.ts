import { bath, bottle, hold, low, settle, watch, type Case } from './case.ts';

/** Quantities that are missing, and water that is shared. The notation stands in `case.ts`. */
export const quantityCases: readonly Case[] = [
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
		says: 'How long it lasts is missing in row 5 (observe).'
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
		says: 'The list of fish is missing.'
	},
	{
		rule: 'measure-missing',
		trips: { medicines: [{ ...bottle.cu, measure: undefined }, bottle.pz] },
		near: {},
		severity: 'note',
		date: null,
		at: 'medicines.cu.measure',
		says: 'No measuring step is given for ionic copper: amounts are not rounded.',
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
	}
];
