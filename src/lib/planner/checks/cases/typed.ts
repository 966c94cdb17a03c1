import {
	bath,
	bottle,
	course,
	formalin,
	hold,
	log,
	pulse,
	raised,
	readCopper,
	settle,
	waiting,
	watch,
	type Case,
	type Change
} from './case.ts';

const wash = {
	id: 'wash',
	kind: 'washout',
	medicine: 'cu',
	starts: 'after copper',
	lasts: 'until clear',
	change: '50% daily'
};

const chelated = (label: object, row: object): Change => {
	const cc = { id: 'cc', active: 'copper-chelated', strength: '20 mg/mL', measure: '0.1 mL', ...label };
	const copper = { ...hold, medicine: 'cc', ...row };
	return {
		...course({ id: 'copper' }, [cc]),
		phases: [settle, copper, { ...wash, medicine: 'cc' }, ...watch('wash')]
	};
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
		says: 'When row 3 (observe) begins on 2026-12-30, 0.179 mg/L of ionic copper is still in the water; gone is 0.02 mg/L.',
		mend: 'Wash ionic copper out before row 3 (observe)'
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
		says: 'When row 3 (release) begins on 2026-12-30, 0.179 mg/L of ionic copper is still in the water; gone is 0.02 mg/L.',
		mend: 'Wash ionic copper out before row 3 (release)'
	},
	{
		rule: 'still-in-water',
		trips: { rows: { wash: { lasts: '1 d' }, watch: { lasts: '12 d', change: 'none' } } },
		near: { rows: { wash: { lasts: '6 d' }, watch: { lasts: '12 d', change: 'none' } } },
		severity: 'stop',
		date: '2026-12-30',
		at: 'phases.watch.starts',
		says: 'When row 5 (observe) begins on 2026-12-30, 0.089 mg/L of ionic copper is still in the water; gone is 0.02 mg/L.',
		mend: 'Wash until it is clear'
	},
	{
		rule: 'still-in-water',
		trips: { medicines: [bottle.cu], phases: [settle, hold, ...watch('copper', 30)] },
		near: { medicines: [bottle.cu], phases: [settle, hold, ...watch('copper', 45)] },
		severity: 'stop',
		date: '2026-12-30',
		at: 'phases.watch.starts',
		says: 'When row 3 (observe) begins on 2026-12-30, 0.179 mg/L of ionic copper is still in the water; gone is 0.02 mg/L.',
		mend: 'Wash ionic copper out before row 3 (observe)'
	},
	{
		rule: 'dose-too-big',
		trips: { medicines: [bottle.cu, { ...bottle.pz, strength: '0.1 mg/mL', measure: '0.1 mL' }] },
		near: { medicines: [bottle.cu, { ...bottle.pz, strength: '0.2 mg/mL', measure: '0.1 mL' }] },
		severity: 'stop',
		date: '2026-12-02',
		at: 'medicines.pz.strength',
		says: 'One dose of praziquantel comes to 2800.0 mL, 2.5 % of 112 L of water: do not pour it.'
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
	},
	{
		rule: 'quantity-missing',
		trips: chelated({}, { level: '50-60 mg/L' }),
		near: chelated({ ceiling: '2.5 mg/L' }, { level: '1.5-2 mg/L' }),
		severity: 'stop',
		date: null,
		at: 'medicines.cc.ceiling',
		says: 'The ceiling of this bottle of chelated copper is missing.'
	},
	{
		rule: 'above-ceiling',
		trips: chelated({ level: '1.5-2 mg/L' }, { level: '50-60 mg/L' }),
		near: chelated({ level: '1.5-2 mg/L' }, { level: '1.5-2 mg/L' }),
		severity: 'stop',
		date: '2026-11-30',
		at: 'phases.copper.level',
		says: 'The window of row 2 (hold), 50 to 60 mg/L, lies above the ceiling of chelated copper, 2 mg/L.',
		mend: 'Write 1.5-2 mg/L'
	},
	{
		rule: 'ionic-window',
		trips: chelated({ ceiling: '2.5 mg/L' }, { level: '0.15-0.20 mg/L' }),
		near: chelated({ ceiling: '2.5 mg/L' }, { level: '1.5-2 mg/L' }),
		severity: 'caution',
		date: '2026-11-30',
		at: 'phases.copper.level',
		says: 'row 2 (hold) holds 0.15 to 0.2 mg/L of chelated copper: that looks like the window of ionic copper.'
	},
	{
		rule: 'above-ceiling',
		trips: { rows: { copper: { level: '1.5-2.0 mg/L', aim: undefined } } },
		near: { rows: { copper: { level: '0.15-0.20 mg/L', aim: undefined } } },
		severity: 'stop',
		date: '2026-11-30',
		at: 'phases.copper.level',
		says: 'The window of row 2 (hold), 1.5 to 2 mg/L, lies above the ceiling of ionic copper, 0.2 mg/L.',
		mend: 'Write 0.15-0.2 mg/L'
	},
	{
		rule: 'above-ceiling',
		trips: log(...raised, readCopper('2026-12-02T07:30:00-06:00', '1.8 mg/L')),
		near: log(...raised, readCopper('2026-12-02T07:30:00-06:00', '0.18 mg/L')),
		now: '2026-12-02T18:00:00Z',
		severity: 'stop',
		date: '2026-12-02',
		says: 'The reading of 2026-12-02 puts ionic copper at 1.8 mg/L, over its ceiling of 0.2 mg/L.'
	},
	{
		rule: 'aim-outside-window',
		trips: { rows: { copper: { aim: '0.1 mg/L' } } },
		near: { rows: { copper: { aim: '0.15 mg/L' } } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'phases.copper.aim',
		says: 'row 2 (hold) aims at 0.1 mg/L, outside its window of 0.15 to 0.2 mg/L.',
		mend: 'Aim inside the window'
	},
	{
		rule: 'source-unmatched',
		trips: { source: { salinity: '24 ppt' } },
		near: { source: { salinity: '33 ppt' } },
		severity: 'caution',
		date: '2026-12-04',
		at: 'source.salinity',
		says: 'Change 22.4 L on 2026-12-04 lowers salinity from 34 by 2 ppt.',
		mend: 'Mix new water to 34 ppt'
	},
	{
		rule: 'source-unmatched',
		trips: { ...waiting({ change: '20% every 5 d', lasts: '20 d' }), source: { salinity: '30 ppt' } },
		near: { ...waiting({ change: '20% every 5 d', lasts: '20 d' }), source: { salinity: '32 ppt' } },
		severity: 'caution',
		date: '2026-12-02',
		at: 'source.salinity',
		says: 'New water at 30 ppt thins the tank from 34 ppt with each change, the first on 2026-12-02.',
		mend: 'Mix new water to 34 ppt'
	},
	{
		rule: 'equipment-unknown',
		trips: { ...pulse(bottle.cq, { level: '10 mg/L', lasts: '1 dose' }), tank: { uv: true } },
		near: { tank: { uv: true } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'tank.uv',
		says: 'UV runs in the tank while chloroquine phosphate is given: what it does to it is not known here.',
		mend: 'Keep the UV off for the course'
	},
	{
		rule: 'equipment-unknown',
		trips: { tank: { ozone: true } },
		near: { tank: { skimmer: true } },
		severity: 'caution',
		date: '2026-11-30',
		at: 'tank.ozone',
		says: 'Ozone runs in the tank while ionic copper is given: what it does to it is not known here.',
		mend: 'Keep the ozone off for the course'
	},
	{
		rule: 'doses-left-out',
		trips: formalin({ lasts: '9 doses', repeat: 'every 1 d', change: 'none' }),
		near: formalin({ lasts: '3 doses', repeat: 'every 2 d' }),
		severity: 'caution',
		date: '2026-11-30',
		at: 'phases.p.change',
		says: 'row 2 (pulse) asks for 9 doses of formalin; only 1 can be given.',
		mend: 'Change half before each dose'
	},
	{
		rule: 'pulse-gap',
		trips: formalin({ lasts: '9 doses', repeat: 'every 1 d', change: 'none' }),
		near: formalin({ lasts: '9 doses', repeat: 'every 2 d', change: 'none' }),
		severity: 'caution',
		date: '2026-11-30',
		at: 'phases.p.repeat',
		says: 'row 2 (pulse) doses every 1 day; a course of formalin leaves 2 between.',
		mend: 'Dose every 2 days'
	}
];
