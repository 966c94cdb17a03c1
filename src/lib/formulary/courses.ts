import { cite } from './citations.ts';
import type { CourseRow } from './row.ts';
import { unsourced } from './sourced.ts';
import type { Active } from './vocabulary.ts';

const settle = {
	id: 'settle',
	kind: 'settle',
	starts: 'on {day}',
	lasts: '3 d',
	change: 'auto',
	test: 'NH3 daily'
};
const watch = (after: string) => ({
	id: 'watch',
	kind: 'observe',
	starts: `after ${after}`,
	lasts: '14 d',
	change: 'auto',
	test: 'NH3 every 2 d, NO3 weekly'
});
const release = { id: 'release', kind: 'release', starts: 'after watch' };
const flukes = {
	id: 'flukes',
	kind: 'pulse',
	medicine: '{praziquantel}',
	starts: 'with copper + 3 d',
	lasts: '2 doses',
	level: '2.5 mg/L',
	repeat: 'every 7 d',
	target: 'flukes'
};
const copper = {
	id: 'copper',
	kind: 'hold',
	medicine: '{copper-ionic}',
	starts: 'after settle',
	lasts: '28 d',
	level: '0.15-0.20 mg/L',
	aim: '0.18 mg/L',
	repeat: 'ramp 3 d',
	change: 'auto',
	test: 'Cu daily, NH3 daily'
};
const washCopper = {
	id: 'wash',
	kind: 'washout',
	medicine: '{copper-ionic}',
	lasts: 'until clear',
	level: '0.02 mg/L',
	change: '50% daily',
	carbon: true,
	test: 'Cu daily'
};

/** Ready courses. Every one ends with 14 days of watching and comes to 30 days or more. */
export const courses: readonly CourseRow[] = [
	{
		id: 'copper-and-flukes',
		name: 'Copper for 28 days, two fluke doses inside it',
		about: 'Bony fish without signs that stay in one tank. Reaches white spot, velvet and flukes.',
		medicines: ['copper-ionic', 'praziquantel'],
		phases: [settle, copper, flukes, { ...washCopper, starts: 'after copper' }, watch('wash'), release],
		mark: 'P',
		source: `${cite.colorni1985} for the 28 days; the rest ${unsourced.CP}`
	},
	{
		id: 'copper-and-move',
		name: 'Copper for 14 days, then into a clean second tank',
		about:
			'Shorter in copper, because the fish leave the cysts behind. Needs a second, dry tank with its own tools.',
		medicines: ['copper-ionic', 'praziquantel'],
		phases: [
			settle,
			{ ...copper, lasts: '14 d' },
			{ ...flukes, starts: 'with copper + 3 d' },
			{ id: 'move', kind: 'transfer', starts: 'after copper', lasts: '1 move' },
			watch('move'),
			release
		],
		mark: 'CP',
		source: unsourced.CP
	},
	{
		id: 'ciliate-bath',
		name: 'Formalin against ciliate skin disease',
		about:
			'Clownfish with a whitish haze: no settling in, formalin at once, alone in the water, strong air, not above 26 °C.',
		medicines: ['formalin'],
		phases: [
			{
				id: 'formalin',
				kind: 'pulse',
				medicine: '{formalin}',
				starts: 'on {day}',
				lasts: '3 doses',
				level: '25 ppm',
				repeat: 'every 2 d',
				change: '50% before dose',
				target: 'brooklynella',
				test: 'NH3 daily'
			},
			{
				id: 'wash',
				kind: 'washout',
				medicine: '{formalin}',
				starts: 'after formalin',
				lasts: 'until clear',
				level: '1.5 ppm',
				change: '50% daily',
				carbon: true
			},
			{ ...watch('wash'), lasts: '26 d' },
			release
		],
		mark: 'P',
		source: `${cite.vm77} for the level; three doses on alternate days ${unsourced.M}`
	},
	{
		id: 'antibacterial',
		name: 'Antibacterial course',
		about:
			'Frayed fins, sores, cloudy eyes. Prescription: the veterinarian names drug, level and length; these are placeholders to be overwritten by the prescription.',
		medicines: ['kanamycin'],
		phases: [
			{
				id: 'antibiotic',
				kind: 'pulse',
				medicine: '{kanamycin}',
				starts: 'on {day}',
				lasts: '3 doses',
				level: '50 mg/L',
				repeat: 'every 3 d',
				change: '25% before dose',
				target: 'bacteria',
				test: 'NH3 daily'
			},
			{
				id: 'wash',
				kind: 'washout',
				medicine: '{kanamycin}',
				starts: 'after antibiotic',
				lasts: 'until clear',
				level: '5 mg/L',
				change: '50% daily',
				carbon: true,
				test: 'NH3 daily'
			},
			{ ...watch('wash'), lasts: '23 d' },
			release
		],
		mark: 'M',
		source: unsourced.M
	},
	{
		id: 'low-salinity',
		name: 'Low salinity for 28 days',
		about:
			'Bony fish that bear no copper, against white spot and skin flukes. Never with velvet, sharks, rays or invertebrates.',
		medicines: [],
		phases: [
			settle,
			{
				id: 'low',
				kind: 'low-salinity',
				starts: 'after settle',
				lasts: '28 d',
				level: '12-14 ppt',
				rise: '2 ppt/d',
				change: 'auto',
				test: 'S daily, pH daily, NH3 daily'
			},
			watch('low'),
			release
		],
		mark: 'P',
		source: `${cite.cheung1979} for 16 ppt and less; 12 to 14 ppt and 28 days ${unsourced.CP}`
	},
	{
		id: 'tank-transfer',
		name: 'Four moves, three days apart',
		about:
			'White spot only, without any medicine. Needs two tanks, each dried between. Says nothing to velvet or flukes.',
		medicines: [],
		phases: [
			{
				id: 'moves',
				kind: 'transfer',
				starts: 'on {day}',
				lasts: '4 moves',
				repeat: 'every 3 d',
				target: 'cryptocaryon',
				test: 'NH3 daily'
			},
			{ ...watch('moves'), lasts: '21 d' },
			release
		],
		mark: 'P',
		source: cite.colorni1985
	},
	{
		id: 'observe-only',
		name: 'Watch for thirty days',
		about: 'No medicine: for fish that bear none, and for those who treat only what they see.',
		medicines: [],
		phases: [
			{
				id: 'watch',
				kind: 'observe',
				starts: 'on {day}',
				lasts: '30 d',
				change: 'auto',
				test: 'NH3 every 2 d, NO3 weekly'
			},
			release
		],
		mark: 'P',
		source: cite.hadfield2011
	}
];

/**
 * The rows of a course for one plan file: `{day}` becomes the first day (`YYYY-MM-DD`), each active in braces
 * the id its medicine has in the file. Throws when an id is missing: the caller knows `course.medicines`.
 */
export function coursePhases(
	course: CourseRow,
	day: string,
	ids: Partial<Record<Active, string>>
): Record<string, string | boolean>[] {
	const fill = (text: string): string =>
		text.replace(/\{([a-z-]+)\}/g, (_, key: string) => {
			const value = key === 'day' ? day : ids[key as Active];
			if (value === undefined) throw new Error(`course ${course.id} needs an id for ${key}`);
			return value;
		});
	return course.phases.map((phase) =>
		Object.fromEntries(
			Object.entries(phase).map(([key, value]) => [key, typeof value === 'string' ? fill(value) : value])
		)
	);
}
