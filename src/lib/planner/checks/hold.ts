import { holdLevels } from '../phases/hold.ts';
import { figure, levelText } from '../words.ts';
import { dosing, practice, type Check, type Draft, type Seen } from './check.ts';

const COLORNI = 'Colorni 1985, Dis. Aquat. Org. 1:19-22';
/** Credited days after which no tomont is left to hatch (published range of release: day 3 to 28). */
const CYST_DAYS = 28;
const holds = (seen: Seen) => dosing(seen).filter(({ phase }) => phase.kind === 'hold');

/** After the rise a hold should never be under its floor. */
export const belowFloor: Check = {
	rule: 'below-floor',
	severity: 'caution',
	about: 'a hold that falls under its floor after it was once inside',
	source: 'below the window copper does nothing (veterinary manual text; common practice)',
	find: (seen) =>
		holds(seen).flatMap(({ phase, bottle, from, to }): Draft[] => {
			const levels = holdLevels(phase, bottle);
			if (!levels) return [];
			const during = seen.plan.levels.filter(
				({ date, when }) => when !== 'between' && date >= from && (to === null || date <= to)
			);
			const inside = during.findIndex(
				({ medicinesMgPerL }) => (medicinesMgPerL[bottle.id] ?? 0) >= levels.floor
			);
			const low =
				inside < 0
					? undefined
					: during
							.slice(inside)
							.find(({ medicinesMgPerL }) => (medicinesMgPerL[bottle.id] ?? 0) < levels.floor);
			if (!low) return [];
			const level = low.medicinesMgPerL[bottle.id] ?? 0;
			return [
				{
					date: low.date,
					phase: phase.id,
					cell: `phases.${phase.id}.level`,
					message: `${bottle.row.name} falls to ${levelText(bottle, level)} on ${low.date}, under the floor of ${levelText(bottle, levels.floor)}.`,
					because:
						'Time under the floor earns no credit, and a break of a day or more starts the course again.'
				}
			];
		})
};

/** A hold must be seen by a test, or nobody knows whether it holds. */
export const holdUntested: Check = {
	rule: 'hold-untested',
	severity: 'caution',
	about: 'a hold whose tests leave more than 48 hours unseen',
	source: practice,
	find: (seen) =>
		holds(seen).flatMap(({ phase, bottle }): Draft[] => {
			const within = bottle.row.testWithinHours;
			if (!within) return [];
			const rules = phase.test.filter(({ what }) => what === bottle.measuredAs || what === bottle.id);
			const rare = rules.every(
				({ repeat }) => 'everyDays' in repeat && repeat.everyDays * 24 > within.value + 24
			);
			if (rules.length > 0 && !rare) return [];
			return [
				{
					date: null,
					phase: phase.id,
					cell: `phases.${phase.id}.test`,
					message:
						rules.length === 0
							? `${phase.id} has no test of ${bottle.measuredAs}: no day of it can be credited.`
							: `${phase.id} tests ${bottle.measuredAs} too rarely: a test vouches for ${within.value} h.`,
					because: 'A day counts only when the last test is at most 48 h old at its start.'
				}
			];
		}),
	repairs(draft, seen) {
		const found = holds(seen).find(({ phase }) => phase.id === draft.phase);
		if (!found) return [];
		const others = found.phase.test
			.filter(({ what }) => what !== found.bottle.measuredAs)
			.map(({ what }) => `${what} daily`);
		return [
			{
				title: `Test ${found.bottle.measuredAs} daily`,
				cells: {
					[`phases.${found.phase.id}.test`]: [`${found.bottle.measuredAs} daily`, ...others].join(', ')
				}
			}
		];
	}
};

/** Cysts outlive a short copper course when the fish stay in the same water. */
export const cystsOutlive: Check = {
	rule: 'cysts-outlive',
	severity: 'caution',
	about: 'a copper course shorter than the cysts live, without a move to a clean tank after it',
	source: COLORNI,
	find: (seen) =>
		holds(seen).flatMap(({ phase, bottle }): Draft[] => {
			const days = phase.lasts && 'days' in phase.lasts ? phase.lasts.days : null;
			if (bottle.measuredAs !== 'Cu' || days === null || days >= CYST_DAYS) return [];
			const next = seen.run.phases.find(
				({ starts }) => starts && 'after' in starts && starts.after === phase.id
			);
			if (next?.kind === 'transfer' && days >= 14) return [];
			return [
				{
					date: null,
					phase: phase.id,
					cell: `phases.${phase.id}.lasts`,
					message: `${figure(days, 0)} credited days of copper in water where the fish then stay are too few: cysts release up to day ${CYST_DAYS}.`,
					because: 'Either 28 credited days, or 14 and a move to a clean, dry second tank with its own tools.'
				}
			];
		}),
	repairs: ({ phase }) => [
		{ title: 'Hold it for 28 credited days', cells: { [`phases.${phase}.lasts`]: '28 d' } }
	]
};

/** Other courses on record have a length too. */
export const courseShort: Check = {
	rule: 'course-short',
	severity: 'caution',
	about: 'a course shorter than the one on record',
	source: 'the shelf’s course',
	find: (seen) =>
		dosing(seen).flatMap(({ phase, bottle }): Draft[] => {
			const course = bottle.row.course;
			if (!course || bottle.measuredAs === 'Cu') return [];
			const { days, doses } = course.value;
			const wanted = bottle.medicine.courseDays ?? days;
			const lasts = phase.lasts;
			const short =
				lasts && 'doses' in lasts && doses !== undefined && lasts.doses < doses
					? `${lasts.doses} of ${doses} doses`
					: lasts && 'days' in lasts && wanted !== undefined && lasts.days < wanted
						? `${figure(lasts.days, 0)} of ${wanted} days`
						: null;
			if (!short) return [];
			return [
				{
					date: null,
					phase: phase.id,
					cell: `phases.${phase.id}.lasts`,
					message: `${phase.id} gives ${short} of the course of ${bottle.row.name.toLowerCase()} on record.`,
					because: 'A course cut short leaves survivors, and with antibacterials it breeds resistance.',
					source: course.source
				}
			];
		}),
	repairs(draft, seen) {
		const found = dosing(seen).find(({ phase }) => phase.id === draft.phase);
		const course = found?.bottle.row.course?.value;
		if (!found || !course) return [];
		const text =
			found.phase.lasts && 'doses' in found.phase.lasts
				? `${course.doses} doses`
				: `${found.bottle.medicine.courseDays ?? course.days} d`;
		return [{ title: `Give the whole course: ${text}`, cells: { [`phases.${draft.phase}.lasts`]: text } }];
	}
};
