import { stay, unsourced } from '../../formulary/index.ts';
import { dayNumber, type Day, type Phase } from '../../run/index.ts';
import type { Bottle } from '../bottle.ts';
import type { Sample } from '../plan.ts';
import { levelText } from '../words.ts';
import {
	called,
	dosing,
	freeId,
	levelIn,
	NEAR,
	phaseOf,
	servicesIn,
	type Candidate,
	type Check,
	type Draft,
	type Given,
	type Seen
} from './check.ts';

/** A medicine nobody took out: the fish are watched, or let go, in water that still holds it. */
export const stillInWater: Check = {
	rule: 'still-in-water',
	severity: 'stop',
	appliesTo: 'medicine',
	about: 'a medicine above its clear level at release, or through the clean days before it',
	source: unsourced.J,
	find: (seen) => lastGiven(seen).flatMap((given) => left(seen, given) ?? []),
	repairs(draft, seen) {
		const given = lastGiven(seen).find((one) => left(seen, one)?.phase === draft.phase);
		const next = phaseOf(seen, draft.phase);
		return given && next ? [...washLonger(seen, given), washBetween(seen, given, next)] : [];
	}
};

/** The row that gives a medicine last, where it comes to an end. */
function lastGiven(seen: Seen): (Given & { to: Day })[] {
	const all = dosing(seen).flatMap((given) => (given.to === null ? [] : [{ ...given, to: given.to }]));
	return all.filter(
		({ bottle, to, phase }) =>
			!all.some(
				(other) =>
					other.bottle === bottle && (other.to > to || (other.to === to && other.phase.id > phase.id))
			)
	);
}

/** The first row of watching or release that begins once the medicine is no longer given. */
function nextRow(seen: Seen, to: Day): { phase: Phase; from: Day } | null {
	const rows = seen.run.phases.flatMap((phase) => {
		const from = seen.plan.phases.find(({ id }) => id === phase.id)?.from;
		return from && from >= to && ['observe', 'settle', 'release'].includes(phase.kind)
			? [{ phase, from }]
			: [];
	});
	return rows.toSorted((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0))[0] ?? null;
}

function left(seen: Seen, { phase, bottle, to }: Given & { to: Day }): Draft | null {
	const next = nextRow(seen, to);
	const clear = clearOf(bottle, phase);
	if (!next || clear === null) return null;
	const watched = seen.plan.phases.filter(({ id }) => {
		const kind = seen.run.phases.find((one) => one.id === id)?.kind ?? '';
		return ['observe', 'settle', 'release'].includes(kind);
	});
	const release = seen.plan.tasks.find(({ kind }) => kind === 'release')?.date ?? null;
	const end =
		release ??
		watched
			.flatMap((span) => span.to ?? [])
			.sort()
			.at(-1);
	const found = servicesIn(seen).filter(({ day }) => end !== undefined && day >= next.from && day <= end);
	const last = found.findLast(({ before }) => surely(before, bottle) > clear + NEAR);
	const first = found[0];
	if (!last || !first || end === undefined) return null;
	const cleanDays = dayNumber(end) - dayNumber(last.day) - 1;
	const atEnd = found.at(-1) === last;
	if (!atEnd && cleanDays >= stay.cleanDays.value) return null;
	const washed = washesOf(seen, bottle).length > 0;
	return {
		severity: bottle.row.margin.value === 'wide' ? 'caution' : 'stop',
		date: next.from,
		phase: next.phase.id,
		cell: `phases.${next.phase.id}.starts`,
		message: `When phases.${next.phase.id} begins on ${next.from}, ${levelText(bottle, surely(first.before, bottle))} of ${called(bottle)} is still in the water; gone is ${levelText(bottle, clear)}.`,
		because: `${washed ? 'The wash-out does not end before it' : 'No wash-out takes it out'}: on ${last.day} it is still ${levelText(bottle, surely(last.before, bottle))}${release ? `, and release is on ${release}` : ''}. Fish that look clean in a medicine may carry what it holds down, and what lives in the display meets the rest of it.`,
		source: bottle.row.clear?.source
	};
}

/** Copper stays, as the forecast has it; of the others what is left even at the greatest loss: most fade within days. */
const surely = (sample: Sample, bottle: Bottle): number =>
	(bottle.measuredAs === 'Cu' ? undefined : sample.band?.medicinesMgPerL?.[bottle.id]?.low) ??
	levelIn(sample, bottle);

/** A tenth of what was aimed at where nobody has said more (judgment, no source). */
function clearOf(bottle: Bottle, phase: Phase): number | null {
	if (bottle.clear > 0) return bottle.clear;
	return phase.level ? phase.level.low / 10 : null;
}

const washesOf = ({ run }: Seen, bottle: Bottle): Phase[] =>
	run.phases.filter(
		({ kind, medicine }) => kind === 'washout' && (medicine === null || medicine === bottle.id)
	);

const washLonger = (seen: Seen, { bottle }: Given): Candidate[] =>
	washesOf(seen, bottle).map(({ id }) => ({
		title: 'Wash until it is clear',
		cells: { [`phases.${id}.lasts`]: 'until clear' }
	}));

/** A wash-out between the last day it is given and what comes next. */
function washBetween(seen: Seen, { phase, bottle }: Given, next: Phase): Candidate {
	const id = freeId(seen, 'wash');
	return {
		title: `Wash ${called(bottle)} out before phases.${next.id}`,
		insert: {
			after: phase.id,
			row: {
				id,
				kind: 'washout',
				medicine: bottle.id,
				starts: `after ${phase.id}`,
				lasts: 'until clear',
				change: '50% daily',
				carbon: true,
				test: `${bottle.measuredAs} daily`
			}
		},
		cells: { [`phases.${next.id}.starts`]: `after ${id}` }
	};
}
