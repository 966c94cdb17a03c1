import { unsourced } from '../../formulary/index.ts';
import type { Band, Phase } from '../../run/index.ts';
import { isUnlabelled, type Bottle } from '../bottle.ts';
import { dipMinutes } from '../phases/dip.ts';
import { holdLevels } from '../phases/hold.ts';
import { gapDays } from '../phases/pulse.ts';
import type { Severity } from '../plan.ts';
import { unknownProduction } from '../stock.ts';
import { bottleOf, called, firstPer, type Check, type Draft, type Seen } from './check.ts';

/** A stop where an amount cannot be given, a caution where only the forecast or a check is blind. */
const lacking = (
	severity: Severity,
	cell: string,
	what: string,
	because: string,
	phase: string | null = null
): Draft => ({
	severity,
	date: null,
	phase,
	cell,
	message: `${capital(what)} is missing${phase && cell.startsWith('phases.') ? ` in phases.${phase}` : ''}.`,
	because
});

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** A number that others hang on is not said. The planner shows none rather than guess one. */
export const quantityMissing: Check = {
	rule: 'quantity-missing',
	severity: 'stop',
	appliesTo: 'run',
	about: 'a cell that an amount, a level or a check hangs on and that is empty',
	source: 'a dose that cannot be justified is not given (judgment, no source)',
	find: (seen) =>
		firstPer(
			[...tankGaps(seen), ...lotGaps(seen), ...seen.run.phases.flatMap((p) => phaseGaps(seen, p))],
			({ cell }) => cell ?? ''
		)
};

function tankGaps({ run: { tank, source, lots } }: Seen): Draft[] {
	const gaps: Draft[] = [];
	if (tank.netL === null)
		gaps.push(
			lacking(
				'stop',
				'tank.net',
				'the true water volume',
				'Without litres there is no amount and no level; the volume on the glass is not the water in it.'
			)
		);
	if (tank.temperatureC === null)
		gaps.push(
			lacking(
				'caution',
				'tank.temperature',
				'the temperature',
				'The toxic share of ammonia and the life cycle of every parasite hang on it.'
			)
		);
	if (tank.pH === null)
		gaps.push(
			lacking(
				'caution',
				'tank.pH',
				'the pH',
				'Without it nobody can say how much of the ammonia is toxic (5 % at pH 8.0 and 25 °C, 1.4 % at 7.5): changes follow nitrate and the week only.'
			)
		);
	if (tank.salinityPpt === null && source.salinityPpt === null)
		gaps.push(
			lacking(
				'caution',
				'tank.salinity',
				'the salinity',
				'The toxic share of ammonia, salinity steps and the match at release hang on it.'
			)
		);
	if (lots.length === 0)
		gaps.push(
			lacking(
				'note',
				'lots',
				'the list of fish',
				'An empty tank makes no ammonia: the forecast holds for water without fish.'
			)
		);
	return gaps;
}

const lotGaps = ({ run }: Seen): Draft[] =>
	run.lots
		.filter(unknownProduction)
		.map(({ id, what }) =>
			lacking(
				'caution',
				`lots.${id}.feed`,
				`what ${what || id} eat or weigh`,
				'Nothing tells how much ammonia they make, so the forecast counts none from them.'
			)
		);

const doses = ['hold', 'pulse', 'daily', 'dip', 'feed'];
const endsByItself = ['washout', 'release', 'transfer', 'dip'];

function phaseGaps(seen: Seen, phase: Phase): Draft[] {
	const at = (key: string) => `phases.${phase.id}.${key}`;
	const gaps: Draft[] = [];
	const bottle = bottleOf(seen, phase.medicine);
	if (doses.includes(phase.kind) && !bottle)
		gaps.push(
			lacking('stop', at('medicine'), 'the medicine', 'Nobody can say what is to be dosed.', phase.id)
		);
	if (bottle && doses.includes(phase.kind)) gaps.push(...bottleGaps(seen, phase, bottle));
	if (phase.kind === 'low-salinity' && !phase.level)
		gaps.push(
			lacking('stop', at('level'), 'the salinity to hold', 'Such as 14 ppt; none is guessed.', phase.id)
		);
	if (phase.kind === 'dip' && phase.bathL === null)
		gaps.push(
			lacking(
				'stop',
				at('bath'),
				'the volume of the bath',
				'A dip has a vessel of its own; its litres give the amount.',
				phase.id
			)
		);
	if (!phase.lasts && !endsByItself.includes(phase.kind))
		gaps.push(
			lacking(
				'caution',
				at('lasts'),
				'how long it lasts',
				'It is taken as one day or one dose, so that the rows behind it can be placed.',
				phase.id
			)
		);
	return gaps;
}

