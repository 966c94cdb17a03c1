import type { Fact } from '../run/index.ts';
import { litresAway } from './ammonia-away.ts';
import { OVERRIDE_MG_N_PER_L } from './change-limits.ts';
import { momentOf, type Service } from './clock.ts';
import { emergencyChange } from './emergency-change.ts';
import type { Job } from './job.ts';
import { dayOf, type Bench } from './phase-kind.ts';
import { idOf, list, STILL_TODAY_MS, take, taskOf } from './serve.ts';
import { afterAll, toxicShare, type Forecast, type NewWater } from './tank-water.ts';
import type { Active, Due, Walk } from './walk.ts';

const NEAR = 1e-9;

/** The change that toxic ammonia asks for at once. */
export interface Emergency {
	service: Service;
	change: Job;
	litres: number;
	/** what gives back to the medicines what the change takes */
	doses: Job[];
	/** jobs of the same service that the change stands for */
	instead: Due[];
}

/** What is known of the log beyond the entry at hand. */
export interface Ahead {
	/** no later service has passed: what is asked for counts as done, like the jobs of the latest service */
	current: boolean;
	/** tasks that some entry answers for */
	answered: ReadonlySet<string>;
}

/**
 * Ammonia that overrides everything asks for a change now, whatever acts, and gives back to each medicine what the
 * change takes. The job is due at the reading, and leaves once it is answered or the water is back under its limit. A
 * smaller change of the same service is part of it, a larger one does its work. Rules of long-time keepers; judgment,
 * no source.
 */
export function face(walk: Walk, entry: Fact, bench: Bench, ahead: Ahead): void {
	const { emergency } = walk;
	if (emergency && 'task' in entry && entry.task === idOf(emergency.change))
		return afterwards(walk, entry, emergency, bench, ahead);
	if (!speaks(entry, emergency !== null)) return;
	const level = toxicLevel(walk);
	if (!emergency) {
		if (!walk.readings.has('NH3') || level < OVERRIDE_MG_N_PER_L - NEAR) return;
		return ask(walk, besideServices(walk, entry.atMs), level, bench, ahead);
	}
	// what the keeper chose a moment for stands as chosen
	if (!isWaiting(walk, emergency.change)) return;
	withdraw(walk, emergency, ahead);
	if (level <= walk.run.limits.nh3MgNPerL + NEAR) return;
	const here = besideServices(walk, entry.atMs);
	// what nobody did on its day is asked for anew by what is read on another
	const isAnew = entry.kind === 'reading' && here.day !== emergency.service.day;
	ask(walk, isAnew ? here : emergency.service, level, bench, ahead);
}

