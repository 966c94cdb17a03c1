import { courses, medicines } from '../formulary/index.ts';
import { plan } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import type { SheetDocument } from './rows.ts';
import type { Desk } from './table.ts';

const shelf = Object.values(medicines).map(({ active, name, short }) => ({ active, name, short }));

/** An invented run of five rows, for the tests of this room. */
export const sampleDocument: SheetDocument = {
	format: 'lazaret-plan/1',
	name: 'Pier tangs',
	timeZone: 'Europe/Lisbon',
	service: '09:00',
	tank: { name: 'T', net: '200 L', temperature: '25 C', salinity: '34 ppt', pH: 8.1 },
	lots: [{ id: 'a', what: 'tang', group: 'tang', count: 2, mass: '80 g', arrived: '2026-11-27' }],
	medicines: [{ id: 'cu', active: 'copper-ionic', strength: '2 mg/mL', measure: '0.1 mL' }],
	phases: [
		{ id: 'settle', kind: 'settle', starts: 'on 2026-11-27', lasts: '3 d', test: 'NH3 daily' },
		{
			id: 'hold',
			kind: 'hold',
			medicine: 'cu',
			starts: 'after settle',
			lasts: '28 d',
			level: '0.15-0.20 mg/L'
		},
		{
			id: 'wash',
			kind: 'washout',
			medicine: 'cu',
			starts: 'after hold',
			lasts: 'until clear',
			change: '50% daily',
			carbon: true
		},
		{ id: 'watch', kind: 'observe', starts: 'after wash + 1 d', lasts: '14 d' },
		{ id: 'release', kind: 'release', starts: 'after watch' }
	]
};

/** The same, planned, on a day in its settling-in. */
export function deskOf(document: SheetDocument = sampleDocument): Desk {
	const today = '2026-11-28';
	const run = readRun(document, { today });
	return { document, plan: plan(run, '2026-11-28T10:00:00Z'), today, shelf, courses };
}
