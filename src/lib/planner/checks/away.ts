import { unsourced } from '../../formulary/index.ts';
import { dayNumber, dayText, type Day, type Phase } from '../../run/index.ts';
import { holdLevels } from '../phases/hold.ts';
import type { Sample, Task } from '../plan.ts';
import { levelText } from '../words.ts';
import {
	ahead,
	called,
	dosing,
	firstPer,
	levelIn,
	NEAR,
	phaseOf,
	servicesIn,
	type Candidate,
	type Check,
	type Seen
} from './check.ts';

/** A drag can move these; everything else keeps the day its row gives it. */
const movable = ['test', 'change', 'washout', 'dose'];

/** Jobs due on a day when nobody can come. A look is made when somebody is there again. */
const missed = (seen: Seen, date: string): Task[] =>
	ahead(seen).filter((task) => task.date === date && task.state === 'planned' && task.kind !== 'observe');

/** Tests can be spared where those beside them are made, other work cannot: each is a finding of its own. */
function parts(seen: Seen, date: string): [Task, ...Task[]][] {
	const jobs = missed(seen, date);
	return [jobs.filter(({ kind }) => kind !== 'test'), jobs.filter(({ kind }) => kind === 'test')].filter(
		(part): part is [Task, ...Task[]] => part.length > 0
	);
}

/** Nobody can come, and a job falls due all the same. */
export const awayOnTask: Check = {
	rule: 'away-on-task',
	severity: 'caution',
	appliesTo: 'task',
	about: 'a job due on a day when nobody can come',
	source: unsourced.CP,
	find: (seen) =>
		firstPer(
			seen.run.away.flatMap((date) => parts(seen, date).map((jobs) => ({ date, jobs }))),
			({ jobs: [task] }) => task.id
		).map(({ date, jobs }) => {
			const [task] = jobs;
			const hand = seen.run.hands[date];
			const put = jobs.filter(({ id }) => seen.run.moves[id]?.day === date);
			const named = jobs.map(({ text }) => text.charAt(0).toLowerCase() + text.slice(1)).join(', ');
			return {
				...(hand ? { severity: 'note' as const } : {}),
				date,
				phase: task.phase,
				task: task.id,
				message: `Nobody is there on ${date}, when ${jobs.length > 1 ? `${jobs.length} jobs fall` : 'a job falls'} due: ${named}.${hand ? ` To help: ${hand}.` : ''}${put.length > 0 ? ` ${put.map(({ text }) => text).join(', ')} ${put.length > 1 ? 'were' : 'was'} moved there by hand.` : ''}`,
				because: jobs.every(({ kind }) => kind === 'test')
					? vouchedFor(seen, date, jobs)
					: 'Find a hand for that day, or move the job to a day beside it.'
			};
		}),
	repairs(draft, seen) {
		const jobs = parts(seen, draft.date ?? '').find((part) => part.some(({ id }) => id === draft.task)) ?? [];
		return [...takenBack(seen, jobs), ...moved(seen, jobs), ...shifted(seen, jobs)];
	}
};

/** A test vouches for the days that begin within 48 h of it: whether those beside the days away are near enough. */
function vouchedFor(seen: Seen, date: string, tests: readonly Task[]): string {
	const { away } = seen.run;
	const there = (by: 1 | -1) => {
		let day = dayNumber(date) + by;
		while (away.includes(dayText(day))) day += by;
		return day;
	};
	const [before, after] = [there(-1), there(1)];
	const beside = `${dayText(before)} and ${dayText(after)}`;
	return after - before <= 3
		? `A test vouches for 48 h: those of ${beside} cover it, if both are made.${fallBetween(seen, tests, dayText(before), dayText(after))}`
		: `A test vouches for 48 h: between those of ${beside} there are days that nothing vouches for. Find a hand that tests.`;
}

