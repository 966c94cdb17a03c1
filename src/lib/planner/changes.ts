import type { Chance } from './chance.ts';
import {
	candidates,
	chain,
	change,
	count,
	done,
	lookAhead,
	mustAhead,
	startLabel,
	type Label
} from './change-label.ts';
import { unblock, withLimits, type ChangeLimits } from './change-limits.ts';
import { LEAST, MOST, type Step } from './change-step.ts';

/** An automatic change: the share of the volume, and the day its id counts. */
export interface Change {
	fraction: number;
	natural: number;
}

/** Automatic changes by the key of their service. */
export type Schedule = ReadonlyMap<number, Change>;

/** Most partial schedules kept at each step; small runs never reach it. */
const MOST_LABELS = 300;
/** How many earlier chances are weighed when the latest alone cannot hold a limit. */
const MOST_CANDIDATES = 7;

/**
 * The fewest changes that keep every sample before a service inside the limits for the rest of the run, at most
 * seven days apart; then the fewest litres; then the latest days. Changes come as late as they may: a later change
 * of the same share leaves cleaner water at every time after it (the water is linear and new water is no worse).
 */
export function fewestChanges(chances: readonly Chance[], limits: ChangeLimits): Schedule {
	const future = chances.filter(({ future }) => future);
	if (!future.some(({ auto }) => auto)) return new Map();
	const limited = unblock(withLimits(future, limits));
	const start = startLabel(limited, chances);
	const steps = excuseHopeless(limited, start);
	const most = greedy(steps, start, MOST);
	const least = greedy(steps, start, LEAST);
	const label = least && most && count(least) === count(most) ? least : cheapest(steps, start, most);
	return toSchedule(steps, label ?? most ?? start);
}

/** A breach that half the water at every chance cannot prevent is passed over: what follows is planned from there. */
function excuseHopeless(steps: readonly Step[], start: Label): readonly Step[] {
	let line = steps;
	let label = start;
	for (;;) {
		const ahead = lookAhead(line, label);
		if (done(line, label, ahead)) return line;
		const next = candidates(line, label, ahead.breach).at(-1);
		if (next !== undefined) label = change(line, label, ahead, next, MOST);
		else line = line.map((step, i) => (i === ahead.breach ? unlimited(step) : step));
	}
}

const unlimited = (step: Step): Step => ({
	...step,
	tanLimitMg: Infinity,
	nitrateLimitMg: Infinity,
	dueWall: Infinity
});

/** The fewest changes of one share: at each breach, the latest chance before it that is not yet used. Null when that share is too little. */
function greedy(steps: readonly Step[], start: Label, percent: number): Label | null {
	const used = new Set<number>();
	for (;;) {
		const label = replay(steps, start, used, percent);
		const ahead = lookAhead(steps, label);
		if (done(steps, label, ahead)) return label;
		const free = firstFree(steps, ahead.breach, used);
		if (free < 0) return null;
		used.add(free);
	}
}

const firstFree = (steps: readonly Step[], breach: number, used: ReadonlySet<number>): number =>
	steps.findLastIndex((step, i) => i < breach && step.may && !used.has(i));

/** The label after all used chances up to the first breach. */
function replay(steps: readonly Step[], start: Label, used: ReadonlySet<number>, percent: number): Label {
	let label = start;
	for (const at of [...used].sort((a, b) => a - b)) {
		const ahead = lookAhead(steps, label);
		if (ahead.breach <= at) return label;
		label = change(steps, label, ahead, at, percent);
	}
	return label;
}

/** A schedule of the same days with less water: each share in turn cut as far as half at the rest still holds. */
function trimmed(steps: readonly Step[], start: Label, most: Label): Label {
	const days = chain(most).map(({ at }) => at);
	let label = start;
	days.forEach((at, n) => {
		const ahead = lookAhead(steps, label);
		let [low, high] = [LEAST, MOST];
		while (low < high) {
			const middle = Math.floor((low + high) / 2);
			if (holds(steps, change(steps, label, ahead, at, middle), days.slice(n + 1))) high = middle;
			else low = middle + 1;
		}
		label = change(steps, label, ahead, at, high);
	});
	return label;
}

