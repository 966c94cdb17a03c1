import { groupRows, tolerates, unsourced, type Tolerance } from '../../formulary/index.ts';
import type { Lot } from '../../run/index.ts';
import { holdLevels } from '../phases/hold.ts';
import { figure, levelText } from '../words.ts';
import { called, firstPer, giving, NEAR, type Check, type Draft, type Given, type Seen } from './check.ts';

const fishName = ({ what, group }: Lot): string => what || groupRows[group].name.toLowerCase();

/** The level a row works at: the aim of a hold, else the upper end of its level. */
function workingLevel({ phase, bottle }: Given): number | null {
	if (phase.kind === 'hold') return holdLevels(phase, bottle)?.aim ?? null;
	return (phase.level ?? bottle.medicine.level)?.high ?? null;
}

const meetings = (seen: Seen) =>
	giving(seen)
		.filter(({ phase }) => phase.kind !== 'feed')
		.flatMap((given) =>
			seen.run.lots.map((lot) => ({ given, lot, bound: tolerates(lot.group, given.bottle.row.active) }))
		);

/** A fish that does not bear the medicine. */
export const notTolerated: Check = {
	rule: 'not-tolerated',
	severity: 'stop',
	appliesTo: 'fish',
	about: 'a species group that does not bear the medicine',
	source: 'the groups of the shelf',
	find: (seen) =>
		firstPer(meetings(seen), ({ given, lot }) => `${given.phase.id} ${lot.group}`)
			.filter(({ bound }) => bound.verdict === 'never')
			.map(({ given, lot, bound }) => ({
				date: given.from,
				phase: given.phase.id,
				cell: `phases.${given.phase.id}.medicine`,
				message: `${capital(fishName(lot))} must not meet ${called(given.bottle)}.`,
				because: `${capital(bound.because)}. Choose another course, or move them out before ${given.from}.`,
				source: bound.source
			}))
};

/** A fish that takes less of it, raised slower. */
export const sensitiveFish: Check = {
	rule: 'sensitive-fish',
	severity: 'caution',
	appliesTo: 'fish',
	about: 'a sensitive group at the usual strength or the usual rise',
	source: 'the groups of the shelf',
	find: (seen) =>
		firstPer(meetings(seen), ({ given, lot }) => `${given.phase.id} ${lot.group}`).flatMap(
			({ given, lot, bound }) => tooMuch(given, lot, bound) ?? []
		),
	repairs(draft, seen) {
		const found = meetings(seen).filter(
			({ given, bound }) => given.phase.id === draft.phase && bound.verdict === 'sensitive'
		);
		const [first] = found;
		if (!first) return [];
		const { phase, bottle } = first.given;
		const aim = Math.min(...found.map(({ bound }) => bound.aim ?? Infinity));
		const ramp = Math.max(...found.map(({ bound }) => bound.rampDays ?? 0));
		const cells: Record<string, string> = {};
		if (Number.isFinite(aim))
			cells[`phases.${phase.id}.${phase.kind === 'hold' ? 'aim' : 'level'}`] = levelText(bottle, aim);
		if (phase.kind === 'hold' && ramp > 0) cells[`phases.${phase.id}.repeat`] = `ramp ${ramp} d`;
		const parts = [
			...(Number.isFinite(aim) ? [`aim at ${levelText(bottle, aim)}`] : []),
			...(ramp > 0 ? [`rise over ${ramp} days`] : [])
		];
		return parts.length > 0 ? [{ title: capital(parts.join(' and ')), cells }] : [];
	}
};

function tooMuch(given: Given, lot: Lot, bound: Tolerance): Draft | null {
	if (bound.verdict !== 'sensitive') return null;
	const { phase, bottle } = given;
	const level = workingLevel(given);
	const strong = bound.aim !== null && level !== null && level > bound.aim + RANGE_OF_AIM * bound.aim;
	const least = bound.rampDays === null ? 0 : bound.rampDays - 1;
	const ramp = phase.rampDays ?? (phase.repeat ? 1 : (bottle.row.rampDays?.value ?? 1));
	const quick = phase.kind === 'hold' && ramp < least;
	const unsaid = bound.aim === null && bound.rampDays === null;
	if (!strong && !quick && !unsaid) return null;
	const asks = [
		...(bound.aim === null ? [] : [`about ${levelText(bottle, bound.aim)}`]),
		...(phase.kind === 'hold' && bound.rampDays !== null
			? [`a rise over ${least} to ${bound.rampDays + 1} days`]
			: [])
	].join(' and ');
	const has = [
		...(strong ? [levelText(bottle, level)] : []),
		...(quick ? [`a rise over ${figure(ramp, 0)} day${ramp === 1 ? '' : 's'}`] : [])
	].join(' and ');
	return {
		severity: unsaid ? 'note' : 'caution',
		date: given.from,
		phase: phase.id,
		cell: `phases.${phase.id}.${strong ? (phase.kind === 'hold' ? 'aim' : 'level') : 'repeat'}`,
		message: unsaid
			? `${capital(fishName(lot))} take less ${called(bottle)}; nobody is known to have said how much less.`
			: `${capital(fishName(lot))} take less ${called(bottle)}, slower: phases.${phase.id} has ${has}, they are given ${asks}.`,
		because: `${capital(bound.because)}.`,
		source: bound.source
	};
}

/** The lower aim is a range (0.16 to 0.17 of copper): this share above its middle is still inside. */
const RANGE_OF_AIM = 0.03 + NEAR;

/** Nothing is known of the fish or the medicine; said once per run. */
export const toleranceUnknown: Check = {
	rule: 'tolerance-unknown',
	severity: 'note',
	appliesTo: 'fish',
	about: 'fish or medicines of which nothing is known',
	source: unsourced.J,
	find(seen) {
		const unknown = meetings(seen).filter(({ bound }) => bound.verdict === 'unknown');
		const [first] = unknown;
		if (!first) return [];
		const pairs = firstPer(
			unknown.map(({ given, lot }) => `${fishName(lot)} with ${called(given.bottle)}`),
			(pair) => pair
		);
		return [
			{
				date: null,
				phase: null,
				cell:
					first.lot.group === 'other'
						? `lots.${first.lot.id}.group`
						: `medicines.${first.given.bottle.id}.active`,
				message: `Nothing is known here of ${pairs.join(', ')}.`,
				because: 'Ask a veterinarian or someone who has kept it; begin with one fish, and watch it.'
			}
		];
	}
};

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
