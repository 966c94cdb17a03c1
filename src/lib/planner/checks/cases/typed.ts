import { bath, bottle, hold, settle, watch, type Case } from './case.ts';

const wash = {
	id: 'wash',
	kind: 'washout',
	medicine: 'cu',
	starts: 'after copper',
	lasts: 'until clear',
	change: '50% daily'
};

/** Slips a keeper makes while typing a plan: a row left out, a unit or a zero mistaken. The notation stands in `case.ts`. */
export const typedCases: readonly Case[] = [
	{
		rule: 'still-in-water',
		trips: { medicines: [bottle.cu], phases: [settle, hold, ...watch('copper', 14)] },
		near: { medicines: [bottle.cu], phases: [settle, hold, wash, ...watch('wash', 14)] },
		severity: 'stop',
		date: '2026-12-30',
		at: 'phases.watch.starts',
		says: 'When watch begins on 2026-12-30, 0.179 mg/L of ionic copper is still in the water; gone is 0.02 mg/L.',
		mend: 'Wash ionic copper out before watch'
	},
	{
		rule: 'still-in-water',
		trips: {
			medicines: [bottle.cu],
			phases: [settle, hold, { id: 'release', kind: 'release', starts: 'after copper' }]
		},
		near: {
			medicines: [bottle.cu],
			phases: [settle, hold, wash, { id: 'release', kind: 'release', starts: 'after wash' }]
		},
		severity: 'stop',
		date: '2026-12-30',
		at: 'phases.release.starts',
		says: 'When release begins on 2026-12-30, 0.179 mg/L of ionic copper is still in the water; gone is 0.02 mg/L.',
		mend: 'Wash ionic copper out before release'
	},
	{
		rule: 'still-in-water',
		trips: { rows: { wash: { lasts: '1 d' }, watch: { lasts: '12 d', change: 'none' } } },
		near: { rows: { wash: { lasts: '6 d' }, watch: { lasts: '12 d', change: 'none' } } },
		severity: 'stop',
		date: '2026-12-30',
		at: 'phases.watch.starts',
		says: 'When watch begins on 2026-12-30, 0.089 mg/L of ionic copper is still in the water; gone is 0.02 mg/L.',
		mend: 'Wash until it is clear'
	},
	{
		rule: 'dose-too-big',
		trips: { medicines: [{ ...bottle.cu, strength: '2 mg/L' }, bottle.pz] },
		near: { medicines: [{ ...bottle.cu, strength: '10 mg/L' }, bottle.pz] },
		severity: 'stop',
		date: '2026-11-30',
		at: 'medicines.cu.strength',
		says: 'One dose of ionic copper comes to 5040.0 mL, 4.5 % of 112 L of water: do not pour it.'
	},
	{
		rule: 'dose-too-big',
		trips: { ...bath(), medicines: [{ ...bottle.fo, strength: '0.001 mL/mL' }] },
		near: bath(),
		severity: 'stop',
		date: '2026-11-28',
		at: 'medicines.fo.strength',
		says: 'One dose of formalin comes to 1500.0 mL, 15 % of 10 L of water: do not pour it.'
	},
	{
		rule: 'fish-temperature',
		trips: { tank: { temperature: '38 C' } },
		near: { tank: { temperature: '28 C' } },
		severity: 'stop',
		date: null,
		at: 'tank.temperature',
		says: 'The tank is at 38 °C; tropical marine fish are kept at 22 to 28 °C.'
	},
	{
		rule: 'fish-temperature',
		trips: { tank: { temperature: '15 C' } },
		near: { tank: { temperature: '22 C' } },
		severity: 'stop',
		date: null,
		at: 'tank.temperature',
		says: 'The tank is at 15 °C; tropical marine fish are kept at 22 to 28 °C.'
	},
	{
		rule: 'fish-temperature',
		trips: { tank: { temperature: '26 F' } },
		near: { tank: { temperature: '78.8 F' } },
		severity: 'stop',
		date: null,
		at: 'tank.temperature',
		says: 'The tank is at -3.3 °C, or 26 °C is meant and not 26 °F; tropical marine fish are kept at 22 to 28 °C.'
	},
	{
		rule: 'fish-temperature',
		trips: { tank: { temperature: '30 C' } },
		near: { tank: { temperature: '27 C' } },
		severity: 'caution',
		date: null,
		at: 'tank.temperature',
		says: 'The tank is at 30 °C; tropical marine fish are kept at 22 to 28 °C.'
	}
];
