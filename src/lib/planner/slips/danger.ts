import type { Taken } from '../../run/index.ts';
import { bottlesOf } from '../bottle.ts';
import type { Seen } from '../checks/index.ts';
import type { Finding, Task } from '../plan.ts';
import { lifeCycleOf } from './life-cycle.ts';
import type { Use } from './slip.ts';

/** Toxic ammonia that overrides everything, mg/L NH3-N: then a change is made although a dose acts. */
const OVERRIDE_MG_N_PER_L = 0.05;
const MS_PER_HOUR = 3_600_000;

/** What no way may leave standing behind the job, be it new or not, and though a check may only call it a caution. */
const timing = new Set(['pulse-gap', 'transfer-gap', 'dose-too-soon']);

/** Two findings on the same matter and day. */
const key = ({ rule, phase, date, task }: Finding) => `${rule} ${phase} ${date} ${task}`;

interface Tried {
	task: Task;
	use: Use;
	taken: Taken;
	/** nothing of its series comes after it */
	last: boolean;
}

/**
 * Why a way is unsafe, in one sentence; null where it is not. `was` is the plan as it stands, `is` what the way makes of
 * it, `ownFaults` what was said of the plan before anything happened.
 */
export function dangerOf(
	was: Seen,
	is: Seen,
	{ task, use, taken, last }: Tried,
	ownFaults: () => readonly Finding[]
): string | null {
	if (use === 'pulse' && taken === 'skip' && last) return leavesBrood(was, task);
	return (
		noAmount(is, task, taken) ??
		newStop(was, is, task, ownFaults) ??
		(use === 'change' ? thins(was, task, taken) : null)
	);
}

/** Without its last dose a pulse never reaches what hatched since the one before. */
function leavesBrood({ run, plan }: Seen, dose: Task): string | null {
	const given = plan.tasks.some(
		({ phase, kind, id, state }) =>
			phase === dose.phase && kind === 'dose' && id !== dose.id && state !== 'missed'
	);
	return given && lifeCycleOf(run, dose)
		? 'It is the last of the doses: what hatched since the one before is never reached, and lays in its turn.'
		: null;
}

export const gives = (taken: Taken): boolean => taken === 'now' || taken === 'now-shift';

/** A dose that nobody can figure is no dose. */
function noAmount({ plan }: Seen, { id, kind }: Task, taken: Taken): string | null {
	if (kind !== 'dose' || !gives(taken)) return null;
	const now = plan.tasks.find((task) => task.id === id);
	return now && now.state === 'open' && now.amount === null ? now.because : null;
}

/** A stop that the way brings, and any wrong time from the job on. */
function newStop(
	was: Seen,
	is: Seen,
	{ phase, date }: Task,
	ownFaults: () => readonly Finding[]
): string | null {
	const standing = new Set(was.plan.findings.map(key));
	const come = is.plan.findings.filter((finding) => forbids(finding) && !standing.has(key(finding)));
	const stop =
		is.plan.findings.find(
			(finding) => timing.has(finding.rule) && finding.phase === phase && (finding.date ?? '') >= date
		) ?? (come.length === 0 ? undefined : beyond(is, come, [was.plan.findings.filter(forbids), ownFaults()]));
	return stop ? `${stop.message} ${stop.because}` : null;
}

/** That an answer leaves other doses open is no fault of it. */
const forbids = ({ severity, rule }: Finding) => severity === 'stop' && rule !== 'dose-unanswered';

/**
 * Of the stops that come, one that stood nowhere before. What the plan was told from the start is no fault of a way: it
 * shows again once the rest has its days, and moves along with them. More of a kind than ever stood, or one that comes
 * sooner, is the way's own.
 */
function beyond(
	{ plan }: Seen,
	come: readonly Finding[],
	before: readonly (readonly Finding[])[]
): Finding | undefined {
	const alike = (one: Finding) => (other: Finding) =>
		forbids(other) && other.rule === one.rule && other.phase === one.phase;
	return come.find((one) => {
		const stood = before.map((findings) => findings.filter(alike(one)));
		const most = Math.max(...stood.map(({ length }) => length));
		const soonest = stood
			.flat()
			.map(({ date }) => date ?? '')
			.sort()[0];
		return (
			plan.findings.filter(alike(one)).length > most || soonest === undefined || (one.date ?? '') < soonest
		);
	});
}

/** A change takes out a part of a dose that is still meant to act. */
function thins(was: Seen, { phase }: Task, taken: Taken): string | null {
	if (!gives(taken)) return null;
	const { run, plan, nowMs } = was;
	const ammonia = plan.levels.findLast(({ at }) => Date.parse(at) <= nowMs)?.nh3MgNPerL ?? 0;
	if (ammonia >= OVERRIDE_MG_N_PER_L) return null;
	const bottles = bottlesOf(run);
	const pulses = run.phases.filter(({ id, kind }) => kind === 'pulse' && id !== phase).map(({ id }) => id);
	const acting = plan.tasks.find(({ kind, phase: of, medicine, at, state }) => {
		const bottle = bottles.find(({ id }) => id === medicine);
		const since = (nowMs - Date.parse(at)) / MS_PER_HOUR;
		const given = state !== 'planned' && state !== 'missed';
		return (
			kind === 'dose' &&
			given &&
			bottle &&
			pulses.includes(of) &&
			since >= 0 &&
			since < bottle.contactDays * 24
		);
	});
	return acting
		? `${acting.text} of ${acting.date} still acts: a change now takes a part of it out, and toxic ammonia does not ask for one.`
		: null;
}
