import {
	coursePhases,
	medicines as shelf,
	type Active,
	type CourseRow,
	type Group
} from '../formulary/index.ts';
import type { Day } from '../run/index.ts';
import { freeId, type PhaseRow, type SheetDocument } from './rows.ts';

/** What the short form asks about a new arrival; texts with units as the plan file keeps them, '' where unknown. */
export interface Arrival {
	name: string;
	tank: string;
	net: string;
	temperature: string;
	salinity: string;
	pH: string;
	what: string;
	group: Group;
	count: number;
	mass: string;
	arrived: Day;
	timeZone: string;
	/** wall-clock time of the daily service, `HH:MM` */
	service: string;
}

const known = (pairs: Record<string, unknown>): Record<string, unknown> =>
	Object.fromEntries(Object.entries(pairs).filter(([, value]) => value !== '' && value !== undefined));

/** The steps a keeper's syringe or scale usually has; said in the sheet, to be corrected there. */
const usualStep = (active: Active): string =>
	// what dissolves badly comes as a powder
	shelf[active].dissolvesGPerL !== null ? '10 mg' : '0.1 mL';

/** The bottles a course needs, under ids made of their signs. Strengths are left open: only the label knows them. */
function bottles(course: CourseRow): { id: string; active: Active; measure: string }[] {
	const made: { id: string; active: Active; measure: string }[] = [];
	for (const active of course.medicines) {
		const id = freeId(
			shelf[active].short,
			made.map((bottle) => bottle.id)
		);
		made.push({ id, active, measure: usualStep(active) });
	}
	return made;
}

/** A plan file for fish that arrive: tank, lot, the bottles of the chosen course and its rows. */
export function arrivalDocument(arrival: Arrival, course: CourseRow): SheetDocument {
	const medicines = bottles(course);
	const ids = Object.fromEntries(medicines.map(({ id, active }) => [active, id]));
	const pH = arrival.pH === '' ? '' : Number(arrival.pH);
	return {
		format: 'lazaret-plan/1',
		name: arrival.name,
		timeZone: arrival.timeZone,
		service: arrival.service,
		tank: known({
			name: arrival.tank,
			net: arrival.net,
			temperature: arrival.temperature,
			salinity: arrival.salinity,
			pH,
			aeration: 'coarse',
			substrate: 'none'
		}),
		source: known({ name: 'new salt water', salinity: arrival.salinity }),
		lots: [
			known({
				id: 'a',
				what: arrival.what,
				group: arrival.group,
				count: arrival.count,
				mass: arrival.mass,
				arrived: arrival.arrived
			})
		],
		medicines,
		phases: coursePhases(course, arrival.arrived, ids) as PhaseRow[]
	};
}

/** What a run is called until somebody names it: `Banded cardinalfish, Q2`. */
export const tankName = (what: string, tank: string): string =>
	[what.charAt(0).toUpperCase() + what.slice(1), tank].filter(Boolean).join(', ') || 'New run';
