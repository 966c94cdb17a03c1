import { unsourced } from '../../formulary/index.ts';
import type { Fact } from '../../run/index.ts';
import type { Bottle } from '../bottle.ts';
import { holdLevels } from '../phases/hold.ts';
import type { Sample } from '../plan.ts';
import { amountText, figure, levelText } from '../words.ts';
import {
	bottlesIn,
	called,
	dosing,
	during,
	levelIn,
	logOf,
	NEAR,
	phaseOf,
	sampleNow,
	type Check,
	type Seen
} from './check.ts';

/** What was logged as poured in cannot wait for the next service, whether it is true or a slip of the pen. */
export const overNow: Check = {
	rule: 'over-now',
	severity: 'stop',
	appliesTo: 'log',
	about: 'a level over its ceiling by what was logged as given, now',
	source: unsourced.J,
	find(seen) {
		const last = sampleNow(seen);
		if (!last) return [];
		return bottlesIn(seen).flatMap((bottle) => {
			const { ceiling } = bottle;
			const level = levelIn(last, bottle);
			if (ceiling === null || level <= ceiling + NEAR || !givenLast(seen, bottle)) return [];
			return [
				{
					date: last.date,
					phase:
						dosing(seen).find((given) => given.bottle === bottle && during(last.date, given))?.phase.id ??
						null,
					message: `By what is logged ${called(bottle)} stands at ${levelText(bottle, level)} now, over its ceiling of ${levelText(bottle, ceiling)}.`,
					because: `If so much went in: air first, then change ${changeDown(seen, bottle, last)} of matched water at once, with nothing to make up for it, look at the fish and read the level. If a change went before it, log that too; if it is a slip of the pen, correct the entry.`
				}
			];
		});
	}
};

/** Was it last given, rather than read? A reading over the ceiling is told by its own rule. */
function givenLast(seen: Seen, bottle: Bottle): boolean {
	const speaks = (entry: Fact): boolean =>
		entry.kind === 'reading'
			? entry.what === bottle.measuredAs || entry.what === bottle.id
			: isDose(seen, bottle, entry);
	const last = logOf(seen).findLast(speaks);
	return last !== undefined && last.kind !== 'reading';
}

function isDose(seen: Seen, bottle: Bottle, entry: Fact): boolean {
	if (entry.kind === 'dose') return entry.medicine === bottle.id;
	if (entry.kind !== 'done') return false;
	const [phase = '', kind] = entry.task.split('/');
	return kind === 'dose' && phaseOf(seen, phase)?.medicine === bottle.id;
}

/** The water that takes it back to where it should stand: the aim of a hold, else the ceiling. */
function changeDown(seen: Seen, bottle: Bottle, last: Sample): string {
	const hold = dosing(seen).find(({ phase, bottle: of }) => of === bottle && phase.kind === 'hold');
	const target = (hold && holdLevels(hold.phase, bottle)?.aim) ?? bottle.ceiling ?? 0;
	const fraction = 1 - target / levelIn(last, bottle);
	const share = `${figure(fraction * 100, 0)} %`;
	if (seen.run.tank.netL === null) return share;
	return `${amountText({ value: fraction * last.volumeL, unit: 'L' })} (${share})`;
}
