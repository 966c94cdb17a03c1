import { bottle, formalin, log, low, waiting, type Case } from './case.ts';

/** What fish bear, and which fish bear each other. The notation stands in `case.ts`. */
export const fishCases: readonly Case[] = [
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
		rule: 'fish-fight',
		trips: {
			lot: { what: 'pygmy angelfish', group: 'dwarf-angelfish' },
			...log({ at: '2026-11-28T09:00:00-06:00', kind: 'loss', lot: 'a', count: 2 })
		},
		near: {
			lot: { what: 'pygmy angelfish', group: 'dwarf-angelfish' },
			...log({ at: '2026-11-28T09:00:00-06:00', kind: 'loss', lot: 'a', count: 3 })
		},
		now: '2026-11-28T20:00:00Z',
		severity: 'note',
		date: null,
		at: 'lots.a.count',
		says: '3 fish of a group that fights (dwarf angelfish) share one bare tank.'
	}
];
