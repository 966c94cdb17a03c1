import { stay, unsourced } from '../../formulary/index.ts';
import { dayNumber, dayText } from '../../run/index.ts';
import { figure } from '../words.ts';
import { cleanFrom, lastArrival, lastSign, lastTrouble } from '../watch.ts';
import { dayAt, NEAR, servicesIn, type Check, type Draft, type Seen } from './check.ts';

/** Days a release on this day falls short of, by the stay in all and by clean days. */
function shortfall(seen: Seen, release: string) {
	const arrived = lastArrival(seen);
	const total = arrived ? dayNumber(release) - dayNumber(arrived) : Infinity;
	const trouble = lastTrouble(seen, release);
	const clean = trouble ? dayNumber(release) - dayNumber(trouble.day) - 1 : Infinity;
	return { arrived, total, trouble, clean };
}

/** Release only when the days are full. */
export const releaseEarly: Check = {
	rule: 'release-early',
	severity: 'caution',
	appliesTo: 'phase',
	about: 'release before 30 days in all or 14 clean days',
	source: `${stay.totalDays.source} for ${stay.totalDays.value} days; ${stay.cleanDays.value} clean days: ${stay.cleanDays.source}`,
	find(seen) {
		const task = seen.plan.tasks.find(({ kind }) => kind === 'release');
		if (!task) return [];
		const { arrived, total, trouble, clean } = shortfall(seen, task.date);
		const draft = (cell: string, message: string, because: string): Draft => ({
			date: task.date,
			phase: task.phase,
			cell,
			message,
			because
		});
		return [
			...(total < stay.totalDays.value
				? [
						draft(
							`phases.${task.phase}.starts`,
							`Release on ${task.date} is ${total} days after the arrival of ${arrived}; ${stay.totalDays.value} are the least.`,
							'Of 42 institutions asked, 95 % hold every arrival at least 30 days.'
						)
					]
				: []),
			...(trouble && clean < stay.cleanDays.value
				? [
						draft(
							`phases.${task.phase}.starts`,
							`${clean} clean ${clean === 1 ? 'day lies' : 'days lie'} between the last ${trouble.sign ? 'sign' : 'treatment'} on ${trouble.day} and release on ${task.date}; ${stay.cleanDays.value} are asked.`,
							`Each sign and each new medicine sets the watch back to its first day: it has to last until ${dayText(dayNumber(cleanFrom(trouble)) - 1)}, and ${cleanFrom(trouble)} is the first day of release.`
						)
					]
				: [])
		];
	},
	repairs(draft, seen) {
		const task = seen.plan.tasks.find(({ kind }) => kind === 'release');
		if (!task || !draft.cell) return [];
		const { total, clean } = shortfall(seen, task.date);
		const lack = Math.max(stay.totalDays.value - total, stay.cleanDays.value - clean);
		return watchLonger(seen, task.phase, lack);
	}
};

/** Lengthen the last row of watching, or let release wait. */
function watchLonger(seen: Seen, release: string, lack: number) {
	const watch = seen.run.phases.findLast(({ kind }) => kind === 'observe' || kind === 'settle');
	const days = watch?.lasts && 'days' in watch.lasts ? watch.lasts.days : null;
	const starts = seen.run.phases.find(({ id }) => id === release)?.starts;
	const plural = lack === 1 ? '' : 's';
	return [
		...(watch && days !== null
			? [
					{
						title: `Watch ${lack} day${plural} longer`,
						cells: { [`phases.${watch.id}.lasts`]: `${days + lack} d` }
					}
				]
			: []),
		...(starts && 'after' in starts
			? [
					{
						title: `Release ${lack} day${plural} later`,
						cells: { [`phases.${release}.starts`]: `after ${starts.after} + ${starts.plusDays + lack} d` }
					}
				]
			: [])
	];
}

/** Fish go into water they know. The source stands for the display where it is drawn from it. */
export const releaseSalinity: Check = {
	rule: 'release-salinity',
	severity: 'caution',
	appliesTo: 'phase',
	about: 'release into another salinity',
	source: stay.displayWithinPpt.source,
	find(seen) {
		const task = seen.plan.tasks.find(({ kind }) => kind === 'release');
		const water = task && servicesIn(seen).find(({ before }) => before.at === task.at);
		const home = seen.run.source.salinityPpt;
		const here = water?.before.salinityPpt ?? null;
		if (
			!task ||
			here === null ||
			home === null ||
			Math.abs(here - home) <= stay.displayWithinPpt.value + NEAR
		)
			return [];
		return [
			{
				date: task.date,
				phase: task.phase,
				cell: 'source.salinity',
				message: `At release on ${task.date} the tank is at ${figure(here, 1)} ppt, ${seen.run.source.name} at ${figure(home, 1)}.`,
				because: `More than ${stay.displayWithinPpt.value} ppt apart is a shock: bring the tank to it first, at most 2 ppt a day upward.`
			}
		];
	}
};

/** What the keeper must be able to vouch for on the day itself; before it, the future may still bring it. */
export const releaseOpen: Check = {
	rule: 'release-open',
	severity: 'stop',
	appliesTo: 'log',
	about: 'release on a day when jobs are overdue or signs are fresh',
	source: unsourced.J,
	find(seen) {
		const task = seen.plan.tasks.find(({ kind }) => kind === 'release');
		if (!task || dayAt(seen, seen.nowMs) < task.date || task.state === 'done') return [];
		const open = seen.plan.tasks.filter(
			({ state, at, kind }) => state === 'open' && at < task.at && mustBeAnswered.includes(kind)
		);
		const sign = lastSign(seen);
		const since = sign ? dayNumber(task.date) - dayNumber(sign) - 1 : Infinity;
		const draft = (message: string, because: string): Draft => ({
			date: task.date,
			phase: task.phase,
			task: task.id,
			message,
			because
		});
		return [
			...(open.length > 0
				? [
						draft(
							`${open.length} job${open.length > 1 ? 's are' : ' is'} unanswered before release, the first ${open[0]?.text} of ${open[0]?.date}.`,
							'Log each as done or missed: a run without its record cannot vouch for the fish.'
						)
					]
				: []),
			...(since < stay.cleanDays.value
				? [
						draft(
							`A sign was logged on ${sign}, ${since} clean day${since === 1 ? '' : 's'} before release.`,
							`Watch on until ${stay.cleanDays.value} days without a sign have passed: ${cleanFrom({ day: sign ?? task.date, sign: true })} is the first day of release.`
						)
					]
				: [])
		];
	}
};

const mustBeAnswered = ['dose', 'test', 'dip', 'transfer', 'washout'];
