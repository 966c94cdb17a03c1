import { unsourced } from '../../formulary/index.ts';
import type { Bottle } from '../bottle.ts';
import {
	bottleOf,
	called,
	dayAt,
	dosing,
	during,
	logOf,
	type Candidate,
	type Check,
	type Draft,
	type Given,
	type Seen
} from './check.ts';

const takers = ['carbon', 'resin', 'uv', 'skimmer', 'ozone'] as const;
type Taker = (typeof takers)[number];
const isTaker = (what: string): what is Taker => (takers as readonly string[]).includes(what);

const takes = ({ row }: Bottle, what: Taker): boolean => row.removedBy.value.some((by) => by === what);
const named = (what: Taker) => (what === 'uv' ? 'UV' : what);

/** Carbon and its kind take a medicine out, per medicine: UV or a skimmer with ionic copper is no trouble. */
export const equipmentRuns: Check = {
	rule: 'equipment-runs',
	severity: 'stop',
	appliesTo: 'tank',
	about: 'carbon, resin, UV, skimmer or ozone running against a dose',
	source: 'what removes which medicine: the shelf',
	find: (seen) => [...fitted(seen), ...written(seen), ...putIn(seen), ...logged(seen)],
	repairs(draft): Candidate[] {
		const { cell } = draft;
		if (!cell || cell.startsWith('log.')) return [];
		const what = cell.slice(cell.lastIndexOf('.') + 1);
		if (cell.startsWith('tank.'))
			return [{ title: `Take the ${named(what as Taker)} out for the course`, cells: { [cell]: false } }];
		return [{ title: `Leave the ${what} out of phases.${draft.phase}`, cells: { [cell]: null } }];
	}
};

const against = (
	what: Taker,
	{ phase, bottle }: Pick<Given, 'phase' | 'bottle'>,
	date: string,
	cell: string,
	how: string
): Draft => ({
	date,
	phase: phase.id,
	cell,
	message: `${how} while ${called(bottle)} is given.`.replace(/^./, (first) => first.toUpperCase()),
	because: whyNot(bottle, what),
	source: bottle.row.removedBy.source
});

function whyNot(bottle: Bottle, what: Taker): string {
	if (bottle.row.active === 'copper-chelated' && (what === 'uv' || what === 'ozone'))
		return `${named(what)} breaks the chelate and frees its copper all at once.`.replace(/^./, (first) =>
			first.toUpperCase()
		);
	return `It takes ${called(bottle)} out while it is being held, and nobody can say how fast: the forecast and every dose would be wrong.`;
}

/** Fitted to the tank for the whole run. */
const fitted = (seen: Seen): Draft[] =>
	dosing(seen).flatMap((given) =>
		takers
			.filter((what) => seen.run.tank[what] && takes(given.bottle, what))
			.map((what) => against(what, given, given.from, `tank.${what}`, `${named(what)} runs in the tank`))
	);

/** Written into the very row that doses. */
const written = (seen: Seen): Draft[] =>
	dosing(seen).flatMap((given) =>
		(['carbon', 'resin'] as const)
			.filter((what) => given.phase[what] && takes(given.bottle, what))
			.map((what) =>
				against(
					what,
					given,
					given.from,
					`phases.${given.phase.id}.${what}`,
					`${what} stands in phases.${given.phase.id}`
				)
			)
	);

/** Put in by a row (a wash-out of something else) between that day and the day it comes out. */
function putIn(seen: Seen): Draft[] {
	const jobs = seen.plan.tasks.filter(({ equipment }) => equipment);
	return jobs.flatMap((job): Draft[] => {
		const what = job.equipment?.what ?? '';
		if (!job.equipment?.on || !isTaker(what)) return [];
		const out = jobs.find(({ equipment, at }) => equipment?.what === what && !equipment.on && at > job.at);
		const dose = seen.plan.tasks.find(
			({ kind, at, medicine, phase }) =>
				kind === 'dose' &&
				at >= job.at &&
				(!out || at < out.at) &&
				dosing(seen).some(
					({ phase: of, bottle }) => of.id === phase && bottle.id === medicine && takes(bottle, what)
				)
		);
		const given = dosing(seen).find(({ phase }) => phase.id === dose?.phase);
		if (!dose || !given) return [];
		return [
			{
				...against(
					what,
					given,
					dose.date,
					`phases.${job.phase}.${what}`,
					`${named(what)}, put in for phases.${job.phase} on ${job.date}, is in the water`
				),
				phase: job.phase
			}
		];
	});
}

