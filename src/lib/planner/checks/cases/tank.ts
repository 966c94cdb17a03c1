import { bottle, formalin, hold, log, low, pulse, settle, waiting, watch, type Case } from './case.ts';

/** The tank, its fish and its water. The notation stands in `case.ts`. */
export const tankCases: readonly Case[] = [
	{
		rule: 'not-tolerated',
		trips: { lot: { what: 'bamboo shark', group: 'shark' } },
		near: { lot: { what: 'shrimp goby', group: 'goby' } },
		severity: 'stop',
		date: '2026-11-30',
		at: 'phases.copper.medicine',
		says: 'Bamboo shark must not meet ionic copper.'
	},
	{
		rule: 'sensitive-fish',
		trips: { lot: { what: 'wrasse', group: 'wrasse' } },
		near: {
			lot: { what: 'wrasse', group: 'wrasse' },
			rows: { copper: { aim: '0.165 mg/L', repeat: 'ramp 5 d' } }
		},
		severity: 'caution',
		date: '2026-11-30',
		at: 'phases.copper.aim',
		says: 'Wrasse take less ionic copper, slower: row 2 (hold) has 0.18 mg/L and a rise over 2 days, they are given about 0.165 mg/L and a rise over 5 to 7 days.',
		mend: 'Aim at 0.165 mg/L and rise over 6 days'
	},
	{
		rule: 'sensitive-fish',
		trips: { ...formalin(), lot: { what: 'puffers', group: 'puffer' } },
		near: { ...formalin({ level: '15 uL/L' }), lot: { what: 'puffers', group: 'puffer' } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'phases.p.level',
		says: 'Puffers take less formalin, slower: row 2 (pulse) has 25 uL/L, they are given about 15 uL/L.',
		mend: 'Aim at 15 uL/L'
	},
	{
		rule: 'tolerance-unknown',
		trips: { medicines: [bottle.cu, { ...bottle.pz, active: 'other' }] },
		near: {},
		severity: 'note',
		date: null,
		at: 'medicines.pz.active',
		says: 'Nothing is known here of banded cardinalfish with another medicine.'
	},
	{
		rule: 'salinity-not-borne',
		trips: { ...low(), lot: { what: 'stingrays', group: 'ray' } },
		near: low(),
		severity: 'stop',
		date: '2026-11-30',
		at: 'phases.low.level',
		says: 'stingrays at 14 ppt: low salinity is not for them at all.'
	},
	{
		rule: 'salinity-not-borne',
		trips: { ...low(), lot: { what: 'seahorses', group: 'seahorse' } },
		near: { ...low({ level: '15 ppt' }), lot: { what: 'seahorses', group: 'seahorse' } },
		severity: 'stop',
		date: '2026-11-30',
		at: 'phases.low.level',
		says: 'seahorses at 14 ppt: 15 ppt is the least for the group.',
		mend: 'Hold 15 ppt'
	},
	{
		rule: 'salinity-not-borne',
		trips: low({ level: '9 ppt' }),
		near: low({ level: '12 ppt' }),
		severity: 'stop',
		date: '2026-11-30',
		at: 'phases.low.level',
		says: 'row 2 (low salinity) goes down to 9 ppt; 10 ppt is the least.',
		mend: 'Hold 14 ppt'
	},
	{
		rule: 'salinity-too-high',
		trips: low({ level: '18 ppt' }),
		near: low({ level: '16 ppt' }),
		severity: 'caution',
		date: '2026-11-30',
		at: 'phases.low.level',
		says: 'row 2 (low salinity) holds 18 ppt; a day counts at 16 ppt or less.',
		mend: 'Hold 14 ppt'
	},
	{
		rule: 'rise-too-fast',
		trips: low({ rise: '4 ppt/d' }),
		near: low({ rise: '2 ppt/d' }),
		severity: 'stop',
		date: '2026-11-30',
		at: 'phases.low.rise',
		says: 'row 2 (low salinity) rises by 4 ppt a day; 2 is the most.',
		mend: 'Rise by 2 ppt a day'
	},
	{
		rule: 'medicine-conditions',
		trips: { ...formalin(), tank: { temperature: '28 C' } },
		near: { ...formalin(), tank: { temperature: '27 C' } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'tank.temperature',
		says: 'Formalin at 28 °C; sources stop at 26 to 27 °C.'
	},
	{
		rule: 'medicine-conditions',
		trips: { tank: { salinity: '28 ppt' }, source: { salinity: '28 ppt' } },
		near: { tank: { salinity: '31 ppt' }, source: { salinity: '31 ppt' } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'tank.salinity',
		says: 'Ionic copper in 28 ppt; not under 30 ppt.'
	},
	{
		rule: 'medicine-conditions',
		trips: { tank: { pH: 7.6 } },
		near: { tank: { pH: 7.8 } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'tank.pH',
		says: 'Ionic copper at pH 7.6; not under pH 7.8.'
	},
	{
		rule: 'others-present',
		trips: { tank: { holds: ['fish', 'invertebrates'] } },
		near: { tank: { holds: ['fish'] } },
		severity: 'stop',
		date: '2026-11-30',
		at: 'tank.holds',
		says: 'Invertebrates in the tank when ionic copper begins on 2026-11-30.',
		mend: 'Take everything but the fish out first'
	},
	{
		rule: 'others-present',
		trips: { tank: { holds: ['fish', 'live-rock'] } },
		near: { ...waiting(), tank: { holds: ['fish', 'live-rock'] } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'tank.holds',
		says: 'Live rock in the tank when ionic copper begins on 2026-11-30.',
		mend: 'Take everything but the fish out first'
	},
	{
		rule: 'lid-missing',
		trips: { lot: { what: 'firefish', group: 'dartfish' }, tank: { lid: false } },
		near: { lot: { what: 'firefish', group: 'dartfish' }, tank: { lid: true } },
		severity: 'caution',
		date: null,
		at: 'tank.lid',
		says: 'The tank has no lid, and firefish jump.',
		mend: 'Put a lid on'
	},
	{
		rule: 'lid-missing',
		trips: { lot: { what: 'firefish', group: 'dartfish' } },
		near: {},
		severity: 'note',
		date: null,
		at: 'tank.lid',
		says: 'Firefish jump: nothing says that the tank has a lid.',
		mend: 'Put a lid on'
	},
	{
		rule: 'fish-fight',
		trips: { lot: { what: 'pygmy angelfish', group: 'dwarf-angelfish' } },
		near: { lot: { what: 'pygmy angelfish', group: 'dwarf-angelfish', count: 2 } },
		severity: 'note',
		date: null,
		at: 'lots.a.count',
		says: '5 fish of a group that fights (dwarf angelfish) share one bare tank.'
	},
	{
		rule: 'equipment-runs',
		trips: { tank: { carbon: true } },
		near: { tank: { uv: true, skimmer: true } },
		severity: 'stop',
		date: '2026-11-30',
		at: 'tank.carbon',
		says: 'Carbon runs in the tank while ionic copper is given.',
		mend: 'Take the carbon out for the course'
	},
	{
		rule: 'equipment-runs',
		trips: { rows: { copper: { carbon: true } } },
		near: { rows: { wash: { carbon: true } } },
		severity: 'stop',
		date: '2026-11-30',
		at: 'phases.copper.carbon',
		says: 'Carbon stands in row 2 (hold) while ionic copper is given.',
		mend: 'Leave the carbon out of row 2 (hold)'
	},
	{
		rule: 'equipment-runs',
		trips: { rows: { flukes: { starts: 'after copper + 2 d' } } },
		near: { rows: { flukes: { starts: 'after copper + 2 d' }, wash: { carbon: false } } },
		severity: 'stop',
		date: '2026-12-31',
		at: 'phases.wash.carbon',
		says: 'Carbon, put in for row 4 (washout) on 2026-12-29, is in the water while praziquantel is given.',
		mend: 'Leave the carbon out of row 4 (washout)'
	},
	{
		rule: 'equipment-runs',
		trips: log({ at: '2026-12-01T09:00:00-06:00', kind: 'equipment', what: 'carbon', on: true }),
		near: log(
			{ at: '2026-12-01T09:00:00-06:00', kind: 'equipment', what: 'carbon', on: true },
			{ at: '2026-12-01T10:00:00-06:00', kind: 'equipment', what: 'carbon', on: false }
		),
		now: '2026-12-01T18:00:00Z',
		severity: 'stop',
		date: '2026-12-01',
		at: 'log.1',
		says: 'Carbon was put in on 2026-12-01 and runs while ionic copper is given.'
	},
	{
		rule: 'equipment-runs',
		trips: {
			tank: { uv: true },
			medicines: [
				{ ...bottle.cu, active: 'copper-chelated', level: '1.5-2.0 mg/L', ceiling: '2.5 mg/L' },
				bottle.pz
			],
			rows: { copper: { level: '1.5-2.0 mg/L', aim: '1.8 mg/L' } }
		},
		near: { tank: { uv: true } },
		severity: 'stop',
		date: '2026-11-30',
		at: 'tank.uv',
		says: 'UV runs in the tank while chelated copper is given.',
		mend: 'Take the UV out for the course'
	},
	{
		rule: 'lime-with-copper',
		trips: { tank: { substrate: 'calcareous' } },
		near: { tank: { substrate: 'inert' } },
		severity: 'stop',
		date: '2026-11-30',
		at: 'tank.substrate',
		says: 'Calcareous sand or rock is in the tank when ionic copper is given.',
		mend: 'Run the tank bare'
	},
	{
		rule: 'lights-on',
		trips: {
			...pulse(bottle.cq, { level: '10 mg/L', lasts: '2 doses', repeat: 'every 14 d' }),
			tank: { lights: 'on' }
		},
		near: { ...formalin(), tank: { lights: 'on' } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'tank.lights',
		says: 'The lights are on while chloroquine phosphate is given.',
		mend: 'Keep the lights off'
	},
	{
		rule: 'conditioner-with-copper',
		trips: { tank: { conditioner: 'binder' } },
		near: {
			...pulse(bottle.pz, { level: '2.5 mg/L', lasts: '2 doses', repeat: 'every 7 d' }),
			tank: { conditioner: 'binder' }
		},
		severity: 'stop',
		date: '2026-11-30',
		at: 'tank.conditioner',
		says: 'A binding conditioner is used when ionic copper begins on 2026-11-30.',
		mend: 'Use no conditioner; air or age the new water instead'
	},
	{
		rule: 'no-air',
		trips: { ...formalin(), tank: { aeration: 'none' } },
		near: formalin(),
		severity: 'stop',
		date: '2026-11-30',
		at: 'tank.aeration',
		says: 'No air runs in the tank when formalin begins on 2026-11-30.',
		mend: 'Run coarse air'
	},
	{
		rule: 'no-air',
		trips: { tank: { aeration: undefined } },
		near: {},
		severity: 'note',
		date: '2026-11-30',
		at: 'tank.aeration',
		says: 'Nothing says that air runs in the tank when ionic copper begins on 2026-11-30.',
		mend: 'Run coarse air'
	},
	{
		rule: 'foaming',
		trips: {
			...pulse(bottle.bo, { kind: 'daily', level: '5 mg/L', lasts: '7 d' }),
			tank: { aeration: 'fine' }
		},
		near: { tank: { aeration: 'fine' } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'tank.aeration',
		says: 'Fine bubbles carry botanical antibacterial out of the water as foam.',
		mend: 'Run coarse air'
	},
	{
		rule: 'foaming',
		trips: { tank: { skimmer: true } },
		near: { medicines: [bottle.cu], phases: [settle, hold, ...watch('copper')], tank: { skimmer: true } },
		severity: 'caution',
		date: '2026-12-02',
		at: 'tank.skimmer',
		says: 'The skimmer carries praziquantel out of the water as foam.',
		mend: 'Turn the skimmer off for the course'
	},
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
