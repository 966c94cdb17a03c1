import { sharing } from '../../formulary/index.ts';
import { figure } from '../words.ts';
import type { Severity } from '../plan.ts';
import {
	called,
	dosing,
	freeId,
	phaseOf,
	servicesIn,
	type Candidate,
	type Check,
	type Draft,
	type Given,
	type Seen
} from './check.ts';

/** Two medicines in the same water, by phases that overlap or by what the one before has left. */
export const sharedWater: Check = {
	rule: 'shared-water',
	severity: 'stop',
	appliesTo: 'medicine',
	about: 'medicines that may not meet, also through what is left from the phase before',
	source: 'the shelf’s table of pairs',
	find(seen) {
		const phases = dosing(seen);
		return phases.flatMap((later) =>
			phases.flatMap((earlier) => (isBefore(earlier, later) ? (meeting(seen, earlier, later) ?? []) : []))
		);
	},
	repairs(draft, seen) {
		const later = dosing(seen).find(({ phase }) => phase.id === draft.phase);
		const earlier =
			later && dosing(seen).find((other) => isBefore(other, later) && meeting(seen, other, later));
		if (!later || !earlier) return [];
		return [...behindWash(seen, earlier, later), newWash(seen, earlier, later)];
	}
};

const isBefore = (a: Given, b: Given): boolean =>
	a.bottle.index !== b.bottle.index && (a.from < b.from || (a.from === b.from && a.phase.id < b.phase.id));

function meeting(seen: Seen, earlier: Given, later: Given): Draft | null {
	const { verdict, because, source } = sharing(earlier.bottle.row.active, later.bottle.row.active);
	if (verdict === 'may') return null;
	const settled = earlier.bottle.medicine.prescribed || later.bottle.medicine.prescribed;
	if (verdict === 'unknown' && settled) return null;
	const overlap = earlier.to === null || earlier.to >= later.from;
	const left = leftAt(seen, earlier, later);
	const severity = gravityOf(
		verdict,
		overlap || left.low > earlier.bottle.clear,
		left.high > earlier.bottle.clear
	);
	if (!severity) return null;
	const unit = earlier.bottle.row.unit;
	return {
		severity,
		date: later.from,
		phase: later.phase.id,
		cell: `phases.${later.phase.id}.starts`,
		message: overlap
			? `${earlier.bottle.row.name} and ${called(later.bottle)} share water from ${later.from} on.`
			: `On ${later.from}, when ${called(later.bottle)} begins, ${figure(left.high, 3)} ${unit} of ${called(earlier.bottle)} may still be in the water; gone is ${figure(earlier.bottle.clear, 3)}.`,
		because:
			verdict === 'never'
				? `They must not meet: ${because}.`
				: `Nobody is known to have said that they may meet: ${because}. A veterinarian who knows both can settle it.`,
		source
	};
}

/** `unknown` is never more than a caution; what may be gone already counts a step less. */
function gravityOf(verdict: 'never' | 'unknown', surely: boolean, maybe: boolean): Severity | null {
	if (surely) return verdict === 'never' ? 'stop' : 'caution';
	return maybe && verdict === 'never' ? 'caution' : null;
}

/** What is left of the earlier medicine as the later one's first service finds it. */
function leftAt(seen: Seen, { bottle }: Given, later: Given): { low: number; high: number } {
	const found = servicesIn(seen).find(({ day }) => day >= later.from);
	const level = found?.before.medicinesMgPerL[bottle.id] ?? 0;
	return found?.before.band?.medicinesMgPerL?.[bottle.id] ?? { low: level, high: level };
}

/** Let the later row wait for a wash-out that the sheet has already. */
const behindWash = ({ run }: Seen, earlier: Given, later: Given): Candidate[] =>
	run.phases
		.filter(({ kind, medicine, starts }) => {
			const waitsForLater = starts && 'after' in starts && starts.after === later.phase.id;
			return kind === 'washout' && (medicine === null || medicine === earlier.bottle.id) && !waitsForLater;
		})
		.map(({ id }) => ({
			title: `Begin phases.${later.phase.id} after phases.${id}`,
			cells: startsBehind(later, id)
		}));

/** The later row on its own must renew its water itself. */
const startsBehind = ({ phase }: Given, id: string): Record<string, string> => ({
	[`phases.${phase.id}.starts`]: `after ${id}`,
	...(phase.change ? {} : { [`phases.${phase.id}.change`]: 'auto' })
});

/** Put a wash-out of the earlier medicine in between. */
function newWash(seen: Seen, earlier: Given, later: Given): Candidate {
	const id = freeId(seen, 'wash');
	const resin = phaseOf(seen, earlier.phase.id)?.resin === true;
	return {
		title: `Wash ${called(earlier.bottle)} out before phases.${later.phase.id}`,
		insert: {
			after: earlier.phase.id,
			row: {
				id,
				kind: 'washout',
				medicine: earlier.bottle.id,
				starts: `after ${earlier.phase.id}`,
				lasts: 'until clear',
				change: '50% daily',
				carbon: true,
				...(resin ? { resin } : {}),
				test: `${earlier.bottle.measuredAs} daily`
			}
		},
		cells: startsBehind(later, id)
	};
}
