import { no3PerN } from '../water/index.ts';
import type { Chance } from './chance.ts';

/** Automatic changes by day: the share of the volume, and the day their id counts. */
export type Schedule = ReadonlyMap<number, { fraction: number; natural: number }>;

export interface ChangeLimits {
	nh3MgNPerL: number;
	nitrateMgPerL: number;
}

/** Whole percent a change may take outside wash-outs and emergencies (common practice, no source). */
const LEAST = 20;
const MOST = 50;
/** No tank goes longer without a change (common practice, no source). */
const LONGEST_GAP_DAYS = 7;
/** NH3-N that a change overrides everything for, even while a dose acts (judgment, no source). */
export const OVERRIDE_MG_N_PER_L = 0.05;
/** Nitrate levels to fall back to where the limit cannot be held, mg/L. */
const NITRATE_STEPS = [20, 30, 40, 50, 75, 100, Infinity];
const ROUNDING = 1e-9;
/** Most partial schedules kept at each step; small runs never reach it. */
const MOST_LABELS = 300;
/** How many earlier chances are weighed when the latest alone cannot hold a limit. */
const MOST_CANDIDATES = 7;

/** A chance with its limits turned into masses, so that the search only compares. */
interface Step extends Chance {
	tanLimitMg: number;
	nitrateLimitMg: number;
	/** a change may be made here */
	may: boolean;
	/** a change must be made here, of at least this many percent; 0: none must */
	must: number;
	/** a change is still in time for the seven days */
	dueWall: number;
}

/** A partial schedule: the water after its last change. */
interface Label {
	at: number;
	tanMg: number;
	nitrateMg: number;
	lastWall: number;
	percent: number;
	sum: number;
	parent: Label | null;
}

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

function startLabel(steps: readonly Step[], chances: readonly Chance[]): Label {
	const first = steps[0];
	return {
		at: -1,
		tanMg: first?.tanMg ?? 0,
		nitrateMg: first?.nitrateMg ?? 0,
		lastWall: first?.changedWall ?? chances[0]?.wall ?? 0,
		percent: 0,
		sum: 0,
		parent: null
	};
}

const count = (label: Label): number => (label.parent ? 1 + count(label.parent) : 0);

/**
 * Limits as masses. Where even half the water at every chance cannot hold ammonia, half goes at the last chance
 * before it; where nitrate cannot be held, the plan holds the next higher round level that can.
 */
function withLimits(chances: readonly Chance[], limits: ChangeLimits): Step[] {
	const open = chances.map((chance): Step => ({
		...chance,
		may: chance.auto && chance.open && !chance.acting && !chance.barred,
		must: chance.pinned === null ? 0 : LEAST,
		tanLimitMg: Infinity,
		nitrateLimitMg: Infinity,
		dueWall: Infinity
	}));
	const best = trajectory(open, () => MOST);
	const limited = open.map((step, i): Step => {
		const share = step.toxicShare;
		const wanted =
			share === null || share <= 0 ? Infinity : (limits.nh3MgNPerL / share) * step.beforeL * (1 + ROUNDING);
		return {
			...step,
			tanLimitMg: (best[i]?.tanMg ?? 0) <= wanted ? wanted : Infinity,
			nitrateLimitMg:
				heldNitrate(limits.nitrateMgPerL, (best[i]?.nitrateMg ?? 0) / step.beforeL) *
				step.beforeL *
				(1 + ROUNDING),
			dueWall: LONGEST_GAP_DAYS
		};
	});
	return withMusts(limited, limits, best);
}

/** The limit where the best schedule holds it, else the next round level that it does hold. */
function heldNitrate(limit: number, best: number): number {
	if (best <= limit * (1 + ROUNDING)) return limit;
	return NITRATE_STEPS.find((step) => step > limit && best <= step) ?? Infinity;
}

/** Where the best there is stays over the limit, the last chance before it must take half. */
function withMusts(steps: Step[], limits: ChangeLimits, best: readonly Masses[]): Step[] {
	const musts = new Set<number>();
	steps.forEach((step, i) => {
		const over =
			(best[i]?.tanMg ?? 0) * (step.toxicShare ?? 0) > limits.nh3MgNPerL * step.beforeL * (1 + ROUNDING);
		const last = steps.findLastIndex((earlier, j) => j < i && earlier.may);
		const dirty = (best[last]?.tanMg ?? 0) > (steps[last]?.source.tanMg ?? 0) * (steps[last]?.volumeL ?? 0);
		if (over && dirty) musts.add(last);
	});
	return steps.map((step, i) => (musts.has(i) ? { ...step, must: MOST } : step));
}

/**
 * Where the water would pass the override level before the next permitted chance, a chance at which a dose still acts
 * may be used after all, and must be, so that ammonia wins over the dose.
 */
