import { unsourced } from '../../formulary/index.ts';
import { clearLevel } from '../phases/washout.ts';
import { figure, levelText } from '../words.ts';
import {
	bottlesIn,
	called,
	dayAt,
	levelIn,
	logOf,
	NEAR,
	servicesIn,
	type Check,
	type Seen
} from './check.ts';

/** Wash-outs with their days and the medicines they take out. */
function washouts(seen: Seen) {
	return seen.run.phases.flatMap((phase) => {
		const span = seen.plan.phases.find(({ id }) => id === phase.id);
		if (phase.kind !== 'washout' || !span?.from || !span.to) return [];
		const out = bottlesIn(seen).filter(({ id }) => phase.medicine === null || phase.medicine === id);
		return [{ phase, from: span.from, to: span.to, out }];
	});
}

/** A wash-out with a set length that does not get there. */
export const washoutShort: Check = {
	rule: 'washout-short',
	severity: 'caution',
	appliesTo: 'phase',
	about: 'a wash-out that ends before its medicine is gone',
	source: unsourced.J,
	find: (seen) =>
		washouts(seen).flatMap(({ phase, to, out }) => {
			const last = servicesIn(seen).findLast(({ day }) => day === to);
			const left =
				last && out.find((bottle) => levelIn(last.after, bottle) > clearLevel(phase, bottle) + NEAR);
			if (!last || !left) return [];
			return [
				{
					date: to,
					phase: phase.id,
					cell: `phases.${phase.id}.lasts`,
					message: `phases.${phase.id} ends on ${to} with ${levelText(left, levelIn(last.after, left))} of ${called(left)}; gone is ${levelText(left, clearLevel(phase, left))}.`,
					because:
						'What comes next meets what is left: half of the water changed leaves half of the medicine.',
					source: left.row.clear?.source
				}
			];
		}),
	repairs: (draft) => [
		{ title: 'Wash until it is clear', cells: { [draft.cell ?? '']: 'until clear' } },
		{
			title: 'Change half daily until it is clear',
			cells: { [draft.cell ?? '']: 'until clear', [`phases.${draft.phase}.change`]: '50% daily' }
		}
	]
};

/** Clear is a forecast and a test; the plan asks the test, the log says whether it was made. */
export const washoutUntested: Check = {
	rule: 'washout-untested',
	severity: 'caution',
	appliesTo: 'log',
	about: 'a wash-out that has ended without a reading that shows none',
	source: unsourced.CP,
	find: (seen) =>
		washouts(seen).flatMap(({ phase, from, to, out }) => {
			const today = dayAt(seen, seen.nowMs);
			const untested = out.find((bottle) => {
				const read = logOf(seen).some(
					(entry) =>
						(entry.kind === 'reading' &&
							entry.what === bottle.measuredAs &&
							dayAt(seen, entry.atMs) >= from) ||
						(entry.kind === 'done' &&
							seen.plan.tasks.some(
								({ id, what, phase: of }) =>
									id === entry.task && of === phase.id && what?.includes(bottle.measuredAs)
							))
				);
				return !read;
			});
			if (to >= today || !untested || !givenBefore(seen, untested.id, from)) return [];
			return [
				{
					date: to,
					phase: phase.id,
					cell: `phases.${phase.id}.test`,
					message: `phases.${phase.id} was over on ${to}, and no test of ${untested.measuredAs} is logged since ${from}.`,
					because: `The forecast calls ${called(untested)} gone at ${figure(clearLevel(phase, untested), 3)} ${untested.row.unit}; only a kit can show it.`
				}
			];
		})
};

/** Is the medicine on record as given before this day? What never went in needs no test to be gone. */
function givenBefore(seen: Seen, medicine: string, day: string): boolean {
	return logOf(seen).some((entry) => {
		if (entry.kind === 'dose') return entry.medicine === medicine && dayAt(seen, entry.atMs) <= day;
		if (entry.kind !== 'done') return false;
		const task = seen.plan.tasks.find(({ id }) => id === entry.task);
		return task?.kind === 'dose' && task.medicine === medicine && task.date <= day;
	});
}
