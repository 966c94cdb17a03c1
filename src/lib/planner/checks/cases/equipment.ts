import { bottle, formalin, hold, log, pulse, settle, watch, type Case } from './case.ts';

/** Equipment and what stands beside a medicine. The notation stands in `case.ts`. */
export const equipmentCases: readonly Case[] = [
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
	}
];
