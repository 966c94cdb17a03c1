import type { Service } from './clock.ts';
import { gather } from './gather.ts';
import type { Deed, Job } from './job.ts';
import type { Bench } from './phase-kind.ts';
import type { Task, TaskState } from './plan.ts';
import type { History } from './replay.ts';
import { after, type Effect, type Forecast } from './tank-water.ts';
import type { Walk } from './walk.ts';
import { amountText } from './words.ts';

/** Water lost to the air under this needs no topping off; a rounding remainder is no job. */
const LEAST_TOPOFF_L = 1e-9;

/** What the service did to the water as planned, apart from automatic changes: the search for changes needs it. */
export interface Outlook {
	effects: Effect[];
	/** share of the volume that jobs other than automatic changes exchanged */
	fixed: number;
}

/**
 * One service: gather what is due, put it in order, do it to the water. A service that has passed is only planned;
 * the log does it, or, for the latest one, it is taken as done where nothing is logged yet.
 */
export function serve(
	walk: Walk,
	bench: Bench,
	service: Service,
	history: History,
	latest: boolean
): Outlook {
	const passed = service.atMs < history.nowMs;
	const outlook: Outlook = { effects: [], fixed: 0 };
	walk.sample('before', service.date);
	let planned: Forecast = walk.forecast;
	const jobs = gather([
		...topoff(walk, bench, service),
		...walk.active.flatMap(({ machine }) => machine.due(service, bench)),
		...[...walk.active, ...walk.lingering].flatMap(({ machine }) => machine.again?.(service, bench) ?? [])
	]);
	for (const job of jobs) {
		const deed = job.act(planned, walk.newWater());
		if (!deed) continue;
		for (const effect of deed.effects) planned = planAll(planned, effect);
		noteOutlook(outlook, job, deed, bench.plannedChange(service) !== null);
		const answered = history.answered.has(idOf(job));
		const happens = !passed || (latest && !answered);
		if (happens) walk.apply(deed.effects);
		if (happens) job.applied?.();
		if (happens && job.what) job.what.forEach((what) => walk.lastTest.set(what, service.wall));
		if (happens) equip(walk, job);
		const state: TaskState = passed ? 'open' : 'planned';
		const task = taskOf(walk, job, deed, service, state);
		walk.due.set(task.id, { task, job, deed, service });
		if (passed && !latest && !answered && job.bottle && job.kind === 'dose') doubt(walk, job, task.id);
		if (walk.recorded) walk.tasks.push(task);
		const span = walk.spans.get(job.phase);
		if (span) span.tasks++;
	}
	walk.startInterval();
	walk.sample('after', service.date);
	return outlook;
}

const planAll = (forecast: Forecast, effect: Effect): Forecast => ({
	central: after(forecast.central, effect),
	low: after(forecast.low, effect),
	high: after(forecast.high, effect)
});

const idOf = (job: Job) => `${job.phase}/${job.kind}/${job.n}`;

function noteOutlook(outlook: Outlook, job: Job, deed: Deed, automatic: boolean): void {
	const auto = automatic && (job.kind === 'change' || job.kind === 'washout');
	if (auto) return;
	outlook.effects.push(...deed.effects);
	for (const effect of deed.effects)
		if (effect.does === 'change') outlook.fixed = Math.max(outlook.fixed, effect.fraction);
		else if (effect.does === 'renew') outlook.fixed = 1;
}

function doubt(walk: Walk, job: Job, id: string): void {
	const standing = job.bottle && walk.doubts[job.bottle.index];
	if (standing && !standing.unanswered) standing.unanswered = id;
}

/** Carbon and its kind work from the moment they are in. */
function equip(walk: Walk, job: Job): void {
	if (job.equipment) walk.equip(job.equipment.what, job.equipment.on);
}

/** The task of a deed; words and dates only in the walk that is shown, they cost more than the rest of it. */
function taskOf(walk: Walk, job: Job, deed: Deed, service: Service, state: TaskState): Task {
	const { phase, kind } = job;
	const bare = { id: idOf(job), phase, kind, amount: deed.amount, state, cautions: [] };
	if (!walk.recorded) return { ...bare, date: '', time: '', at: '', text: '', because: '' };
	const { date, time, at } = service;
	return { ...bare, date, time, at, ...deed.words() };
}

/** What evaporated goes back as fresh water, on days when somebody is there; the first active row names it. */
function topoff(walk: Walk, bench: Bench, service: Service): Job[] {
	const net = walk.run.tank.netL;
	const owner = walk.active[0];
	if (net === null || !owner || walk.run.tank.evaporatesLPerDay === 0 || bench.away(service.day)) return [];
	const litres = net - walk.forecast.central.volumeL;
	if (litres <= LEAST_TOPOFF_L) return [];
	const n = service.day - owner.from + 1;
	return [
		{
			phase: owner.phase.id,
			kind: 'topoff',
			n: service.slot === 0 ? String(n) : `${n}.${service.slot + 1}`,
			act: ({ central }) => {
				const amount = { value: net - central.volumeL, unit: 'L' as const };
				return {
					effects: [{ does: 'topoff', litres: amount.value }],
					amount,
					scale: ({ value }) => [{ does: 'topoff', litres: value }],
					words: () => ({
						text: `Top off ${amountText(amount)} of fresh water`,
						because: `Evaporation left ${amountText({ value: central.volumeL, unit: 'L' })} of ${amountText({ value: net, unit: 'L' })}; salt and medicine stayed behind, so fresh water goes in, never salt water.`
					})
				};
			}
		}
	];
}