/** Logged as put in, and not yet as taken out. */
function logged(seen: Seen): Draft[] {
	const today = dayAt(seen, seen.nowMs);
	const entries = logOf(seen).flatMap((entry) =>
		entry.kind === 'equipment' && isTaker(entry.what) ? [{ ...entry, what: entry.what }] : []
	);
	return takers.flatMap((what) => {
		const last = entries.findLast((entry) => entry.what === what);
		const given = dosing(seen).find((one) => takes(one.bottle, what) && during(today, one));
		return last?.on && given
			? [
					against(
						what,
						given,
						today,
						`log.${last.id}`,
						`${named(what)} was put in on ${dayAt(seen, last.atMs)} and runs`
					)
				]
			: [];
	});
}

/** Sand and stone of lime bind copper and give it back when the pH falls. */
export const limeWithCopper: Check = {
	rule: 'lime-with-copper',
	severity: 'stop',
	appliesTo: 'tank',
	about: 'calcareous sand or rock with a medicine that it binds',
	source: 'Angel et al. 2021: copper stays dissolved where nothing calcareous is',
	find: (seen) =>
		dosing(seen)
			.filter(
				({ bottle }) =>
					seen.run.tank.substrate === 'calcareous' &&
					(bottle.measuredAs === 'Cu' || bottle.row.removedBy.value.some((by) => by === 'calcareous'))
			)
			.map(({ phase, bottle, from }) => ({
				date: from,
				phase: phase.id,
				cell: 'tank.substrate',
				message: `Calcareous sand or rock is in the tank when ${called(bottle)} is given.`,
				because: 'It binds copper, and gives it back at once when the pH falls: no level holds.'
			})),
	repairs: () => [{ title: 'Run the tank bare', cells: { 'tank.substrate': 'none' } }]
};

/** Medicines that light breaks down. What only its bottle must be kept dark is no matter here. */
export const lightsOn: Check = {
	rule: 'lights-on',
	severity: 'caution',
	appliesTo: 'tank',
	about: 'lights on with a medicine that light breaks down',
	source: 'the light column of the shelf',
	find: (seen) =>
		dosing(seen)
			.filter(
				({ bottle }) =>
					seen.run.tank.lights === 'on' &&
					bottle.row.lightSensitive.value &&
					bottle.row.removedBy.value.some((by) => by === 'light')
			)
			.map(({ phase, bottle, from }) => ({
				date: from,
				phase: phase.id,
				cell: 'tank.lights',
				message: `The lights are on while ${called(bottle)} is given.`,
				because:
					'Light breaks it down, so the level falls faster than the forecast says; room light is enough for fish.',
				source: bottle.row.lightSensitive.source
			})),
	repairs: () => [{ title: 'Keep the lights off', cells: { 'tank.lights': 'off' } }]
};

/** Binders and reducers undo copper and blind its kit. */
export const conditionerWithCopper: Check = {
	rule: 'conditioner-with-copper',
	severity: 'stop',
	appliesTo: 'tank',
	about: 'an ammonia binder or reducing conditioner with copper',
	source: unsourced.CP,
	find: (seen) =>
		dosing(seen)
			.filter(({ bottle }) => bottle.measuredAs === 'Cu' && seen.run.tank.conditioner !== 'none')
			.map(({ phase, bottle, from }) => ({
				date: from,
				phase: phase.id,
				cell: 'tank.conditioner',
				message: `A ${seen.run.tank.conditioner === 'binder' ? 'binding' : 'reducing'} conditioner is used when ${called(bottle)} begins on ${from}.`,
				because:
					'It reduces or binds copper into a form that is more toxic or does nothing, and the kit cannot tell which.'
			})),
	repairs: () => [
		{ title: 'Use no conditioner; air or age the new water instead', cells: { 'tank.conditioner': 'none' } }
	]
};

/** Prescription-only drugs need a prescription. Only a veterinarian mends this. */
export const prescriptionMissing: Check = {
	rule: 'prescription-missing',
	severity: 'caution',
	appliesTo: 'medicine',
	about: 'a prescription-only drug without a note of the prescription',
	source: 'FDA GFI 263 for the US from 11 June 2023; local veterinary law elsewhere',
	find: (seen) =>
		seen.run.medicines.flatMap((medicine): Draft[] => {
			const phase = seen.run.phases.find((one) => one.medicine === medicine.id && one.kind !== 'washout');
			const given = phase && seen.plan.phases.find(({ id }) => id === phase.id);
			const row = bottleOf(seen, medicine.id)?.row;
			if (!row?.prescriptionOnly || medicine.prescribed || !phase) return [];
			return [
				{
					date: given?.from ?? null,
					phase: phase.id,
					cell: `medicines.${medicine.id}.prescribed`,
					message: `${row.name} is a prescription drug in many countries, and no prescription is noted.`,
					because: `${row.legal.value} A veterinarian names drug, level and length.`,
					source: row.legal.source
				}
			];
		})
};
