import { dayText, readLog, type Run } from '../run/index.ts';
import { agreed } from './agreed.ts';
import { askedBefore } from './asked.ts';
import { findingsOf, type Seen } from './checks/index.ts';
import { learnedOf } from './fit/learned.ts';
import { lessonsOf, type Lessons } from './fit/lessons.ts';
import { march, type March } from './march.ts';
import { metBefore } from './met.ts';
import type { Instant, Plan, Task } from './plan.ts';
import { mixingTasks, suppliesOf } from './supplies.ts';
import { rank } from './job.ts';

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

/** The plan as it stood just before an instant, when nothing of it was logged yet. */
export function planBefore(run: Run, atMs: number): Plan {
	const log = run.log.filter(({ at }) => Date.parse(at) < atMs);
	return planSeen({ ...run, log }, new Date(atMs - 1).toISOString()).plan;
}

/** The plan as it would be if no reading taught a rate: what a fit is measured against. */
export function planUntaught(run: Run, now: Instant): Plan {
	const nowMs = Date.parse(now);
	return withFindings(run, nowMs, settled(run, nowMs, null));
}

/** March with the automatic changes that the march itself asks for. The first walk only looks for them. */
function settled(run: Run, nowMs: number, lessons: Lessons | null): March | null {
	const automatic = run.phases.some(({ change }) => change && 'auto' in change);
	const past = automatic ? askedBefore(run, nowMs, lessons !== null) : new Map();
	const told = lessons && { ...lessons, met: metBefore(run, nowMs, past) };
	return automatic ? agreed(run, nowMs, told, past).walked : march(run, nowMs, past, true, told);
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
	const row = new Map(run.phases.map(({ id }, i) => [id, i]));
	// a job that was figured anew comes last in the walk; in its service it stands where its row of the sheet does
	const place = ({ task, i }: { task: Task; i: number }) => (row.get(task.phase) ?? row.size) + i * 1e-6;
	return [...walk.tasks, ...mixingTasks(run, walk.tasks, dayText(walk.begins))]
		.map((task, i) => ({ task, i }))
		.sort((a, b) =>
			a.task.at < b.task.at
				? -1
				: a.task.at > b.task.at
					? 1
					: rank(a.task) - rank(b.task) || place(a) - place(b)
		)
		.map(({ task }) => task);
}
