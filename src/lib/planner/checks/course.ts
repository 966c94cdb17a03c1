import { methods, unsourced } from '../../formulary/index.ts';
import { dayNumber } from '../../run/index.ts';
import { figure } from '../words.ts';
import {
	bottleOf,
	called,
	dosing,
	freeId,
	giving,
	type Candidate,
	type Check,
	type Draft,
	type Given,
	type Seen
} from './check.ts';

/** Credited days after which no cyst is left to open (they open from day 3 to day 28). */
const CYST_DAYS = 28;
/** Credited days that are enough when the fish then leave the cysts behind (common practice, no source). */
const DAYS_BEFORE_MOVE = 14;

const copperHolds = (seen: Seen) =>
	dosing(seen).filter(({ phase, bottle }) => phase.kind === 'hold' && bottle.measuredAs === 'Cu');

/** Days the sheet asks to be credited, or the days between two dates where it names an end. */
function askedDays({ phase, from, to }: Given): number | null {
	if (phase.lasts && 'days' in phase.lasts) return phase.lasts.days;
	return phase.lasts && 'until' in phase.lasts && to !== null ? dayNumber(to) - dayNumber(from) : null;
}

/** Cysts outlive a short copper course when the fish stay in the same water. */
export const cystsOutlive: Check = {
	rule: 'cysts-outlive',
	severity: 'caution',
	appliesTo: 'phase',
	about: 'a copper course shorter than cysts live, without a move to a clean tank right after it',
	source: 'Colorni 1985: cysts release from day 3 to day 28',
	find: (seen) =>
		copperHolds(seen).flatMap((given) => {
			const days = askedDays(given);
			if (days === null || days >= CYST_DAYS) return [];
			const moved = movesAfter(seen, given);
			if (moved && days >= DAYS_BEFORE_MOVE) return [];
			return [
				{
					date: given.to,
					phase: given.phase.id,
					cell: `phases.${given.phase.id}.lasts`,
					message: moved
						? `${figure(days, 0)} credited days of copper before the move are too few; ${DAYS_BEFORE_MOVE} are asked.`
						: `${figure(days, 0)} credited days of copper are too few for fish that stay in the same water: cysts open up to day ${CYST_DAYS}.`,
					because: `Either ${CYST_DAYS} credited days, or ${DAYS_BEFORE_MOVE} and then a move to a clean, dry second tank with its own tools.`
				}
			];
		}),
	repairs(draft, seen) {
		const given = copperHolds(seen).find(({ phase }) => phase.id === draft.phase);
		if (!given || !draft.cell) return [];
		const longer = {
			title: `Hold it for ${CYST_DAYS} credited days`,
			cells: { [draft.cell]: `${CYST_DAYS} d` }
		};
		return [...withMove(seen, given, draft.cell), longer];
	}
};

const movesAfter = ({ run, plan }: Seen, { to }: Given): boolean =>
	plan.phases.some(
		({ id, from }) =>
			run.phases.find((phase) => phase.id === id)?.kind === 'transfer' &&
			from !== null &&
			to !== null &&
			dayNumber(from) === dayNumber(to) + 1
	);

/** A move behind the hold; what waited for the hold now waits for the move. */
function withMove(seen: Seen, given: Given, cell: string): Candidate[] {
	const { phases } = seen.run;
	const { id } = given.phase;
	if (movesAfter(seen, given))
		return [
			{ title: `Hold it for ${DAYS_BEFORE_MOVE} credited days`, cells: { [cell]: `${DAYS_BEFORE_MOVE} d` } }
		];
	const move = freeId(seen, 'move');
	const behind = phases.filter(
		({ starts }) => starts && 'after' in starts && starts.after === id && starts.plusDays === 0
	);
	const short = (askedDays(given) ?? 0) < DAYS_BEFORE_MOVE;
	return [
		{
			title: `${short ? `Hold it for ${DAYS_BEFORE_MOVE} credited days and move` : 'Move'} the fish to a clean second tank right after phases.${id}`,
			insert: { after: id, row: { id: move, kind: 'transfer', starts: `after ${id}`, lasts: '1 move' } },
			cells: {
				...(short ? { [cell]: `${DAYS_BEFORE_MOVE} d` } : {}),
				...Object.fromEntries(behind.map((phase) => [`phases.${phase.id}.starts`, `after ${move}`]))
			}
		}
	];
}

