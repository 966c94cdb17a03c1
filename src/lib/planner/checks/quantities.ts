import { gapDays } from '../phases/pulse.ts';
import { holdLevels } from '../phases/hold.ts';
import { unknownProduction } from '../stock.ts';
import { bottleOf, practice, type Check, type Draft, type Seen } from './check.ts';

const lacking = (cell: string, what: string, because: string, phase: string | null = null): Draft => ({
	date: null,
	phase,
	cell,
	message: `${cell}: ${what} is missing.`,
	because
});

/** A number that others hang on is not said. The planner shows none rather than guess one. */
export const quantityMissing: Check = {
	rule: 'quantity-missing',
	severity: 'caution',
	about: 'a cell that an amount or a level hangs on',
	source: 'a dose that cannot be justified is not given (rule of this planner)',
	find: (seen) => [...tankGaps(seen), ...lotGaps(seen), ...phaseGaps(seen)]
};

function tankGaps({ run: { tank, source, lots } }: Seen): Draft[] {
	const gaps: Draft[] = [];
	if (tank.netL === null)
		gaps.push({
			...lacking(
				'tank.net',
				'the true water volume',
				'Without litres there is no amount and no level; the volume on the glass is not the water in it.'
			),
			severity: 'stop'
		});
	if (tank.temperatureC === null)
		gaps.push(
			lacking(
				'tank.temperature',
				'the temperature',
				'The toxic share of ammonia and every life cycle hang on it.'
			)
		);
	if (tank.pH === null)
		gaps.push(
			lacking(
				'tank.pH',
				'the pH',
				'The toxic share of ammonia hangs on it: changes are planned by nitrate and by the week only.'
			)
		);
	if (tank.salinityPpt === null && source.salinityPpt === null)
		gaps.push(
			lacking(
				'tank.salinity',
				'the salinity',
				'The toxic share of ammonia and the salinity at release hang on it.'
			)
		);
	if (lots.length === 0)
		gaps.push({
			...lacking(
				'lots',
				'the fish',
				'An empty tank makes no ammonia: the forecast holds for water without fish.'
			),
			severity: 'note'
		});
	return gaps;
}

const lotGaps = ({ run }: Seen): Draft[] =>
	run.lots
		.filter(unknownProduction)
		.map(({ id }) =>
			lacking(
				`lots.${id}.feed`,
				'what the fish eat or weigh',
				'Nothing tells how much ammonia they make: the forecast counts none from them.'
			)
		);

function phaseGaps(seen: Seen): Draft[] {
	return seen.run.phases.flatMap((phase) => {
		const at = (key: string) => `phases.${phase.id}.${key}`;
		const gaps: Draft[] = [];
		const doses = ['hold', 'pulse', 'daily', 'dip', 'feed'].includes(phase.kind);
		const bottle = bottleOf(seen, phase.medicine);
		if (doses && !phase.medicine)
			gaps.push(lacking(at('medicine'), 'the medicine', 'Nobody can say what is to be dosed.', phase.id));
		if (bottle && doses && !bottle.medicine.strength && bottle.medicine.active !== 'fresh-water')
			gaps.push({
				...lacking(
					`medicines.${bottle.id}.strength`,
					`the strength of the bottle of ${bottle.row.name.toLowerCase()}`,
					'Milligrams are known, what to measure out is not: read it off the label.',
					phase.id
				),
				severity: 'stop'
			});
		if (bottle && doses && bottle.medicine.active !== 'fresh-water' && !levelSaid(phase, bottle))
			gaps.push({
				...lacking(
					at('level'),
					'the level',
					`${bottle.row.name} needs a level of its own; none is guessed.`,
					phase.id
				),
				severity: 'stop'
			});
		if (
			bottle &&
			phase.kind === 'pulse' &&
			phase.lasts &&
			'doses' in phase.lasts &&
			phase.lasts.doses > 1 &&
			!phase.repeat &&
			gapDays(phase, bottle, seen.run.tank.temperatureC) === null
		)
			gaps.push(
				lacking(
					at('repeat'),
					'the gap between the doses',
					'No life cycle at this temperature tells it; only the first dose is placed.',
					phase.id
				)
			);
		if (phase.kind === 'low-salinity' && !phase.level)
			gaps.push({
				...lacking(at('level'), 'the salinity to hold', 'Such as 14 ppt; none is guessed.', phase.id),
				severity: 'stop'
			});
		if (phase.kind === 'dip' && phase.bathL === null)
			gaps.push(lacking(at('bath'), 'the volume of the bath', 'A dip has a vessel of its own.', phase.id));
		if (!phase.lasts && !['washout', 'release', 'transfer', 'dip'].includes(phase.kind))
			gaps.push(
				lacking(
					at('lasts'),
					'how long it lasts',
					'It is taken as one day so that the rest can be placed.',
					phase.id
				)
			);
		return gaps;
	});
}

const levelSaid = (
	phase: Parameters<typeof holdLevels>[0],
	bottle: Parameters<typeof holdLevels>[1]
): boolean =>
	phase.kind === 'hold'
		? holdLevels(phase, bottle) !== null
		: (phase.level ?? bottle.medicine.level) !== undefined && (phase.level ?? bottle.medicine.level) !== null;

/** Said once for the whole run: without a step amounts come out finer than anything can measure. */
export const measureMissing: Check = {
	rule: 'measure-missing',
	severity: 'note',
	about: 'bottles without the smallest step of their measuring tool',
	source: practice,
	find({ run }) {
		const without = run.medicines.filter(
			({ measure, active }) => measure === null && active !== 'fresh-water'
		);
		const [first] = without;
		if (!first) return [];
		return [
			{
				date: null,
				phase: null,
				cell: `medicines.${first.id}.measure`,
				message: `No measuring step is given for ${without.map(({ id }) => id).join(', ')}: amounts are not rounded.`,
				because: 'With the smallest step of the syringe or scale, amounts are rounded down to what it can do.'
			}
		];
	},
	repairs: (_, { run }) => [
		{
			title: 'Measure liquids to 0.1 mL and powders to 10 mg',
			cells: Object.fromEntries(
				run.medicines
					.filter(({ measure, active, strength }) => measure === null && active !== 'fresh-water' && strength)
					.map(({ id, strength }) => [
						`medicines.${id}.measure`,
						strength?.form === 'powder' ? '10 mg' : '0.1 mL'
					])
			)
		}
	]
};
