import { dayText, readLog, type Run } from '../run/index.ts';
import { findingsOf, type Seen } from './checks/index.ts';
import { fewestChanges, type Schedule } from './changes.ts';
import { learnedOf } from './fit/learned.ts';
import { lessonsOf, type Lessons } from './fit/lessons.ts';
import { firstDay, march, type March } from './march.ts';
import type { Instant, Plan } from './plan.ts';
import { mixingTasks, suppliesOf } from './supplies.ts';
import { rank } from './job.ts';
import { dayOfInstant } from './clock.ts';

const MS_PER_DAY = 86_400_000;

/** The search for changes and the march depend on each other; they agree within a few rounds or the last one stands. */
const MOST_ROUNDS = 6;

/**
 * The whole plan of a run: tasks, levels, credits, findings. `now` is an instant in ISO 8601; the same run and
 * `now` give the same plan. Throws only on a `now` that is no instant.
 */
export function plan(run: Run, now: Instant): Plan {
	return planSeen(run, now).plan;
}

/** The plan together with the walk behind it, for checks that look closer. */
export function planSeen(run: Run, now: Instant): Seen {
	const nowMs = Date.parse(now);
	if (Number.isNaN(nowMs)) throw new Error(`not an instant: ${now}`);
	const walked = settled(run, nowMs, lessonsOf(run, readLog(run.log), nowMs));
	return { run, plan: withFindings(run, nowMs, walked), walked, nowMs };
}

/** The plan as it would be if no reading taught a rate: what a fit is measured against. */
export function planUntaught(run: Run, now: Instant): Plan {
	const nowMs = Date.parse(now);
	return withFindings(run, nowMs, settled(run, nowMs, null));
}

/** March with the automatic changes that the march itself asks for. The first walk only looks for them. */
function settled(run: Run, nowMs: number, lessons: Lessons | null): March | null {
	const automatic = run.phases.some(({ change }) => change && 'auto' in change);
	if (!automatic) return march(run, nowMs, new Map(), true, lessons);
	const past = plannedBefore(run, nowMs);
	let schedule = past;
	let walked = march(run, nowMs, schedule, false, lessons);
	for (let round = 0; walked && round < MOST_ROUNDS; round++) {
		const next: Schedule = new Map([...past, ...fewestChanges(walked.chances, run.limits)]);
		if (round > 0 && same(schedule, next)) break;
		schedule = next;
		walked = march(run, nowMs, schedule, true, lessons);
	}
	return walked;
}

/** The automatic changes the plan asked for before its log began: what an entry without litres refers to. */
function plannedBefore(run: Run, nowMs: number): Schedule {
	const begins = firstDay(run, nowMs);
	if (begins === null || (begins - 1) * MS_PER_DAY > nowMs) return new Map();
	const outset = { ...run, log: [] };
	let schedule: Schedule = new Map();
	let walked = march(outset, -Infinity, schedule, false);
	for (let round = 0; walked && round < MOST_ROUNDS; round++) {
		const next = fewestChanges(walked.chances, run.limits);
		if (same(schedule, next)) break;
		schedule = next;
		walked = march(outset, -Infinity, schedule, false);
	}
	const today = dayOfInstant(run.timeZone, nowMs);
	return new Map([...schedule].filter(([key]) => key < today + 1));
}

function same(a: Schedule, b: Schedule): boolean {
	if (a.size !== b.size) return false;
	for (const [day, { fraction, natural }] of a) {
		const other = b.get(day);
		if (!other || other.fraction !== fraction || other.natural !== natural) return false;
	}
	return true;
}

function withFindings(run: Run, nowMs: number, walked: March | null): Plan {
	const learned = walked ? learnedOf(run, walked.walk) : [];
	const bare: Plan = {
		format: 'lazaret-result/1',
		begins: walked ? dayText(walked.walk.begins) : null,
		release: null,
		phases: run.phases.map(({ id }) => walked?.walk.spans.get(id) ?? { id, from: null, to: null, tasks: 0 }),
		tasks: walked ? inOrder(run, walked) : [],
		levels: walked ? walked.walk.levels : [],
		findings: [],
		supplies: { waterL: 0, medicines: [] },
		...(learned.length > 0 ? { learned } : {}),
		problems: run.problems
	};
	const full = { ...bare, release: releaseDay(bare), supplies: suppliesOf(run, bare) };
	const findings = findingsOf({ run, plan: full, walked, nowMs });
	// a course that cannot be dosed is no course, whatever its days
	const forbids = (rule: string) => rule.startsWith('release-') || rule === 'quantity-missing';
	const forbidden = findings.some(({ severity, rule }) => severity === 'stop' && forbids(rule));
	return { ...full, findings, release: forbidden ? null : full.release };
}

const releaseDay = ({ tasks }: Plan) => tasks.find(({ kind }) => kind === 'release')?.date ?? null;

function inOrder(run: Run, { walk }: March): Plan['tasks'] {
	return [...walk.tasks, ...mixingTasks(run, walk.tasks, dayText(walk.begins))]
		.map((task, i) => ({ task, i }))
		.sort((a, b) =>
			a.task.at < b.task.at ? -1 : a.task.at > b.task.at ? 1 : rank(a.task) - rank(b.task) || a.i - b.i
		)
		.map(({ task }) => task);
}