/** Other courses on record have a length too. */
export const courseShort: Check = {
	rule: 'course-short',
	severity: 'caution',
	appliesTo: 'phase',
	about: 'a course shorter than the one on record',
	source: 'the course of the shelf',
	find: (seen) => [...giving(seen).flatMap((given) => shortCourse(seen, given) ?? []), ...shortMethods(seen)],
	repairs(draft, seen) {
		const phase = seen.run.phases.find(({ id }) => id === draft.phase);
		const whole = phase && wholeCourse(seen, phase.id);
		return whole && draft.cell
			? [{ title: `Make it the whole course, ${whole}`, cells: { [draft.cell]: whole } }]
			: [];
	}
};

/** What the cell would say for the whole course; null: nothing is on record. */
function wholeCourse(seen: Seen, id: string): string | null {
	const given = giving(seen).find(({ phase }) => phase.id === id);
	const kind = seen.run.phases.find((phase) => phase.id === id)?.kind;
	if (kind === 'low-salinity') return `${methods['low-salinity'].courseDays?.value} d`;
	if (kind === 'transfer') return `${methods.transfer.moves?.value} moves`;
	if (!given) return null;
	const { days, doses } = courseOf(given);
	const inDoses = given.phase.lasts && 'doses' in given.phase.lasts && doses !== undefined;
	return inDoses ? `${doses} doses` : days === undefined ? null : `${days} d`;
}

const courseOf = ({ bottle }: Given): { days?: number; doses?: number } => {
	const course = bottle.row.course?.value ?? {};
	return {
		...course,
		...(bottle.medicine.courseDays === undefined
			? {}
			: { days: bottle.medicine.courseDays, doses: undefined })
	};
};

function shortCourse(seen: Seen, given: Given): Draft | null {
	const { phase, bottle } = given;
	if (phase.kind === 'dip' || phase.kind === 'feed' || (phase.kind === 'hold' && bottle.measuredAs === 'Cu'))
		return null;
	const { days, doses } = courseOf(given);
	const planned = seen.plan.tasks.filter(
		({ kind, id, phase: of }) => of === phase.id && kind === 'dose' && !id.includes('.')
	).length;
	const asked = askedDays(given);
	const short =
		doses !== undefined && phase.kind !== 'hold' && planned < doses && asked === null
			? { is: planned, of: `${doses} doses` }
			: days !== undefined && asked !== null && asked < days
				? { is: asked, of: `${days} days` }
				: null;
	if (!short) return null;
	return {
		date: given.to,
		phase: phase.id,
		cell: `phases.${phase.id}.lasts`,
		message: `phases.${phase.id} gives ${figure(short.is, 0)} of the ${short.of} that a course of ${called(bottle)} has on record.`,
		because: bottle.row.prescriptionOnly
			? 'A course cut short leaves survivors and breeds resistance.'
			: 'A course cut short leaves survivors, which begin again.',
		source: bottle.row.course?.source
	};
}

/** Low salinity and moves are courses without a bottle. One move is no series: it ends another course. */
function shortMethods(seen: Seen): Draft[] {
	return seen.run.phases.flatMap((phase): Draft[] => {
		const low = methods['low-salinity'].courseDays;
		const moves = methods.transfer.moves;
		const { lasts } = phase;
		const draft = (message: string, source: string): Draft => ({
			date: seen.plan.phases.find(({ id }) => id === phase.id)?.to ?? null,
			phase: phase.id,
			cell: `phases.${phase.id}.lasts`,
			message,
			because: 'Cysts that are left open later, and the fish are found again.',
			source
		});
		if (phase.kind === 'low-salinity' && lasts && 'days' in lasts && low && lasts.days < low.value)
			return [
				draft(
					`phases.${phase.id} holds low salinity for ${figure(lasts.days, 0)} of ${low.value} days.`,
					low.source
				)
			];
		if (
			phase.kind === 'transfer' &&
			lasts &&
			'moves' in lasts &&
			moves &&
			lasts.moves > 1 &&
			lasts.moves < moves.value
		)
			return [draft(`phases.${phase.id} makes ${lasts.moves} of ${moves.value} moves.`, moves.source)];
		return [];
	});
}

/** A row timed against something its medicine does not reach. */
export const targetUntreated: Check = {
	rule: 'target-untreated',
	severity: 'caution',
	appliesTo: 'phase',
	about: 'a row against a target that its medicine is on record as not treating',
	source: unsourced.J,
	find: (seen) =>
		giving(seen).flatMap(({ phase, from }) => {
			const bottle = bottleOf(seen, phase.medicine);
			const miss = phase.target && bottle?.row.doesNotTreat[phase.target];
			if (!miss || !bottle) return [];
			return [
				{
					date: from,
					phase: phase.id,
					cell: `phases.${phase.id}.target`,
					message: `${bottle.row.name} does not treat ${phase.target}, which phases.${phase.id} is meant for.`,
					because: miss.value,
					source: miss.source
				}
			];
		})
};
