import { applyAll, dayNumber, readRun, type Day, type Edit, type Taken } from '../../run/index.ts';
import type { Seen } from '../checks/index.ts';
import { dayOfInstant } from '../clock.ts';
import { compare, releaseBetween } from '../compare.ts';
import type { Finding, Instant, Plan, Task } from '../plan.ts';
import { planBefore, planSeen } from '../planning.ts';
import { dangerOf, gives } from './danger.ts';
import { ifInside } from './inside.ts';
import { lifeCycleOf } from './life-cycle.ts';
import { movesOf } from './moves.ts';
import { slipRules, type SlipRule } from './rules.ts';
import { covered, slipOf } from './still-asks.ts';
import { hasLater, titleOf } from './way-title.ts';
import type { ChoiceEntry, Slip, Use, Way } from './slip.ts';

const MS_PER_HOUR = 3_600_000;
const MS_PER_DAY = 86_400_000;
/** Every way is a march of its own; with more slips than this the later ones wait until the earlier are answered. */
const MOST_MARCHED = 24;

/**
 * Jobs whose time has passed and that nobody answered for, and missed ones that nothing has answered since, each with the
 * ways the trade knows to go on. Every way is written into a copy of the document, read and marched to its end, so what
 * it says is what happens when its entries and edits are written. `today` is as in `readRun`; the oldest slip first.
 */
export const openSlips = (document: unknown, now: Instant, today: Day | null): Slip[] => [
	...eachSlip(document, now, today)
];

/** The same one by one, or that of a single task: a server looks after others between two of them. */
export function* eachSlip(
	document: unknown,
	now: Instant,
	today: Day | null,
	only: string | null = null
): Generator<Slip> {
	const seen = planSeen(readRun(document, { today }), now);
	const open = seen.plan.tasks.flatMap((task) => {
		const use = slipOf(seen, task);
		return use ? [{ task, use }] : [];
	});
	const bench: Bench = {
		document,
		now,
		today,
		seen,
		first: open[0]?.task ?? null,
		agreed: null,
		faults: null
	};
	let marched = 0;
	for (const { task, use } of open) {
		marched++;
		if (only === null || only === task.id) yield slip(bench, task, use, marched <= MOST_MARCHED);
	}
}

interface Bench {
	document: unknown;
	now: Instant;
	today: Day | null;
	/** the plan as it stands */
	seen: Seen;
	/** the oldest of the slips */
	first: Task | null;
	/** see {@link agreedBefore}; null until a way asks */
	agreed: Plan | null;
	/** see {@link ownFaults}; null until a way asks */
	faults: readonly Finding[] | null;
}

/** The plan as it stood before the first of these jobs was due: what every way's release is held against. */
function agreedBefore(bench: Bench): Plan {
	const { seen, document, today, first } = bench;
	if (!first) return seen.plan;
	bench.agreed ??= planBefore(readRun(document, { today }), Date.parse(first.at));
	return bench.agreed;
}

/** What the plan as it was written, before anything happened, was told not to be followed for. */
function ownFaults(bench: Bench): readonly Finding[] {
	const { seen, document, today } = bench;
	const { begins } = seen.plan;
	if (begins === null) return [];
	const before = new Date(dayNumber(begins) * MS_PER_DAY - MS_PER_DAY).toISOString();
	bench.faults ??= planSeen(readRun({ ...(document as object), log: [] }, { today }), before).plan.findings;
	return bench.faults;
}

function slip(bench: Bench, task: Task, use: Use, marched: boolean): Slip {
	const { seen } = bench;
	const rule = slipRules[use];
	const behind = covered(seen, task);
	const offered = (behind && use !== 'pulse' && use !== 'transfer' ? ['skip' as const] : rule.prefers).filter(
		(taken) => rule.ways[taken] && (taken !== 'now-shift' || hasLater(seen.plan, task))
	);
	const ways = marched ? offered.map((taken) => wayOf(bench, task, rule, taken)) : [];
	const proposed = ways.find(({ safe }) => safe) ?? null;
	const first = ways[0];
	return {
		task,
		use,
		hoursLate: (seen.nowMs - Date.parse(task.at)) / MS_PER_HOUR,
		ways: proposed ? [proposed, ...ways.filter((way) => way !== proposed)] : ways,
		proposed: proposed?.taken ?? null,
		withheld: rule.withheld ?? [],
		reason: behind
			? rule.covered
			: !proposed
				? 'None of these is safe: ask a veterinarian, or someone who knows this course, before going on.'
				: first !== proposed && first?.danger
					? `${first.title} is not safe: ${first.danger}`
					: proposed.because
	};
}

/** One way, written into a copy and marched. */
function wayOf(bench: Bench, task: Task, rule: SlipRule, taken: Taken): Way {
	const { document, now, today, seen } = bench;
	const says = rule.ways[taken];
	if (!says) throw new Error(`no ${taken} for a ${rule.use}`);
	const entries: ChoiceEntry[] = [{ at: now, kind: 'choice', task: task.id, taken }];
	const day = dayOfInstant(seen.run.timeZone, seen.nowMs);
	const edits = movesOf(document, seen.plan, task, taken, Math.max(0, day - dayNumber(task.date)));
	const is = planSeen(readRun(written(document, entries, edits), { today }), now);
	const tried = { task, use: rule.use, taken, last: !hasLater(seen.plan, task) };
	const danger = dangerOf(seen, is, tried, () => ownFaults(bench));
	const life = withLifeCycle(seen, task, rule.use, says);
	const hope = rule.use === 'test' && taken === 'now' ? hopeOf(bench, is, task, entries) : '';
	return {
		taken,
		title: titleOf(rule.use, taken, tried.last) ?? says.title,
		entries,
		edits,
		safe: danger === null,
		danger,
		amount: gives(taken) ? (is.plan.tasks.find(({ id }) => id === task.id)?.amount ?? null) : null,
		because: life.because + hope,
		source: life.source,
		release: releaseBetween(agreedBefore(bench).release, is.plan.release),
		comparison: compare(seen.plan, is.plan)
	};
}

/** What a reading inside would bring, made right after the choice. */
const hopeOf = ({ document, today, now }: Bench, is: Seen, task: Task, entries: readonly ChoiceEntry[]) =>
	ifInside(is, task, (reading) => {
		const chosen = written(document, entries, []) as { log: unknown[] };
		const read = { id: 'choice-read', at: now, kind: 'reading', ...reading };
		return planSeen(readRun({ ...chosen, log: [...chosen.log, read] }, { today }), now).plan;
	});

/** The document once the entries and edits of a way are written; `id` names the entries. */
function written(
	document: unknown,
	entries: readonly ChoiceEntry[],
	edits: readonly Edit[],
	id = 'choice'
): unknown {
	const edited = applyAll(document, edits) as { log?: unknown[] };
	const log = entries.map((entry, i) => ({ id: `${id}-${i}`, ...entry }));
	return { ...edited, log: [...(edited.log ?? []), ...log] };
}

/** A pulse says its own bounds. */
function withLifeCycle(
	{ run }: Seen,
	task: Task,
	use: Use,
	{ because, source }: { because: string; source: string }
) {
	const bounds = use === 'pulse' ? lifeCycleOf(run, task) : null;
	if (!bounds) return { because, source };
	const says = bounds.because.charAt(0).toUpperCase() + bounds.because.slice(1);
	return { because: `${because} ${says}.`, source: bounds.source };
}
