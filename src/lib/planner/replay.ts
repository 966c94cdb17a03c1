import { dayText, type Choice, type Fact } from '../run/index.ts';
import { activeIn } from './bottle.ts';
import { choose, type Turning } from './choose.ts';
import { dayOfInstant, momentOf, wallOfInstant, type Service } from './clock.ts';
import { face } from './emergency.ts';
import { learn, type Lessons } from './fit/lessons.ts';
import { hear } from './hear.ts';
import { meet } from './meet.ts';
import type { Bench } from './phase-kind.ts';
import type { Amount, TaskState } from './plan.ts';
import { isOfService, levelled, refigure, SERVICE_MS, withdraw } from './serve.ts';
import { amountText } from './words.ts';
import { freshWater, type Effect } from './tank-water.ts';
import type { Due, Walk } from './walk.ts';

/** The log on its way through the march. */
export interface History {
	entries: readonly Fact[];
	/** first entry not yet replayed */
	next: number;
	/** tasks that some entry answers for */
	answered: ReadonlySet<string>;
	/** when somebody first said what became of a task */
	answeredAt: ReadonlyMap<string, number>;
	/** what the readings teach; null: nothing is learned */
	lessons: Lessons | null;
	nowMs: number;
}

export function historyOf(entries: readonly Fact[], nowMs: number, lessons: Lessons | null): History {
	return { entries, next: 0, ...answersIn(entries), lessons, nowMs };
}

/** A choice still to be replayed may begin a phase anew that seems over. */
export const choicesAhead = ({ entries, next, nowMs }: History): boolean =>
	entries.slice(next).some(({ kind, atMs }) => kind === 'choice' && atMs <= nowMs);

function answersIn(entries: readonly Fact[]): Pick<History, 'answered' | 'answeredAt'> {
	const answered = new Set<string>();
	const answeredAt = new Map<string, number>();
	const done = new Set<string>();
	for (const entry of entries) {
		if (!('task' in entry) || entry.task === undefined) continue;
		const { kind, task, atMs } = entry;
		// wanting to give a dose is not having given it: the choice opens the question again
		if (kind === 'choice' && (entry.taken === 'now' || entry.taken === 'now-shift')) {
			if (!done.has(task)) answered.delete(task);
			continue;
		}
		if (kind !== 'choice' && kind !== 'missed') done.add(task);
		answered.add(task);
		if (!answeredAt.has(task)) answeredAt.set(task, atMs);
	}
	return { answered, answeredAt };
}

/**
 * Let the log move the water up to a service (all of it when null), each entry at its own time. An entry for a job
 * of the coming service that was logged early waits for that service: the job has to be due before it can be done.
 */
export function replayUntil(walk: Walk, history: History, service: Service | null, bench: Bench): void {
	for (; history.next < history.entries.length; history.next++) {
		const entry = history.entries[history.next];
		if (!entry || entry.atMs > history.nowMs) return;
		if (service && entry.atMs >= service.atMs) return;
		if (service && waitsFor(entry, walk, service)) return;
		retell(walk, entry, history, service, bench);
	}
}

/**
 * What was logged before the written hour of the service it belongs to, once that service has made its jobs due: it is
 * done there, once. A choice is about the service after it.
 */
export function replayEarly(walk: Walk, history: History, service: Service, bench: Bench): void {
	if (service.atMs < history.nowMs) return;
	for (; history.next < history.entries.length; history.next++) {
		const entry = history.entries[history.next];
		if (!entry || entry.atMs > history.nowMs || entry.kind === 'choice') return;
		if (waitsFor(entry, walk, service)) return;
		retell(walk, entry, history, service, bench);
	}
}

function retell(walk: Walk, entry: Fact, history: History, next: Service | null, bench: Bench): void {
	const current = next === null || next.atMs >= history.nowMs;
	const { answered } = history;
	arrive(walk, entry, history.lessons);
	replay(walk, entry, bench, {
		next,
		current,
		answered: 'task' in entry && entry.task !== undefined && answered.has(entry.task)
	});
	face(walk, entry, bench, { current, answered });
	if (history.lessons && entry.kind === 'reading') learn(walk, history.lessons, entry);
}

/** Early work: the keeper stood at the tank before the written time. */
const EARLY_MS = 12 * 3_600_000;

