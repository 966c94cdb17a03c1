import { chores } from './chores.ts';
import { wallOfInstant, type Service } from './clock.ts';
import { gather } from './gather.ts';
import type { Deed, Job } from './job.ts';
import type { Bench } from './phase-kind.ts';
import type { Task, TaskState } from './plan.ts';
import type { History } from './replay.ts';
import { afterAll, type Effect, type Forecast } from './tank-water.ts';
import type { Due, Walk } from './walk.ts';

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
export function serve(walk: Walk, bench: Bench, service: Service, history: History, nextMs: number): Outlook {
	const outlook: Outlook = { effects: [], fixed: 0 };
	walk.sample('before', service.date);
	walk.handsWall = service.wall;
	let planned: Forecast = walk.forecast;
	const jobs = gather([
		...chores(walk, bench, service),
		...walk.active.flatMap(({ machine }) => machine.due(service, bench)),
		...[...walk.active, ...walk.lingering].flatMap(({ machine }) => machine.again?.(service, bench) ?? [])
	]);
	const by = service.atMs < history.nowMs;
	const logged = by ? entryWaits(history) : begunEarly(history, jobs);
	const passed = by || logged;
	const latest = passed && nextMs >= history.nowMs;
	for (const job of jobs) {
		const deed = agreeing(walk, job, job.act(planned, walk.newWater()), passed);
		const waits = latest && logged && !history.answered.has(idOf(job));
		if (waits) walk.open.push({ job, service });
		if (passed && asReading.includes(job.kind)) walk.figured.set(idOf(job), { job, service });
		if (!deed) continue;
		for (const effect of deed.effects) planned = afterAll(planned, effect);
		noteOutlook(outlook, job, deed, bench.plannedChange(service) !== null);
		const answered = history.answered.has(idOf(job));
		const read = walk.readTasks.has(idOf(job));
		const task = taskOf(walk, job, deed, service, read ? 'done' : unread(service, history.nowMs));
		// what waited comes again under its number, and stands in one place
		const waiting = walk.due.get(task.id);
		if (waiting?.task.state === 'open') drop(walk, waiting.task);
		const due: Due = { task, job, deed, service };
		walk.due.set(task.id, due);
		if (!passed || (latest && !answered && !logged)) {
			happen(walk, due);
			levelled(walk, bench);
		}
		// what an answer says counts from its own moment: it does not change what was done before it came
		else if (!latest && (history.answeredAt.get(task.id) ?? Infinity) >= nextMs) walk.doubt(due);
		list(walk, task);
	}
	return outlook;
}

export const entryWaits = ({ entries, next, nowMs }: History): boolean =>
	(entries[next]?.atMs ?? Infinity) <= nowMs;

/** Work that was logged before its written hour has begun the service: the log does it, as in one that has passed. */
function begunEarly(history: History, jobs: readonly Job[]): boolean {
	const entry = history.entries[history.next];
	if (!entry || !entryWaits(history) || !('task' in entry)) return false;
	return jobs.some((job) => idOf(job) === entry.task);
}

/** What nobody has answered for: still to come, or open once its written hour has passed. */
const unread = ({ atMs }: Service, nowMs: number): TaskState => (atMs < nowMs ? 'open' : 'planned');

/** A job counts as done: what it does to the water, and what it tells the phase and the tests. */
function happen(walk: Walk, { job, deed, service }: Due): void {
	walk.apply(deed.effects, service.wall);
	job.applied?.(service.atMs);
	if (job.kind === 'release') for (const stock of walk.stock) stock.count = 0;
	if (job.equipment) walk.equip(job.equipment.what, job.equipment.on);
	for (const what of job.what ?? []) {
		// the reading that answered this test before its hour is one look, not two
		if (readEarly(walk, job, what, service)) continue;
		walk.lastTest.set(what, service.wall);
		// a planned test counts as agreeing: what one low reading left in doubt is settled by it
		for (const bottle of walk.bottles) if (bottle.measuredAs === what) walk.confirm(bottle);
	}
}

/** The water has been worked on: the phases that wait for a level look at it. */
export function levelled(walk: Walk, bench: Bench): void {
	for (const { machine } of walk.active) machine.levelled?.(bench);
}

/** Did a reading answer this test before the service came? */
function readEarly(walk: Walk, job: Job, what: string, { wall }: Service): boolean {
	const read = walk.readings.get(what);
	return walk.readTasks.has(idOf(job)) && read !== undefined && read.wall > wall - 0.5;
}

/** How long the jobs of one service may take and still be that service (judgment, no source). */
export const SERVICE_MS = 3 * 3_600_000;
/** Does what is done at this moment still belong to the service before it, as that one's own jobs would? */
export const isOfService = ({ since, run }: Walk, atMs: number): boolean =>
	since !== null && run.services.includes(since.written) && atMs - since.atMs <= SERVICE_MS;
/** After this a new figure waits for the next service (judgment, no source). */
export const STILL_TODAY_MS = 12 * 3_600_000;

/**
 * The jobs of the latest service that the log does not answer yet, figured again on the water the log has left: a
 * reading just taken changes the dose that is still to come. What is no longer needed is taken off the list. `wait`:
 * entries are still to be replayed, and an emergency waits for what they say of it.
 */
