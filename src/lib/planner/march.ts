import { dayNumber, dayText, readLog, type Phase, type Run } from '../run/index.ts';
import { choicesAhead, historyOf, replayEarly, replayUntil, type History } from './replay.ts';
import { carryOver, closeChance, find, type Chance } from './chance.ts';
import type { Schedule } from './changes.ts';
import { dayOfInstant, instantOfWall, instantText, momentKey, servicesOf, type Service } from './clock.ts';
import { believe, type Lessons } from './fit/lessons.ts';
import { phaseKindRows } from './phases/index.ts';
import type { Bench } from './phase-kind.ts';
import { hoursBeside } from './put.ts';
import { LONGEST_PLAN_DAYS } from './recurrence.ts';
import { entryWaits, serve, settleOpen } from './serve.ts';
import { Walk, type Active } from './walk.ts';

export interface March {
	walk: Walk;
	/** where an automatic change could be made, for the search of the fewest */
	chances: Chance[];
	/** the plan was cut at its longest */
	cut: boolean;
	/** phases that could not be placed, or that will never end */
	unplaced: string[];
}

/**
 * Walk from service to service: start what begins, let the water age, do what is due, end what is full. Before
 * `nowMs` only the log moves the water. Pure: the same arguments give the same walk.
 */
export function march(
	run: Run,
	nowMs: number,
	schedule: Schedule,
	recorded: boolean,
	lessons: Lessons | null = null
): March | null {
	const begins = firstDay(run, nowMs);
	if (begins === null) return null;
	const walk = new Walk(run, begins, recorded);
	const log = readLog(run.log);
	const history = historyOf(log, nowMs, lessons);
	const chances: Chance[] = [];
	const bench = walk.bench((service) => schedule.get(momentKey(service)) ?? null);
	const stage = { walk, bench, waiting: [...run.phases], stuck: [] as string[] };
	const beside = hoursBeside(run);
	const ofDay = (at: number) => servicesOf(run.timeZone, at, run.services, beside(at));
	let before: Service | null = null;
	let day = begins;

	for (; day - begins < LONGEST_PLAN_DAYS; day++) {
		const services = ofDay(day);
		for (const service of services) {
			// nothing has begun before the run's first service
			if (service.beside && !before) continue;
			replayUntil(walk, history, service, bench);
			settleOpen(walk, bench, nowMs, service.atMs >= nowMs && entryWaits(history));
			// what was logged since the last service may have taken credit away
			if (before && before.atMs < nowMs) earnedSoFar(walk);
			believe(walk, service.atMs);
			const carry = carryOver(walk, before, service);
			arrive(walk, before, service, bench);
			// a hold that is full ends here: what it earned up to now is known before it leaves
			if (service.atMs < nowMs) earnedSoFar(walk);
			if (service.slot === 0) turnOver(stage, service);
			const found = find(walk, service);
			const outlook = serve(walk, bench, service, history, nextMs(service, services, ofDay));
			const future = service.atMs >= nowMs;
			if (future) {
				replayEarly(walk, history, service, bench);
				settleOpen(walk, bench, nowMs);
			}
			walk.startInterval();
			walk.sample('after', service.date);
			chances.push(closeChance(walk, service, { carry, found, outlook, away: bench.away(day), future }));
			before = service;
		}
		endDay(stage, services.at(-1), history);
		if (walk.met) break;
		if (walk.active.length === 0 && !canStillStart(stage, day) && !choicesAhead(history)) break;
	}
	replayUntil(walk, history, null, bench);
	settleOpen(walk, bench, nowMs);
	return {
		walk,
		chances,
		cut: day - begins >= LONGEST_PLAN_DAYS,
		unplaced: [...stage.waiting.map(({ id }) => id), ...stage.stuck]
	};
}

interface Stage {
	walk: Walk;
	bench: Bench;
	waiting: Phase[];
	stuck: string[];
}

/** The first day any phase names; a run that names none begins when its fish arrive. Null: there is nothing to plan. */
export function firstDay(run: Run, nowMs: number): number | null {
	if (run.phases.length === 0) return null;
	const fixed = run.phases.flatMap(({ starts }) => (starts && 'on' in starts ? [dayNumber(starts.on)] : []));
	if (fixed.length > 0) return Math.min(...fixed);
	const arrivals = run.lots.flatMap(({ arrived }) => (arrived ? [dayNumber(arrived)] : []));
	return arrivals.length > 0
		? Math.min(...arrivals)
		: run.phases[0]?.starts || !Number.isFinite(nowMs)
			? null
			: dayOfInstant(run.timeZone, nowMs);
}

/** The day a waiting phase begins; null while what it waits for is not known. A row without a start follows the row above. */
function startDay(phase: Phase, { walk }: Stage): number | null {
	const { phases } = walk.run;
	const starts = phase.starts ?? defaultStart(phases, phase, walk.begins);
	if ('on' in starts) return dayNumber(starts.on);
	const spanDay = (id: string, end: 'from' | 'to') => {
		const day = walk.spans.get(id)?.[end];
		return day ? dayNumber(day) : null;
	};
	if ('after' in starts) {
		const to = spanDay(starts.after, 'to');
		return to === null ? null : to + 1 + starts.plusDays;
	}
	const from = spanDay(starts.with, 'from');
	return from === null ? null : from + starts.plusDays;
}