function waitsFor(entry: Fact, walk: Walk, service: Service): boolean {
	// what was read stands at its own time; only work has to be due before it can be done
	if (entry.kind !== 'done' && entry.kind !== 'missed') return false;
	return !walk.due.has(entry.task) && service.atMs - entry.atMs < EARLY_MS;
}

/** The water comes to the moment of an entry. */
function arrive(walk: Walk, entry: Fact, lessons: Lessons | null): void {
	const day = dayOfInstant(walk.run.timeZone, entry.atMs);
	walk.ageTo(Math.max(entry.atMs, walk.atMs), day);
	if (entry.kind === 'reading' && lessons) meet(walk, entry, lessons);
	walk.sample('between', dayText(day));
}

function replay(walk: Walk, entry: Fact, bench: Bench, turning: Turning): void {
	const zone = walk.run.timeZone;
	const wall = wallOfInstant(zone, entry.atMs);
	const day = dayOfInstant(zone, entry.atMs);
	walk.handsWall = wall;
	if (entry.kind === 'done') refigure(walk, entry.task, entry.atMs);
	const effects = effectsOf(walk, entry);
	const late = isLate(walk, entry);
	if (late) walk.pass(momentOf(zone, entry.atMs), bench);
	walk.apply(effects, wall);
	if (effects.length > 0) levelled(walk, bench);
	if (late) walk.startInterval();
	if (entry.kind === 'choice') choose(walk, entry, bench, turning);
	else settle(walk, entry, wall, bench);
	walk.noteExtremes();
	walk.sample('between', dayText(day));
}

/**
 * A dose given so late, or at a moment the keeper chose beside the services, that the hours without it count for themselves; and a change
 * that an emergency asked for between the services.
 */
function isLate(walk: Walk, entry: Fact): boolean {
	const due = entry.kind === 'done' ? walk.due.get(entry.task) : undefined;
	if (due?.job.kind !== 'dose') return due?.urgent === true;
	return due.chosen ? !isOfService(walk, entry.atMs) : entry.atMs - due.service.atMs > SERVICE_MS;
}

/** What an entry does to the water. */
function effectsOf(walk: Walk, entry: Fact): Effect[] {
	switch (entry.kind) {
		case 'done':
			return doneEffects(walk, entry);
		case 'change': {
			const volumeL = walk.forecast.central.volumeL;
			const fraction = Math.min(1, entry.fraction ?? (entry.litres ?? 0) / volumeL);
			return [{ does: 'change', fraction, water: entry.source === 'fresh' ? freshWater : walk.newWater() }];
		}
		case 'dose': {
			const bottle = walk.bottles.find(({ id }) => id === entry.medicine);
			return bottle ? [{ does: 'dose', medicine: bottle.index, active: activeIn(bottle, entry.amount) }] : [];
		}
		case 'topoff':
			return [{ does: 'topoff', litres: toTheBrim(walk, entry.litres) }];
		default:
			return [];
	}
}

/** Topping off brings the tank back to its volume, never over it. */
const toTheBrim = (walk: Walk, litres: number): number =>
	walk.netL === null ? 0 : Math.max(0, Math.min(litres, walk.netL - walk.forecast.central.volumeL));

function doneEffects(walk: Walk, entry: Extract<Fact, { kind: 'done' }>): Effect[] {
	const due = walk.due.get(entry.task);
	if (!due) return unplanned(walk, entry);
	if (entry.amount && due.deed.scale) return due.deed.scale(entry.amount, walk.forecast);
	return due.deed.effects;
}

/** A job that an earlier plan asked for and this one does not: what was done counts all the same. */
function unplanned(walk: Walk, entry: Extract<Fact, { kind: 'done' }>): Effect[] {
	const [phaseId, kind] = entry.task.split('/');
	const { amount } = entry;
	if (!amount) return [];
	if (kind === 'change' || kind === 'washout')
		return [
			{
				does: 'change',
				fraction: Math.min(1, amount.value / walk.forecast.central.volumeL),
				water: walk.newWater()
			}
		];
	if (kind === 'topoff') return [{ does: 'topoff', litres: amount.value }];
	const phase = walk.run.phases.find(({ id }) => id === phaseId);
	const bottle = walk.bottles.find(({ id }) => id === phase?.medicine);
	return kind === 'dose' && bottle
		? [{ does: 'dose', medicine: bottle.index, active: activeIn(bottle, amount) }]
		: [];
}