/** Tests cover no level that falls under its floor meanwhile. */
function fallBetween(seen: Seen, tests: readonly Task[], from: Day, to: Day): string {
	for (const { phase, bottle } of dosing(seen)) {
		const levels = phase.kind === 'hold' ? holdLevels(phase, bottle, seen.run.lots) : null;
		const tested = tests.some((test) => test.phase === phase.id && test.what?.includes(bottle.measuredAs));
		if (!levels || !tested) continue;
		const isLow = (sample: Sample | undefined) => !!sample && levelIn(sample, bottle) < levels.floor - NEAR;
		const low = servicesIn(seen).find(({ day, before }) => day > from && day <= to && isLow(before));
		if (low && !isLow(seen.plan.levels[seen.plan.levels.indexOf(low.before) - 1]))
			return ` By the forecast ${called(bottle)} falls under ${levelText(bottle, levels.floor)} by ${low.day} all the same: no day on which it does counts, unless the test of ${to} reads it inside.`;
	}
	return '';
}

/** What was moved onto the day by hand goes back to the day its row gives it. */
function takenBack({ run }: Seen, jobs: readonly Task[]): Candidate[] {
	const put = jobs.filter(({ id, date }) => run.moves[id]?.day === date);
	if (put.length === 0) return [];
	return [
		{
			title: `Leave ${put.length > 1 ? 'them' : 'it'} where ${put.length > 1 ? 'their rows have them' : 'its row has it'}`,
			cells: Object.fromEntries(put.map(({ id }) => [`moves|${id}`, null]))
		}
	];
}

/** A dose of a series has more room than a day: its checks say how much. */
const daysBeside = (jobs: readonly Task[]) =>
	jobs.every(({ kind }) => kind === 'dose') ? [-1, 1, 2, 3] : [-1, 1];

/** All jobs of the day to a day beside it where the series is not there anyway. */
function moved(seen: Seen, jobs: readonly Task[]): Candidate[] {
	if (jobs.length === 0 || !jobs.every((job) => movable.includes(job.kind) && inSeries(seen, job))) return [];
	return daysBeside(jobs).flatMap((by) => {
		const day = dayText(dayNumber(jobs[0]?.date ?? '') + by);
		// A daily job is there on the day beside anyway: moving it would only drop it.
		const doubled = seen.plan.tasks.some(
			({ phase, kind, date }) => date === day && jobs.some((job) => job.phase === phase && job.kind === kind)
		);
		if (doubled || seen.run.away.includes(day)) return [];
		return [
			{
				title: `Do ${jobs.length > 1 ? 'them' : 'it'} ${Math.abs(by) === 1 ? 'the day' : `${by} days`} ${by < 0 ? 'before' : 'after'}, on ${day}`,
				cells: Object.fromEntries(jobs.map(({ id }) => [`moves|${id}`, day]))
			}
		];
	});
}

/** Make-up doses of a hold follow the level and cannot be moved by hand. */
function inSeries(seen: Seen, { phase, kind }: Task): boolean {
	const row = phaseOf(seen, phase)?.kind;
	return kind !== 'dose' || row === 'pulse' || row === 'daily';
}

/** A move, dip or release comes a day later when its row begins a day later. */
function shifted(seen: Seen, jobs: readonly Task[]): Candidate[] {
	const [job] = jobs;
	const phase = phaseOf(seen, job?.phase ?? null);
	const own = jobs.every(({ phase: of }) => of === job?.phase);
	const starts =
		phase && own && ['transfer', 'dip', 'release'].includes(phase.kind) ? laterStart(seen, phase) : null;
	return phase && starts
		? [{ title: `Begin phases.${phase.id} a day later`, cells: { [`phases.${phase.id}.starts`]: starts } }]
		: [];
}

function laterStart({ run, plan }: Seen, { id, starts }: Phase): string | null {
	if (starts && 'after' in starts) return `after ${starts.after} + ${starts.plusDays + 1} d`;
	if (starts && 'with' in starts) return `with ${starts.with} + ${starts.plusDays + 1} d`;
	const from = plan.phases.find((span) => span.id === id)?.from;
	if (!from || run.phases.length === 0) return null;
	return `on ${dayText(dayNumber(from) + 1)}`;
}
