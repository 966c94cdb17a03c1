import { bottle, formalin, log, moves, pulse, waiting, type Case } from './case.ts';

/** What a course leaves out, gaps between doses, steps and kits, prescriptions. The notation stands in `case.ts`. */
export const gapCases: readonly Case[] = [
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