/** What an entry changes beside the water. */
function settle(walk: Walk, entry: Exclude<Fact, Choice>, wall: number, bench: Bench): void {
	switch (entry.kind) {
		case 'done':
		case 'missed':
			return answer(walk, entry, wall);
		case 'reading':
			if (entry.task) {
				mark(walk, entry.task, 'done');
				walk.readTasks.add(entry.task);
			}
			hear(walk, entry, wall);
			return withdraw(walk, entry.atMs);
		case 'loss':
			return count(walk, entry.lot, -entry.count);
		case 'equipment':
			return walk.equip(entry.what, entry.on);
		case 'fish':
			return join(walk, entry, bench);
		case 'observation':
			if (entry.task) mark(walk, entry.task, 'done');
			return feed(walk, entry, bench);
	}
}

/** What was seen of the appetite stands for the food of that day. */
function feed(walk: Walk, entry: Extract<Fact, { kind: 'observation' }>, bench: Bench): void {
	const word = entry.appetite ?? (entry.signs.includes('off-feed') ? 'refused' : null);
	if (word === null) return;
	const day = dayOfInstant(bench.run.timeZone, entry.atMs);
	for (const stock of walk.stock)
		if (entry.lot === undefined || stock.lot.id === entry.lot) stock.fed = { day, word };
}

function answer(walk: Walk, entry: Extract<Fact, { kind: 'done' | 'missed' }>, wall: number): void {
	walk.answer(entry.task);
	const due = walk.due.get(entry.task);
	if (!due) return;
	if (entry.kind === 'missed') return mark(walk, entry.task, 'missed');
	const inTime = entry.atMs - due.service.atMs <= SERVICE_MS;
	due.job.applied?.(inTime ? due.service.atMs : entry.atMs);
	// the work of a service takes its time: the interval begins when it is done
	if (inTime) walk.startInterval();
	if (due.job.equipment) walk.equip(due.job.equipment.what, due.job.equipment.on);
	due.job.what?.forEach((what) => walk.lastTest.set(what, wall));
	mark(walk, entry.task, doneState(walk, due, entry));
	if (entry.amount) restate(due, entry.amount);
}

/** The task says what was really given. */
function restate({ task, deed }: Due, given: Amount): void {
	const planned = deed.amount;
	task.amount = { ...given };
	if (!planned || planned.value <= 0) return;
	task.text = task.text.replace(amountText(planned), amountText(given));
	if (planned.unit !== given.unit) {
		delete task.raises;
		return;
	}
	if (task.fraction !== undefined) task.fraction *= given.value / planned.value;
	const { raises } = task;
	if (raises)
		task.raises = { ...raises, to: raises.from + ((raises.to - raises.from) * given.value) / planned.value };
}

function doneState(walk: Walk, due: Due, entry: Extract<Fact, { kind: 'done' }>): TaskState {
	const planned = due.deed.amount;
	if (entry.amount && planned && entry.amount.value < planned.value - 1e-9) return 'partly';
	const next = [...walk.due.values()].find(({ service }) => service.atMs > due.service.atMs);
	return next && entry.atMs >= next.service.atMs ? 'late' : 'done';
}

function mark(walk: Walk, task: string, state: TaskState): void {
	const due = walk.due.get(task);
	if (due) due.task.state = state;
}

function count(walk: Walk, lot: string, change: number): void {
	const stock = walk.stock.find((s) => s.lot.id === lot);
	if (stock) stock.count = Math.max(0, stock.count + change);
}

function join(walk: Walk, entry: Extract<Fact, { kind: 'fish' }>, bench: Bench): void {
	if (entry.lot)
		walk.stock.push({
			lot: entry.lot,
			arrives: dayOfInstant(bench.run.timeZone, entry.atMs),
			count: entry.lot.count
		});
	else count(walk, entry.lotId, entry.count);
	const joined = entry.lot !== undefined || entry.count > 0;
	if (joined && entry.restart) for (const { machine } of walk.active) machine.restart?.();
}