function defaultStart(phases: readonly Phase[], phase: Phase, begins: number) {
	const above = phases[phases.indexOf(phase) - 1];
	return above ? { after: above.id, plusDays: 0 } : { on: dayText(begins) };
}

/** Let the water age to a service and tell the phases what passed. */
function arrive(walk: Walk, before: Service | null, service: Service, bench: Bench): void {
	if (!before) {
		walk.ageTo(service.atMs, service.day);
		walk.pass(service, bench);
		return walk.startInterval();
	}
	walk.ageTo(service.atMs, before.day);
	walk.pass(service, bench);
}

/** At a day's first service: end what yesterday filled, drop what will never end, start what is due. */
function turnOver(stage: Stage, service: Service): void {
	const { walk, bench } = stage;
	walk.lingering = walk.lingering.filter(({ machine }) => machine.acting?.(service));
	walk.active = walk.active.filter(({ phase, machine }) => {
		if (machine.endedBefore?.(service, bench)) {
			close(walk, phase.id, service.day - 1, machine.credit?.());
			return false;
		}
		if (!machine.stuck?.(service, bench)) return true;
		stage.stuck.push(phase.id);
		note(walk, phase.id, machine.credit?.());
		return false;
	});
	let started = true;
	while (started) {
		started = false;
		for (const phase of [...stage.waiting]) {
			const from = startDay(phase, stage);
			if (from === null || from > service.day) continue;
			stage.waiting.splice(stage.waiting.indexOf(phase), 1);
			begin(stage, phase, Math.max(from, walk.begins));
			started = true;
		}
	}
	walk.active.sort((a, b) => order(walk.run, a) - order(walk.run, b));
}

const order = (run: Run, { phase }: Active) => run.phases.indexOf(phase);

function begin({ walk, bench }: Stage, phase: Phase, from: number): void {
	const bottle = walk.bottles.find(({ id }) => id === phase.medicine) ?? null;
	const machine = phaseKindRows[phase.kind].begin(phase, bottle, from, bench);
	const active = { phase, bottle, from, machine };
	walk.active.push(active);
	walk.begun.set(phase.id, active);
	walk.spans.set(phase.id, { id: phase.id, from: dayText(from), to: null, tasks: 0 });
}

function note(walk: Walk, id: string, creditedDays: number | undefined): void {
	const span = walk.spans.get(id);
	if (span && creditedDays !== undefined) walk.spans.set(id, { ...span, creditedDays });
}

function earnedSoFar(walk: Walk): void {
	for (const { phase, machine } of walk.active) {
		const creditedSoFar = machine.credit?.();
		const span = walk.spans.get(phase.id);
		if (!span || creditedSoFar === undefined) continue;
		const { pausesUntil: _, ...rest } = span;
		const until = machine.pausesUntil?.() ?? null;
		const pauses =
			until === null ? {} : { pausesUntil: instantText(instantOfWall(walk.run.timeZone, until)) };
		walk.spans.set(phase.id, { ...rest, creditedSoFar, ...pauses });
	}
}

function close(walk: Walk, id: string, day: number, creditedDays: number | undefined): void {
	note(walk, id, creditedDays);
	const span = walk.spans.get(id);
	if (span) walk.spans.set(id, { ...span, to: dayText(Math.max(day, dayNumber(span.from ?? dayText(day)))) });
}

function endDay({ walk, bench }: Stage, last: Service | undefined, history: History): void {
	if (!last) return;
	if (last.atMs < history.nowMs) earnedSoFar(walk);
	walk.active = walk.active.filter((active) => {
		const { phase, machine } = active;
		if (!machine.endsWith(last, bench) || waits(walk, active, last, history)) {
			note(walk, phase.id, machine.credit?.());
			return true;
		}
		if (machine.acting) walk.lingering.push(active);
		close(walk, phase.id, last.day, machine.credit?.());
		return false;
	});
}

/** A series whose last job has passed goes on until somebody says what became of it; what is still to come is taken as done. */
function waits(walk: Walk, { machine }: Active, last: Service, history: History): boolean {
	const task = machine.awaits?.();
	if (!task || !walk.due.has(task)) return false;
	const { timeZone, services } = walk.run;
	const tomorrow = servicesOf(timeZone, last.day + 1, services)[0]?.atMs ?? Infinity;
	return tomorrow < history.nowMs && (history.answeredAt.get(task) ?? Infinity) >= tomorrow;
}

/** Is any waiting phase sure to come? One whose day is known, or that waits for one that is. */
function canStillStart(stage: Stage, day: number): boolean {
	return stage.waiting.some((phase) => {
		const from = startDay(phase, stage);
		return from !== null && from > day;
	});
}

/** When the next service comes. */
function nextMs(service: Service, today: readonly Service[], ofDay: (day: number) => Service[]): number {
	const next = today[today.indexOf(service) + 1] ?? ofDay(service.day + 1)[0];
	return next?.atMs ?? Infinity;
}
