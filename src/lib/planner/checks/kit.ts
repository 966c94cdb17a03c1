import { kits, unsourced, type Active } from '../../formulary/index.ts';
import { holdLevels } from '../phases/hold.ts';
import { figure, levelText, measurableName } from '../words.ts';
import {
	bottlesIn,
	called,
	dayAt,
	dosing,
	firstPer,
	levelIn,
	logOf,
	NEAR,
	servicesIn,
	type Check,
	type Draft,
	type Seen
} from './check.ts';

const holds = (seen: Seen) =>
	dosing(seen).flatMap(({ phase, bottle }) => {
		const levels = phase.kind === 'hold' ? holdLevels(phase, bottle) : null;
		return levels ? [{ phase, bottle, levels, width: levels.ceiling - levels.floor }] : [];
	});

/** A measuring tool too coarse for the window it serves. */
export const stepTooCoarse: Check = {
	rule: 'step-too-coarse',
	severity: 'note',
	appliesTo: 'medicine',
	about: 'a measuring step worth more than half the window',
	source: unsourced.J,
	find: (seen) =>
		firstPer(holds(seen), ({ bottle }) => bottle.id).flatMap(({ phase, bottle, width }) => {
			const { measure, strength } = bottle.medicine;
			const { netL } = seen.run.tank;
			if (measure === null || !strength || netL === null) return [];
			const perUnit =
				strength.form === 'liquid'
					? strength.mgPerMl
					: strength.form === 'powder'
						? strength.gPerG
						: 1000 * strength.mlPerMl;
			const step = (measure * perUnit) / netL;
			if (step <= width / 2 + NEAR) return [];
			return [
				{
					date: null,
					phase: phase.id,
					cell: `medicines.${bottle.id}.measure`,
					message: `One step of the measuring tool is ${levelText(bottle, step)} in ${figure(netL, 1)} L, more than half the window of ${levelText(bottle, width)}.`,
					because:
						'Amounts are rounded down to the step, so the level lands where the tool allows: dilute the stock, or use a finer syringe or scale.'
				}
			];
		}),
	repairs: (draft, { run }) =>
		run.medicines.flatMap(({ id, measure, strength }) =>
			draft.cell === `medicines.${id}.measure` && measure !== null
				? [
						{
							title: 'Measure ten times finer',
							cells: {
								[draft.cell]: `${figure(measure / 10, 4)} ${strength?.form === 'powder' ? 'mg' : 'mL'}`
							}
						}
					]
				: []
		)
};

/** A colour card too coarse to see the window; said once. */
export const kitTooCoarse: Check = {
	rule: 'kit-too-coarse',
	severity: 'note',
	appliesTo: 'medicine',
	about: 'a test kit whose step is more than half the window held',
	source: 'steps of kits on the shelf: from memory',
	find(seen) {
		const copper = holds(seen).find(({ bottle }) => bottle.measuredAs === 'Cu');
		if (!copper) return [];
		const as = copper.bottle.row.active === 'copper-chelated' ? 'chelated' : 'ionic';
		const steps = kits.filter((kit) => kit.what === 'Cu' && kit.as === as).map(({ step }) => step.value);
		const coarse = Math.max(...steps);
		const fine = Math.min(...steps);
		if (coarse <= copper.width / 2 + NEAR) return [];
		return [
			{
				date: null,
				phase: copper.phase.id,
				cell: `phases.${copper.phase.id}.level`,
				message: `A colour card for ${as} copper tells ${figure(coarse, 2)} mg/L apart; the window is ${figure(copper.width, 3)} wide.`,
				because:
					fine < coarse
						? `Half the window is ${figure(copper.width / 2, 3)}: a photometer (${figure(fine, 2)} mg/L) can tell where in it the level is, a card cannot.`
						: 'It can say that copper is there, hardly how much.'
			}
		];
	}
};

/** What a kit cannot tell while these are in the water (the sentences stand in the medicines’ rows). */
const disturbed: Partial<Record<Active, readonly string[]>> = {
	formalin: ['NH3'],
	'formalin-malachite': ['NH3', 'NO2', 'NO3', 'Cu', 'pH'],
	'methylene-blue': ['NH3', 'NO2', 'NO3', 'Cu', 'pH'],
	acriflavine: ['NH3', 'NO2', 'NO3', 'Cu', 'pH'],
	nitrofurazone: ['NH3', 'NO2', 'NO3', 'Cu', 'pH'],
	'hydrogen-peroxide': ['Cu']
};

/** Tests planned while something in the water makes the kit lie. */
export const kitDisturbed: Check = {
	rule: 'kit-disturbed',
	severity: 'note',
	appliesTo: 'task',
	about: 'tests that a medicine or conditioner in the water disturbs',
	source: 'what disturbs which kit: the shelf',
	find: (seen) => [...byConditioner(seen), ...byMedicine(seen)]
};

function byConditioner({ run, plan }: Seen): Draft[] {
	if (run.tank.conditioner === 'none') return [];
	const test = plan.tasks.find(({ what }) => what?.includes('NH3'));
	if (!test) return [];
	return [
		{
			date: null,
			phase: null,
			cell: 'tank.conditioner',
			message:
				'A conditioner is in the water: an ammonia kit may show bound ammonia as if it were free, or none at all.',
			because: 'Only a kit whose leaflet names such water can be believed; plan by the forecast.',
			source: unsourced.CP
		}
	];
}

function byMedicine(seen: Seen): Draft[] {
	const lying = seen.plan.tasks.flatMap((task) => {
		if (task.kind !== 'test') return [];
		const water = servicesIn(seen).find(({ before }) => before.at === task.at);
		return bottlesIn(seen).flatMap((bottle) => {
			const what = task.what?.filter((one) => disturbed[bottle.row.active]?.includes(one)) ?? [];
			return water && what.length > 0 && levelIn(water.before, bottle) > bottle.clear
				? [{ task, bottle, what }]
				: [];
		});
	});
	return firstPer(lying, ({ bottle }) => bottle.id).map(({ task, bottle, what }) => ({
		date: task.date,
		phase: task.phase,
		task: task.id,
		message: `While ${called(bottle)} is in the water, the kit for ${what.map((one) => measurableName[one] ?? one).join(' and ')} cannot be believed.`,
		because: `${capital(bottle.row.disturbs.value.join('; '))}.`,
		source: bottle.row.disturbs.source
	}));
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** Copper read on the other scale. */
export const copperScale: Check = {
	rule: 'copper-scale',
	severity: 'stop',
	appliesTo: 'log',
	about: 'a reading on the wrong copper scale, chelated against ionic',
	source: 'a free-copper kit reads chelated copper far too low: from memory',
	find(seen) {
		const bottle = bottlesIn(seen).find(({ measuredAs }) => measuredAs === 'Cu');
		if (!bottle) return [];
		const own = bottle.row.active === 'copper-chelated' ? 'chelated' : 'ionic';
		const last = logOf(seen).findLast((entry) => entry.kind === 'reading' && entry.what === 'Cu');
		if (last?.kind !== 'reading' || !last.as || last.as === own) return [];
		return [
			{
				date: dayAt(seen, last.atMs),
				phase: dosing(seen).find((given) => given.bottle === bottle)?.phase.id ?? null,
				cell: `log.${last.id}`,
				message: `The latest copper reading, ${levelText(bottle, last.value)}, is on the ${last.as} scale; the bottle holds ${own} copper.`,
				because:
					'The two scales lie several times apart and are never compared: test with the right kit, or correct the entry.'
			}
		];
	}
};
