import { bottleOf, dosing, practice, type Check, type Draft, type Seen } from './check.ts';

const takers = ['carbon', 'resin', 'uv', 'skimmer', 'ozone'] as const;

/** Carbon and its kind take a medicine out, per medicine: UV or a skimmer with ionic copper is no trouble. */
export const equipmentRuns: Check = {
	rule: 'equipment-runs',
	severity: 'stop',
	about: 'carbon, resin, UV, skimmer or ozone running against a dose',
	source: 'the shelf’s list of what removes each medicine',
	find: (seen) => [
		...dosing(seen).flatMap(({ phase, bottle, from }) =>
			takers
				.filter((what) => seen.run.tank[what] && bottle.row.removedBy.value.some((by) => by === what))
				.map((what): Draft => ({
					date: from,
					phase: phase.id,
					cell: `tank.${what}`,
					message: `${name(what)} runs while ${bottle.row.name.toLowerCase()} is given.`,
					because: 'It takes the medicine out as fast as it goes in; the forecast cannot say how fast.',
					source: bottle.row.removedBy.source
				}))
		),
		...putIn(seen)
	],
	repairs: (draft) =>
		draft.cell?.startsWith('tank.')
			? [{ title: `Take the ${draft.cell.slice(5)} out for the course`, cells: { [draft.cell]: false } }]
			: draft.cell
				? [{ title: 'Leave it out on this row', cells: { [draft.cell]: null } }]
				: []
};

const name = (what: (typeof takers)[number]) =>
	what === 'uv' ? 'UV' : what.charAt(0).toUpperCase() + what.slice(1);

/** Carbon that a row puts in on a day that doses what carbon takes. */
function putIn(seen: Seen): Draft[] {
	return seen.plan.tasks.flatMap((task): Draft[] => {
		const what = task.equipment?.on ? task.equipment.what : null;
		if (what === null) return [];
		const dose = seen.plan.tasks.find((other) => other.kind === 'dose' && other.date === task.date);
		const bottle = bottleOf(seen, dose?.medicine);
		if (!dose || !bottle?.row.removedBy.value.some((by) => by === what)) return [];
		return [
			{
				date: task.date,
				phase: task.phase,
				cell: `phases.${task.phase}.${what}`,
				message: `${task.text} on the day ${bottle.row.name.toLowerCase()} is given.`,
				because: `${what} takes it out again; none goes in on a service that doses.`,
				source: bottle.row.removedBy.source
			}
		];
	});
}

/** Sand and rock of lime bind copper and give it back when the pH falls. */
export const limeWithCopper: Check = {
	rule: 'lime-with-copper',
	severity: 'stop',
	about: 'calcareous sand or rock with copper',
	source: 'Angel et al. 2021 (copper stays dissolved without calcareous matter); veterinary manual text',
	find: (seen) =>
		dosing(seen)
			.filter(({ bottle }) => bottle.measuredAs === 'Cu' && seen.run.tank.substrate === 'calcareous')
			.map(({ phase, from }) => ({
				date: from,
				phase: phase.id,
				cell: 'tank.substrate',
				message: 'Calcareous sand or rock is in a tank that is given copper.',
				because: 'It binds copper and gives it back when the pH falls: no level holds.'
			})),
	repairs: () => [{ title: 'Run it bare', cells: { 'tank.substrate': 'none' } }]
};

/** Medicines that light destroys. */
export const lightsOn: Check = {
	rule: 'lights-on',
	severity: 'caution',
	about: 'lights on with a light-sensitive medicine',
	source: 'the shelf’s note on light',
	find: (seen) =>
		dosing(seen)
			.filter(({ bottle }) => bottle.row.lightSensitive.value && seen.run.tank.lights === 'on')
			.map(({ phase, bottle, from }) => ({
				date: from,
				phase: phase.id,
				cell: 'tank.lights',
				message: `The lights are on while ${bottle.row.name.toLowerCase()} is given.`,
				because: 'Light breaks it down; room light is enough.',
				source: bottle.row.lightSensitive.source
			})),
	repairs: () => [{ title: 'Keep the lights off', cells: { 'tank.lights': 'off' } }]
};

/** Always aerate while medicating. */
export const noAir: Check = {
	rule: 'no-air',
	severity: 'stop',
	about: 'no aeration while medicating',
	source: practice,
	find: (seen) =>
		seen.run.tank.aeration === 'none'
			? dosing(seen)
					.slice(0, 1)
					.map(({ phase, bottle, from }) => ({
						date: from,
						phase: phase.id,
						cell: 'tank.aeration',
						message: `No air runs while ${bottle.row.name.toLowerCase()} is given.`,
						because: bottle.row.oxygenDemand
							? `It uses oxygen itself: ${bottle.row.oxygenDemand.value.mgPerLPerHour} mg/L an hour at ${bottle.row.oxygenDemand.value.perLevel} ${bottle.row.unit}.`
							: 'Sick fish and treated water need more oxygen than still water takes up.'
					}))
			: [],
	repairs: () => [{ title: 'Run coarse air', cells: { 'tank.aeration': 'coarse' } }]
};