function unblock(steps: Step[]): Step[] {
	steps.forEach((step, j) => {
		if (step.may || !step.acting || !step.auto || !step.open) return;
		const best = trajectory(steps, () => MOST);
		const until = steps.findIndex((later, i) => i > j && later.may);
		const over = steps.some(
			(later, i) =>
				i > j &&
				(until < 0 || i <= until) &&
				(best[i]?.tanMg ?? 0) * (later.toxicShare ?? 0) > OVERRIDE_MG_N_PER_L * later.beforeL
		);
		if (over) steps = steps.map((one, i) => (i === j ? { ...one, may: true, must: MOST } : one));
	});
	return steps;
}

interface Masses {
	tanMg: number;
	nitrateMg: number;
}

/** Through the jobs of a service, with an automatic change of `percent`. */
function through(step: Step, { tanMg, nitrateMg }: Masses, percent: number): Masses {
	const kept = 1 - percent / 100;
	const litres = (percent / 100) * step.volumeL;
	return {
		tanMg: (tanMg * step.keepTan + step.addTanMg) * kept + litres * step.source.tanMg,
		nitrateMg: (nitrateMg * step.keepNitrate + step.addNitrateMg) * kept + litres * step.source.nitrateMg
	};
}

/** On to the next service. */
function onward(next: Step, { tanMg, nitrateMg }: Masses): Masses {
	const tanThen = next.alpha * tanMg + next.betaMg;
	return { tanMg: tanThen, nitrateMg: nitrateMg + no3PerN * Math.max(0, tanMg + next.producedMg - tanThen) };
}

/** Masses before each service when every permitted chance takes `percent`. */
function trajectory(steps: readonly Step[], percentAt: (step: Step) => number): Masses[] {
	const first = steps[0];
	if (!first) return [];
	const before: Masses[] = [{ tanMg: first.tanMg, nitrateMg: first.nitrateMg }];
	for (let i = 1; i < steps.length; i++) {
		const last = steps[i - 1] as Step;
		const left = through(last, before[i - 1] as Masses, last.may ? percentAt(last) : 0);
		before.push(onward(steps[i] as Step, left));
	}
	return before;
}

interface Ahead {
	/** first service that finds a limit or the seven days passed; the number of steps when none does */
	breach: number;
	/** masses before each step after the label, the first of them right behind it */
	before: Masses[];
}

/** Walk on from a label without another change, up to the first breach or a change that must be made. */
function lookAhead(steps: readonly Step[], label: Label): Ahead {
	let masses: Masses = { tanMg: label.tanMg, nitrateMg: label.nitrateMg };
	let lastWall = label.lastWall;
	const before: Masses[] = [];
	for (let i = label.at + 1; i < steps.length; i++) {
		const step = steps[i] as Step;
		if (i > 0) masses = onward(step, masses);
		before.push(masses);
		const late = step.wall - lastWall > step.dueWall + ROUNDING;
		if (i > 0 && (masses.tanMg > step.tanLimitMg || masses.nitrateMg > step.nitrateLimitMg || late))
			return { breach: i, before };
		if (step.must > 0 && step.may) return { breach: i + 1, before };
		masses = through(step, masses, 0);
		if (step.fixed > 0) lastWall = step.wall;
	}
	return { breach: steps.length, before };
}

const mustAhead = (steps: readonly Step[], { breach }: Ahead): boolean => {
	const step = steps[breach - 1];
	return step !== undefined && step.must > 0 && step.may;
};

const done = (steps: readonly Step[], label: Label, ahead: Ahead): boolean =>
	ahead.breach >= steps.length && !(mustAhead(steps, ahead) && label.at < steps.length - 1);

/** Permitted chances after the label and before its breach, latest first. */
function candidates(steps: readonly Step[], label: Label, breach: number): number[] {
	const found: number[] = [];
	for (let i = breach - 1; i > label.at; i--) if (steps[i]?.may) found.push(i);
	return found;
}

function change(steps: readonly Step[], label: Label, ahead: Ahead, at: number, wished: number): Label {
	const step = steps[at] as Step;
	const percent = Math.max(wished, step.must);
	const left = through(step, ahead.before[at - label.at - 1] as Masses, percent);
	return { at, ...left, lastWall: step.wall, percent, sum: label.sum + percent, parent: label };
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

const chain = (label: Label): Label[] => (label.parent ? [...chain(label.parent), label] : []);

function toSchedule(steps: readonly Step[], label: Label): Schedule {
	return new Map(
		chain(label).map(({ at, percent }) => {
			const step = steps[at] as Step;
			return [step.day, { fraction: percent / 100, natural: step.pinned ?? step.day }];
		})
	);
}