function bottleGaps(seen: Seen, phase: Phase, bottle: Bottle): Draft[] {
	const { tank, lots } = seen.run;
	const at = (key: string) => `phases.${phase.id}.${key}`;
	const gaps: Draft[] = [];
	const say = (severity: Severity, cell: string, what: string, because: string) =>
		gaps.push(lacking(severity, cell, what, because, phase.id));
	const fresh = bottle.medicine.active === 'fresh-water';
	if (!bottle.medicine.strength && !fresh)
		say(
			'stop',
			`medicines.${bottle.id}.strength`,
			`the strength of the bottle of ${called(bottle)}`,
			'Milligrams can be told, what to measure out cannot: read it off the label.'
		);
	const bath = phase.kind === 'dip' && bottle.row.bath;
	if (isUnlabelled(bottle) && phase.kind !== 'feed' && !bath)
		say(
			'stop',
			`medicines.${bottle.id}.ceiling`,
			`the ceiling of this bottle of ${called(bottle)}`,
			'Only its label says how much fish bear; a level in a row alone justifies no dose. Type the ceiling, or the range the label gives.'
		);
	if (!fresh && !levelSaid(phase, bottle))
		say('stop', at('level'), `the level of ${called(bottle)}`, levelAdvice(phase, bottle));
	if (phase.kind === 'dip' && dipMinutes(phase, bottle) === null)
		say(
			'caution',
			at('lasts'),
			'the length of the dip',
			'A bath without an end kills: write minutes, such as 45 min, one row for each dip.'
		);
	if (phase.kind === 'feed' && lots.some(({ feedGPerDay }) => feedGPerDay === null))
		say(
			'stop',
			`lots.${lots.find(({ feedGPerDay }) => feedGPerDay === null)?.id}.feed`,
			'the mass of food a day',
			'The medicine is weighed per gram of food.'
		);
	const more = phase.lasts && 'doses' in phase.lasts && phase.lasts.doses > 1;
	if (phase.kind === 'pulse' && more && !phase.repeat && gapDays(phase, bottle, tank.temperatureC) === null)
		say(
			'stop',
			at('repeat'),
			'the gap between the doses',
			'No life cycle at this temperature tells it: only the first dose is placed.'
		);
	return gaps;
}

const levelSaid = (phase: Phase, bottle: Bottle): boolean =>
	phase.kind === 'hold'
		? holdLevels(phase, bottle) !== null || isRange(phase.level ?? bottle.medicine.level)
		: (phase.level ?? bottle.medicine.level ?? null) !== null;

const isRange = (level: Band | null | undefined) => !!level && level.low < level.high;

function levelAdvice(phase: Phase, bottle: Bottle): string {
	if (phase.kind === 'hold' && (phase.level ?? bottle.medicine.level))
		return 'A single figure needs a window around it: write a range such as 0.15-0.20 mg/L.';
	return bottle.window
		? `Write it in the row: ${bottle.window.low} to ${bottle.window.high} ${bottle.row.unit} is the usual window; none is taken unasked.`
		: `Only the label of the bottle can say; ${called(bottle)} has no level of its own.`;
}

/** Said once for the whole run: without a step amounts come out finer than anything can measure. */
export const measureMissing: Check = {
	rule: 'measure-missing',
	severity: 'note',
	appliesTo: 'medicine',
	about: 'bottles without the smallest step of their measuring tool',
	source: unsourced.CP,
	find(seen) {
		const without = seen.run.medicines.filter(
			({ measure, active }) => measure === null && active !== 'fresh-water'
		);
		const names = without.map(({ id }) => {
			const bottle = bottleOf(seen, id);
			return bottle ? called(bottle) : id;
		});
		const [first] = without;
		if (!first) return [];
		return [
			{
				date: null,
				phase: null,
				cell: `medicines.${first.id}.measure`,
				message: `No measuring step is given for ${names.join(', ')}: amounts are not rounded.`,
				because: 'With the smallest step of the syringe or scale, amounts are rounded down to what it can do.'
			}
		];
	},
	repairs: (_, { run }) => [
		{
			title: 'Measure liquids to 0.1 mL and powders to 10 mg',
			cells: Object.fromEntries(
				run.medicines
					.filter(({ measure, active }) => measure === null && active !== 'fresh-water')
					.map(({ id, strength }) => [
						`medicines.${id}.measure`,
						strength?.form === 'powder' ? '10 mg' : '0.1 mL'
					])
			)
		}
	]
};