/** What may change the toxic level: a reading of what it hangs on, and, while a change is asked for, any other change. */
function speaks(entry: Fact, asked: boolean): boolean {
	if (entry.kind === 'reading') return ['NH3', 'pH', 'T', 'S'].includes(entry.what);
	if (!asked) return false;
	return (
		entry.kind === 'change' || (entry.kind === 'done' && /\/(change|washout|transfer)\//.test(entry.task))
	);
}

/** Toxic ammonia in the water now, mg/L NH3-N; 0 while nobody can tell. */
function toxicLevel({ forecast: { central }, around }: Walk): number {
	return (central.tanMg / central.volumeL) * (toxicShare(central, around) ?? 0);
}

/** An instant as an hour beside the services, so that its jobs have numbers of their own. */
function besideServices({ run }: Walk, atMs: number): Service {
	return { ...momentOf(run.timeZone, atMs), slot: run.services.length, beside: true };
}

function ask(walk: Walk, service: Service, level: number, bench: Bench, ahead: Ahead): void {
	const litres = litresFor(walk, level);
	const share = litres / walk.forecast.central.volumeL;
	const routine = routineChanges(walk, service, ahead);
	const row = rowFor(walk, routine);
	if (!row || routine.some(({ job }) => (job.fraction ?? 0) >= share - NEAR)) return;
	for (const { task } of routine) take(walk, task.id);
	const change = emergencyChange({
		phase: row.phase,
		n: dayOf(service, row.from),
		litres,
		level,
		limit: walk.run.limits.nh3MgNPerL
	});
	const water: NewWater = walk.newWater();
	const thinned = afterAll(walk.forecast, { does: 'change', fraction: share, water });
	const asked: Emergency = { service, change, litres, doses: [], instead: routine };
	walk.emergency = asked;
	put(walk, change, service, walk.forecast, ahead);
	giveBack(walk, asked, service, share, thinned, bench, ahead);
}

function litresFor({ forecast: { central }, source, run }: Walk, level: number): number {
	const tanMgNPerL = central.tanMg / central.volumeL;
	return litresAway(central.volumeL, {
		tanMgNPerL,
		allowedMgNPerL: (tanMgNPerL * run.limits.nh3MgNPerL) / level,
		sourceMgNPerL: source.tanMgNPerL
	});
}

/** Of the service that runs, what is still to be changed anyway. */
const routineChanges = (walk: Walk, { atMs }: Service, { answered }: Ahead): Due[] =>
	[...walk.due.values()].filter(
		({ task, service, urgent }) =>
			!urgent &&
			(task.kind === 'change' || task.kind === 'washout') &&
			task.state === 'open' &&
			!answered.has(task.id) &&
			isOfService(service, atMs)
	);

const isOfService = (service: Service, atMs: number): boolean =>
	service.atMs <= atMs && atMs - service.atMs <= STILL_TODAY_MS;

/** The row that lends its name: of the change that it stands for, of the wash-out, or the one that began first. */
function rowFor({ active }: Walk, [routine]: readonly Due[]): Active | undefined {
	const inOrder = [...active].sort((a, b) => a.from - b.from || (a.phase.id < b.phase.id ? -1 : 1));
	return (
		inOrder.find(({ phase }) => phase.id === routine?.task.phase) ??
		inOrder.find(({ phase }) => phase.kind === 'washout') ??
		inOrder[0]
	);
}

/** What the change takes goes back in, unless a dose that still waits in the same service does it. */
function giveBack(
	walk: Walk,
	emergency: Emergency,
	service: Service,
	share: number,
	water: Forecast,
	bench: Bench,
	ahead: Ahead,
	given = ahead.answered
): void {
	for (const { phase, machine } of walk.active) {
		const jobs = machine.madeUp?.(emergency.service, share, bench) ?? [];
		if (jobs.length === 0 || dosesAnyway(walk, phase.id, emergency.service.atMs, given)) continue;
		// what had nothing to give at its turn is this dose now
		walk.open = walk.open.filter(({ job }) => job.kind !== 'dose' || job.phase !== phase.id);
		for (const job of jobs) put(walk, job, service, water, ahead);
		emergency.doses.push(...jobs);
	}
}

/** Does a dose that waits do it? One that was `given` before the change does not. */
const dosesAnyway = (walk: Walk, phase: string, atMs: number, given: ReadonlySet<string>): boolean =>
	[...walk.due.values()].some(
		({ task, service, urgent }) =>
			!urgent &&
			task.kind === 'dose' &&
			task.phase === phase &&
			task.state === 'open' &&
			!given.has(task.id) &&
			isOfService(service, atMs)
	);

function put(walk: Walk, job: Job, service: Service, water: Forecast, { current, answered }: Ahead): void {
	const deed = job.act(water, walk.newWater());
	if (!deed) return;
	const due: Due = { task: taskOf(walk, job, deed, service, 'open'), job, deed, service, urgent: true };
	walk.due.set(due.task.id, due);
	list(walk, due.task);
	if (answered.has(due.task.id)) return;
	if (!current) return walk.doubt(due);
	const open = { job, service, chosen: true };
	// doses of the service that runs go by the water that the change leaves
	if (job.kind === 'dose') walk.open.push(open);
	else walk.open.unshift(open);
}

const isWaiting = (walk: Walk, job: Job): boolean => {
	const due = walk.due.get(idOf(job));
	return due?.urgent === true && due.task.state === 'open';
};

/** Nobody has to do it any more; what it stood for is to be done again. */
function withdraw(walk: Walk, { change, doses, instead }: Emergency, { current }: Ahead): void {
	for (const job of [change, ...doses]) if (isWaiting(walk, job)) take(walk, idOf(job));
	for (const due of instead) {
		walk.due.set(due.task.id, due);
		list(walk, due.task);
		// water is changed before anything is dosed
		if (current) walk.open.unshift({ job: due.job, service: due.service });
	}
	walk.emergency = null;
}

/** The change has its answer: done, its doses are figured on the water it left, and are due now; else there are none. */
function afterwards(walk: Walk, entry: Fact, emergency: Emergency, bench: Bench, ahead: Ahead): void {
	if (entry.kind === 'choice' && (entry.taken === 'now' || entry.taken === 'now-shift')) return;
	if (entry.kind !== 'done') return withdraw(walk, emergency, ahead);
	for (const job of emergency.doses) if (isWaiting(walk, job)) take(walk, idOf(job));
	const litres = entry.amount?.value ?? emergency.litres;
	const share = Math.min(1, litres / walk.forecast.central.volumeL);
	const service = besideServices(walk, entry.atMs);
	walk.thinnedWall = service.wall;
	// what waits now and is answered later goes into the water that the change left
	const given: ReadonlySet<string> = new Set();
	giveBack(walk, { ...emergency, doses: [] }, service, share, walk.forecast, bench, ahead, given);
	walk.emergency = null;
}