/** Fine bubbles carry an oily botanical out of the water as foam. */
export const foaming: Check = {
	rule: 'foaming',
	severity: 'caution',
	about: 'fine bubbles with a medicine that foams',
	source: practice,
	find: (seen) =>
		dosing(seen)
			.filter(
				({ bottle }) =>
					bottle.row.active.startsWith('botanical') &&
					bottle.row.foams.value &&
					seen.run.tank.aeration === 'fine'
			)
			.map(({ phase, bottle, from }) => ({
				date: from,
				phase: phase.id,
				cell: 'tank.aeration',
				message: `Fine bubbles foam ${bottle.row.name.toLowerCase()} out of the water.`,
				because: 'Coarse bubbles aerate without carrying it off.',
				source: bottle.row.foams.source
			})),
	repairs: () => [{ title: 'Run coarse air', cells: { 'tank.aeration': 'coarse' } }]
};

/** Binders and reducers undo copper and blind its kit. */
export const conditionerWithCopper: Check = {
	rule: 'conditioner-with-copper',
	severity: 'stop',
	about: 'an ammonia binder or reducing conditioner with copper',
	source: practice,
	find: (seen) =>
		dosing(seen)
			.filter(({ bottle }) => bottle.measuredAs === 'Cu' && seen.run.tank.conditioner !== 'none')
			.map(({ phase, from }) => ({
				date: from,
				phase: phase.id,
				cell: 'tank.conditioner',
				message: `A ${seen.run.tank.conditioner === 'binder' ? 'binding' : 'reducing'} conditioner is used in a tank that is given copper.`,
				because:
					'It binds or reduces copper, makes it more toxic or useless, and the kit no longer tells which.'
			})),
	repairs: () => [{ title: 'Use none', cells: { 'tank.conditioner': 'none' } }]
};

/** What a kit cannot tell while a medicine or conditioner is in the water. */
export const kitDisturbed: Check = {
	rule: 'kit-disturbed',
	severity: 'note',
	about: 'tests that a medicine or conditioner in the water disturbs',
	source: 'the shelf’s list of what disturbs which kit',
	find(seen) {
		const tested = new Set(seen.run.phases.flatMap(({ test }) => test.map(({ what }) => what)));
		const binder = seen.run.tank.conditioner !== 'none' && tested.has('NH3');
		const conditioned: Draft[] = binder
			? [
					{
						date: null,
						phase: null,
						cell: 'tank.conditioner',
						message: 'A conditioner is in the water: an ammonia kit may show bound ammonia as free, or none.',
						because: 'Only a kit that its label names for such water tells the truth.',
						source: practice
					}
				]
			: [];
		const formalin = dosing(seen).find(
			({ bottle, from, to }) =>
				bottle.row.active.startsWith('formalin') &&
				seen.plan.tasks.some(
					({ what, date }) => what?.includes('NH3') && date >= from && (to === null || date <= to)
				)
		);
		const turned: Draft[] = formalin
			? [
					{
						date: formalin.from,
						phase: formalin.phase.id,
						cell: `phases.${formalin.phase.id}.test`,
						message: 'Formaldehyde turns ammonia kits false while formalin is in the water.',
						because: 'Plan changes by the forecast until it is gone.',
						source: formalin.bottle.row.disturbs.source
					}
				]
			: [];
		return [...conditioned, ...turned];
	}
};

/** Prescription-only drugs need a prescription. */
export const prescriptionMissing: Check = {
	rule: 'prescription-missing',
	severity: 'caution',
	about: 'a prescription-only drug without a note of the prescription',
	source: 'FDA GFI 263 (from 11 June 2023, US); local veterinary law elsewhere',
	find: (seen) =>
		seen.run.medicines.flatMap((medicine): Draft[] => {
			const row = bottleOf(seen, medicine.id)?.row;
			const phase = seen.run.phases.find((one) => one.medicine === medicine.id);
			if (!row?.prescriptionOnly || medicine.prescribed || !phase) return [];
			return [
				{
					date: null,
					phase: phase.id,
					cell: `medicines.${medicine.id}.prescribed`,
					message: `${row.name} is a matter for a veterinarian in many countries; no prescription is noted.`,
					because: row.legal.value,
					source: row.legal.source
				}
			];
		}),
	repairs: (draft) => [{ title: 'A vet has prescribed it: note that', cells: { [draft.cell ?? '']: true } }]
};
