import { applyAll, readRun, type Day, type Edit, type Run } from '../../run/index.ts';
import { checks, type Candidate, type Seen } from '../checks/index.ts';
import type { Finding, Instant, Plan, Repair, Severity } from '../plan.ts';
import { planSeen } from '../planning.ts';
import { cellEdit, rowEdit } from './cells.ts';
import { cheaper, costOf, costText, type Cost } from './cost.ts';

/** A repair is a help, not a search without end: so many trials for a finding, so many for a plan, so many shown. */
const MOST_PER_FINDING = 6;
const MOST_PER_PLAN = 40;
const MOST_SHOWN = 3;

interface Bench {
	document: unknown;
	now: Instant;
	/** as in `readRun` */
	today: Day | null;
	was: Plan;
	left: number;
}

interface Tried extends Repair {
	weight: Cost;
}

const gravity: Record<Severity, number> = { stop: 0, caution: 1, note: 2 };

/**
 * The plan of a document with the repairs that were proved to work: each candidate of a check is written into the
 * document, read and marched, and offered only if its finding is gone and no new stop has come. Stops are tried
 * first, since the number of trials is bounded. A finding without `repairs` has none within reach.
 */
export function offerRepairs(document: unknown, now: Instant, today: Day | null): Plan {
	const seen = planSeen(readRun(document, { today }), now);
	const bench: Bench = { document, now, today, was: seen.plan, left: MOST_PER_PLAN };
	const repairs = new Map<Finding, Repair[]>();
	for (const finding of seen.plan.findings.toSorted((a, b) => gravity[a.severity] - gravity[b.severity]))
		repairs.set(finding, repairsOf(bench, finding, seen));
	return {
		...seen.plan,
		findings: seen.plan.findings.map((finding) => ({ ...finding, repairs: repairs.get(finding) ?? [] }))
	};
}

function repairsOf(bench: Bench, finding: Finding, seen: Seen): Repair[] {
	const check = checks.find(({ rule }) => rule === finding.rule);
	const candidates = (check?.repairs?.(finding, seen) ?? []).slice(0, Math.min(MOST_PER_FINDING, bench.left));
	const written = new Set<string>();
	const tried = candidates.flatMap((candidate): Tried[] => {
		const edits = editsOf(bench.document, candidate);
		const text = JSON.stringify(edits);
		if (edits.length === 0 || written.has(text)) return [];
		written.add(text);
		bench.left--;
		const repair = attempt(bench, finding, candidate.title, edits);
		return repair ? [repair] : [];
	});
	return tried
		.sort((a, b) => cheaper(a.weight, b.weight))
		.slice(0, MOST_SHOWN)
		.map(({ title, cost, edits }) => ({ title, cost, edits }));
}

/** The edits a candidate comes to; none where the document says so already or has no such place. */
function editsOf(document: unknown, { insert, cells }: Candidate): Edit[] {
	const row = insert ? rowEdit(document, insert.after, insert.row) : null;
	if (insert && !row) return [];
	const edits = row ? [row] : [];
	let mended = applyAll(document, edits);
	for (const [place, value] of Object.entries(cells ?? {})) {
		const edit = cellEdit(mended, place, value);
		if (!edit) continue;
		edits.push(edit);
		mended = applyAll(mended, [edit]);
	}
	return edits;
}

function attempt(
	{ document, now, today, was }: Bench,
	finding: Finding,
	title: string,
	edits: Edit[]
): Tried | null {
	const run: Run = readRun(applyAll(document, edits), { today });
	if (run.problems.length > was.problems.length) return null;
	const { plan } = planSeen(run, now);
	if (plan.findings.some((other) => matter(other) === matter(finding))) return null;
	const known = new Set(was.findings.map((other) => `${other.severity} ${matter(other)}`));
	const fresh = plan.findings.filter((other) => !known.has(`${other.severity} ${matter(other)}`));
	if (fresh.some(({ severity }) => severity === 'stop')) return null;
	const weight = costOf(
		was,
		plan,
		fresh.filter(({ severity }) => severity === 'caution').map(({ rule }) => rule)
	);
	return { title, edits, cost: costText(weight), weight };
}

/** What a finding is about: its rule and place, whatever day it falls on; or its day, for rules about days. */
function matter({ rule, phase, cell, date }: Finding): string {
	const byDay = checks.find((check) => check.rule === rule)?.byDay;
	return byDay ? `${rule} ${date ?? ''}` : `${rule} ${phase ?? ''} ${cell ?? ''}`;
}
