import { applyAll, dayNumber, readRun, type Day, type Edit } from '../../run/index.ts';
import { checks, type Draft, type Seen } from '../checks/index.ts';
import { planSeen } from '../planning.ts';
import type { Finding, Instant, Plan, Repair } from '../plan.ts';
import { cellEdit } from './cells.ts';

/** A finding gets at most so many trials, a plan so many in all: a repair is a help, not a search without end. */
const MOST_PER_FINDING = 6;
const MOST_PER_PLAN = 60;

interface Tried extends Repair {
	/** days of delay first, then litres, then jobs: what a keeper minds most */
	weight: [number, number, number];
}

/**
 * The plan of a document with the repairs that were proved to work: each candidate of a check is written into the
 * document, marched, and offered only if its finding is gone and no new stop has come. `today` as in `readRun`.
 */
export function offerRepairs(document: unknown, now: Instant, today: Day | null): Plan {
	const run = readRun(document, { today });
	const seen = planSeen(run, now);
	let left = MOST_PER_PLAN;
	const findings = seen.plan.findings.map((finding): Finding => {
		const candidates = candidatesFor(finding, seen).slice(0, Math.min(MOST_PER_FINDING, left));
		left -= candidates.length;
		const tried = candidates.flatMap(
			({ title, cells }) => attempt(document, now, today, seen.plan, finding, title, cells) ?? []
		);
		tried.sort((a, b) => a.weight[0] - b.weight[0] || a.weight[1] - b.weight[1] || a.weight[2] - b.weight[2]);
		return { ...finding, repairs: tried.map(({ title, cost, edits }) => ({ title, cost, edits })) };
	});
	return { ...seen.plan, findings };
}

function candidatesFor(finding: Finding, seen: Seen) {
	const check = checks.find(({ rule }) => rule === finding.rule);
	const draft: Draft = finding;
	return check?.repairs?.(draft, seen) ?? [];
}

function attempt(
	document: unknown,
	now: Instant,
	today: Day | null,
	was: Plan,
	finding: Finding,
	title: string,
	cells: Record<string, unknown>
): Tried | null {
	const edits: Edit[] = [];
	let mended = document;
	for (const [place, value] of Object.entries(cells)) {
		const edit = cellEdit(mended, place, value);
		if (!edit) continue;
		edits.push(edit);
		mended = applyAll(mended, [edit]);
	}
	if (edits.length === 0) return null;
	const run = readRun(mended, { today });
	if (run.problems.length > was.problems.length) return null;
	const { plan } = planSeen(run, now);
	if (plan.findings.some((other) => sameMatter(other, finding))) return null;
	const stops = new Set(was.findings.filter(({ severity }) => severity === 'stop').map(matter));
	if (plan.findings.some((other) => other.severity === 'stop' && !stops.has(matter(other)))) return null;
	return { title, edits, ...costOf(was, plan) };
}

const matter = ({ rule, phase, cell }: Finding) => `${rule}|${phase ?? ''}|${cell ?? ''}`;

/** The same rule about the same thing; a task finding also keeps its task, so that moving one job cures one finding. */
const sameMatter = (a: Finding, b: Finding): boolean =>
	matter(a) === matter(b) && (b.task === undefined || a.task === b.task || a.rule !== 'away-on-task');

/** What a repair costs, in the keeper's order: days, litres, jobs. */
function costOf(was: Plan, now: Plan): Pick<Tried, 'cost' | 'weight'> {
	const days = was.release && now.release ? dayNumber(now.release) - dayNumber(was.release) : 0;
	const litres = Math.round(now.supplies.waterL - was.supplies.waterL);
	const jobs = now.tasks.length - was.tasks.length;
	const parts = [
		...(days === 0 ? [] : [`release ${signed(days)} day${Math.abs(days) === 1 ? '' : 's'}`]),
		...(litres === 0 ? [] : [`${Math.abs(litres)} L ${litres > 0 ? 'more' : 'less'} water`]),
		...(jobs === 0
			? []
			: [`${Math.abs(jobs)} job${Math.abs(jobs) === 1 ? '' : 's'} ${jobs > 0 ? 'more' : 'fewer'}`])
	];
	return {
		cost: parts.length > 0 ? parts.join(', ') : 'nothing else moves',
		weight: [Math.max(0, days), Math.max(0, litres), Math.max(0, jobs)]
	};
}

const signed = (value: number) => (value > 0 ? `+${value}` : `−${-value}`);