export function settleOpen(walk: Walk, bench: Bench, nowMs: number, wait = false): void {
	const isLater = ({ job }: Walk['open'][number]) => wait && walk.due.get(idOf(job))?.urgent === true;
	const later = walk.open.filter(isLater);
	for (const { job, service, chosen } of walk.open.filter((one) => !isLater(one))) {
		const was = walk.due.get(idOf(job));
		if (nowMs - service.atMs > STILL_TODAY_MS) {
			if (was) happen(walk, was);
			continue;
		}
		if (was) drop(walk, was.task);
		walk.handsWall = nowMs > service.atMs ? wallOfInstant(walk.run.timeZone, nowMs) : service.wall;
		const deed = job.act(walk.forecast, walk.newWater());
		if (!deed) continue;
		const state = chosen ? 'open' : unread(service, nowMs);
		const urgent = was?.urgent ? { urgent: true as const } : {};
		const due: Due = { task: taskOf(walk, job, deed, service, state), job, deed, service, ...urgent };
		walk.due.set(due.task.id, due);
		list(walk, due.task);
		if (chosen && deed.effects.length > 0 && !isOfService(walk, service.atMs)) walk.pass(service, bench);
		happen(walk, due);
		if (deed.effects.length > 0) levelled(walk, bench);
		// as when it is logged: the work of a service takes its time, and the interval begins when it is done
		const inTime = nowMs - service.atMs <= SERVICE_MS;
		if (deed.effects.length > 0 && (chosen || inTime)) walk.startInterval();
	}
	walk.open = later;
	walk.noteExtremes();
}

/** What a reading of the same service still changes. */
const asReading: readonly Job['kind'][] = ['dose', 'washout'];

/** Of a wash-out, what a reading may take off the list: the change, and taking the carbon out. */
const mayFall: readonly Job['kind'][] = ['washout', 'equipment'];

/** What a reading leaves nothing to wash out for is nobody's work any more, nor is what would end a wash-out that goes on. */
export function withdraw(walk: Walk, atMs: number): void {
	for (const { task, job, service } of [...walk.due.values()])
		if (mayFall.includes(task.kind) && task.state === 'open' && atMs - service.atMs <= STILL_TODAY_MS)
			if (!job.act(walk.forecast, walk.newWater())) drop(walk, task);
}

/**
 * A dose, or a change of a wash-out, that is logged once its medicine was read after the service it belongs to: it was
 * done as the plan of that moment had it, figured on the reading, not as the service before the reading did.
 */
export function refigure(walk: Walk, id: string, atMs: number): void {
	const figured = walk.figured.get(id);
	if (!figured || atMs - figured.service.atMs > STILL_TODAY_MS) return;
	const { job, service } = figured;
	if (!readSince(walk, job, service) && !thinnedSince(walk, service)) return;
	const deed = job.act(walk.forecast, walk.newWater());
	if (!deed) return;
	const was = walk.due.get(id);
	if (was) drop(walk, was.task);
	const due = { ...figured, task: taskOf(walk, job, deed, service, 'open'), deed };
	walk.due.set(id, due);
	list(walk, due.task);
}

/** An emergency has changed water that its service knew nothing of. */
const thinnedSince = ({ thinnedWall }: Walk, { wall }: Service): boolean =>
	thinnedWall !== null && thinnedWall >= wall;

/** Was what the job is about read after its service? A wash-out is about every medicine that is in the water. */
function readSince(walk: Walk, { bottle }: Job, { wall }: Service): boolean {
	return (bottle ? [bottle] : walk.bottles).some(({ id, measuredAs }) => {
		const read = walk.readings.get(measuredAs) ?? walk.readings.get(id);
		return read !== undefined && read.wall >= wall;
	});
}

export function list(walk: Walk, task: Task): void {
	if (walk.recorded) walk.tasks.push(task);
	const span = walk.spans.get(task.phase);
	if (span) span.tasks++;
}

/** Off the record: it will be due again under the same number, or stands somewhere else. */
export function take(walk: Walk, task: string): void {
	walk.answer(task);
	walk.open = walk.open.filter(({ job }) => idOf(job) !== task);
	const due = walk.due.get(task);
	if (due) drop(walk, due.task);
}

export function drop(walk: Walk, task: Task): void {
	walk.tasks.splice(walk.tasks.indexOf(task), walk.tasks.includes(task) ? 1 : 0);
	walk.due.delete(task.id);
	const span = walk.spans.get(task.phase);
	if (span) span.tasks--;
}

/** A test to come in a hold whose loss was learned counts as agreeing: its dose is made up from what it finds. */
function agreeing(walk: Walk, job: Job, deed: Deed | null, passed: boolean): Deed | null {
	if (!deed || passed || !job.what || !walk.forecast.most) return deed;
	const held = walk.active.flatMap(({ phase, bottle }) =>
		bottle && phase.kind === 'hold' && job.what?.includes(bottle.measuredAs) ? [bottle] : []
	);
	return {
		...deed,
		effects: [...deed.effects, ...held.map(({ index }): Effect => ({ does: 'agree', medicine: index }))]
	};
}

export const idOf = (job: Job) => `${job.phase}/${job.kind}/${job.n}`;

function noteOutlook(outlook: Outlook, job: Job, deed: Deed, automatic: boolean): void {
	const auto = automatic && (job.kind === 'change' || job.kind === 'washout');
	if (auto) return;
	outlook.effects.push(...deed.effects);
	for (const effect of deed.effects)
		if (effect.does === 'change') outlook.fixed = Math.max(outlook.fixed, effect.fraction);
		else if (effect.does === 'renew') outlook.fixed = 1;
}

/** The task of a deed; words and dates only in the walk that is shown, they cost more than the rest of it. */
export function taskOf(walk: Walk, job: Job, deed: Deed, service: Service, state: TaskState): Task {
	const { phase, kind } = job;
	const bare = { id: idOf(job), phase, kind, amount: deed.amount, state, cautions: [] };
	if (!walk.recorded) return { ...bare, date: '', time: '', at: '', text: '', because: '' };
	const { date, time, at } = service;
	return { ...bare, date, time, at, ...deed.words() };
}