/** Does half the water on these days hold every limit from here on? */
function holds(steps: readonly Step[], from: Label, days: readonly number[]): boolean {
	let label = from;
	for (const at of days) {
		const ahead = lookAhead(steps, label);
		if (ahead.breach <= at) return false;
		label = change(steps, label, ahead, at, MOST);
	}
	return done(steps, label, lookAhead(steps, label));
}

/** The fewest litres for the fewest changes: all partial schedules, change by change, without those that are worse in everything. */
function cheapest(steps: readonly Step[], start: Label, most: Label | null): Label | null {
	if (!most) return null;
	const stages = count(most);
	let labels: Label[] = [start];
	let best: Label | null = trimmed(steps, start, most);
	for (let stage = 1; stage <= stages; stage++) {
		const grown: Label[] = [];
		for (const label of labels)
			for (const next of extend(steps, label))
				if (next.sum + LEAST * (stages - stage) <= (best?.sum ?? Infinity)) grown.push(next);
		labels = prune(grown);
		if (stage === stages)
			for (const label of labels)
				if (done(steps, label, lookAhead(steps, label)) && better(label, best)) best = label;
	}
	return best ?? most;
}

function extend(steps: readonly Step[], label: Label): Label[] {
	const ahead = lookAhead(steps, label);
	const [latest, ...earlier] = candidates(steps, label, ahead.breach);
	if (latest === undefined) return [];
	const enough = lookAhead(steps, change(steps, label, ahead, latest, MOST)).breach > ahead.breach;
	const chosen =
		enough || mustAhead(steps, ahead) ? [latest] : [latest, ...earlier].slice(0, MOST_CANDIDATES);
	return chosen.flatMap((at) =>
		Array.from({ length: MOST - LEAST + 1 }, (_, i) => change(steps, label, ahead, at, LEAST + i))
	);
}

/**
 * Of labels with the same last change and no fewer litres, only those with cleaner water are worth going on with.
 * The cheap sieve comes first: of one last change and one sum, the cleanest by ammonia and by nitrate.
 */
function prune(labels: readonly Label[]): Label[] {
	const cleanest = new Map<number, Label[]>();
	for (const label of labels) {
		const key = label.at * LARGEST_SUM + label.sum;
		const rivals = cleanest.get(key);
		if (!rivals) cleanest.set(key, [label]);
		else if (!rivals.some((rival) => noDirtier(rival, label)))
			cleanest.set(key, [...rivals.filter((rival) => !noDirtier(label, rival)), label]);
	}
	const kept = new Map<number, Label[]>();
	for (const label of [...cleanest.values()].flat().sort(cheapFirst)) {
		const rivals = kept.get(label.at);
		if (!rivals) kept.set(label.at, [label]);
		else if (!rivals.some((rival) => noDirtier(rival, label))) rivals.push(label);
	}
	return [...kept.values()].flat().sort(cheapFirst).slice(0, MOST_LABELS);
}

/** No sum of percents over the longest plan reaches this. */
const LARGEST_SUM = 100_000;
const noDirtier = (a: Label, b: Label) => a.tanMg <= b.tanMg && a.nitrateMg <= b.nitrateMg;
const cheapFirst = (a: Label, b: Label) => a.sum - b.sum || a.tanMg - b.tanMg || a.nitrateMg - b.nitrateMg;

function better(label: Label, best: Label | null): boolean {
	if (!best || label.sum !== best.sum) return !best || label.sum < best.sum;
	const [days, others] = [chain(label), chain(best)];
	for (let i = 0; i < days.length; i++) {
		const later = (days[i]?.at ?? 0) - (others[i]?.at ?? 0);
		if (later !== 0) return later > 0;
	}
	return false;
}

function toSchedule(steps: readonly Step[], label: Label): Schedule {
	return new Map(
		chain(label).map(({ at, percent }) => {
			const step = steps[at] as Step;
			return [step.key, { fraction: percent / 100, natural: step.pinned ?? step.day }];
		})
	);
}
