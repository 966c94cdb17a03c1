import { applyAll, readRun, type Day, type Edit, type Run } from '../../run/index.ts';
import { checks, type Candidate, type Seen } from '../checks/index.ts';
import { withRows } from '../checks/row-name.ts';
import { matter } from '../checks/matter.ts';
import type { Finding, Instant, Plan, Repair, Severity } from '../plan.ts';
import { planSeen } from '../planning.ts';
import { cellEdit, rowEdit } from './cells.ts';
import { cheaper, costOf, costText, type Cost } from './cost.ts';

/** A repair is a help, not a search without end: so many trials for a finding, so many for a plan, so many shown. */
const MOST_PER_FINDING = 6;
const MOST_PER_PLAN = 40;
const MOST_SHOWN = 3;
/**
 * What all trials together may take. A plan with few automatic changes counts one; the search for changes takes longer
 * the more there are (measured: 23 about six times what 8 take), so such plans get fewer trials, but never less than
 * two. No clock is asked: the same plan gets the same repairs on every machine.
 */
const MOST_EFFORT = 60;
const FEW_CHANGES = 8;
const LEAST_PER_PLAN = 2;

function effortOf({ tasks }: Plan, run: Run): number {
	const automatic = new Set(run.phases.flatMap(({ id, change }) => (change && 'auto' in change ? [id] : [])));
	const changes = tasks.filter(({ kind, phase }) => kind === 'change' && automatic.has(phase)).length;
	return Math.max(1, (changes / FEW_CHANGES) ** 1.5);
}

interface Bench {
	document: unknown;
	now: Instant;
	/** as in `readRun` */
	today: Day | null;
	was: Plan;
	/** made so far */
	trials: number;
	/** left */
	effort: number;
}

interface Tried extends Repair {
	weight: Cost;
}

const gravity: Record<Severity, number> = { stop: 0, caution: 1, note: 2 };

/**
 * The plan of a document with the repairs that were proved to work: each candidate of a check is written into the
 * document, read and marched, and offered only if its finding is gone and no new stop has come. The first candidate
 * of every finding is tried before the second of any, stops before cautions before notes, until the bounds are met.
 * Only what `asked` says yes to is tried. A finding without `repairs` has none within reach.
 */
export function offerRepairs(
	document: unknown,
	now: Instant,
	today: Day | null,
	asked: (finding: Finding) => boolean = () => true
): Plan {
	const run = readRun(document, { today });
	const seen = planSeen(run, now);
	const bench: Bench = {
		document,
		now,
		today,
		was: seen.plan,
		trials: 0,
		effort: MOST_EFFORT - effortOf(seen.plan, run)
	};
	const open = seen.plan.findings
		.filter(asked)
		.toSorted((a, b) => gravity[a.severity] - gravity[b.severity])
		.map((finding) => ({ finding, trials: trialsFor(finding, seen, document), tried: [] as Tried[] }));
	for (let round = 0; round < MOST_PER_FINDING; round++)
		for (const { finding, trials, tried } of open) {
			const trial = trials[round];
			if (trial && mayTry(bench)) tried.push(...attempt(bench, finding, trial));
		}
	const repairs = new Map(open.map(({ finding, tried }) => [finding, shown(tried)]));
	return {
		...seen.plan,
		findings: seen.plan.findings.map((finding) => ({ ...finding, repairs: repairs.get(finding) ?? [] }))
	};
}

const mayTry = ({ trials, effort }: Bench): boolean =>
	trials < LEAST_PER_PLAN || (trials < MOST_PER_PLAN && effort > 0);

interface Trial {
	title: string;
	edits: Edit[];
}

/** What may be tried for a finding: candidates that change the document, each once. */
function trialsFor(finding: Finding, seen: Seen, document: unknown): Trial[] {
	const check = checks.find(({ rule }) => rule === finding.rule);
	const written = new Set<string>();
	return (check?.repairs?.(finding, seen) ?? [])
		.map((candidate) => ({ title: withRows(candidate.title, seen.run), edits: editsOf(document, candidate) }))
		.filter(({ edits }) => {
			const text = JSON.stringify(edits);
			return edits.length > 0 && !written.has(text) && written.add(text);
		});
}

const shown = (tried: Tried[]): Repair[] =>
	tried
		.sort((a, b) => cheaper(a.weight, b.weight))
		.slice(0, MOST_SHOWN)
		.map(({ title, cost, edits }) => ({ title, cost, edits }));

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

/** The candidate as a repair, if it keeps the promise; nothing if it does not. */
function attempt(bench: Bench, finding: Finding, { title, edits }: Trial): Tried[] {
	const { document, now, today, was } = bench;
	const run: Run = readRun(applyAll(document, edits), { today });
	if (run.problems.length > was.problems.length) return [];
	const { plan } = planSeen(run, now);
	bench.trials++;
	bench.effort -= effortOf(plan, run);
	if (plan.findings.some((other) => matter(other) === matter(finding))) return [];
	const known = new Set(was.findings.map((other) => `${other.severity} ${matter(other)}`));
	const fresh = plan.findings.filter((other) => !known.has(`${other.severity} ${matter(other)}`));
	if (fresh.some(({ severity }) => severity === 'stop')) return [];
	const cautions = fresh.filter(({ severity }) => severity === 'caution').map(({ rule }) => rule);
	const weight = costOf(was, plan, cautions);
	return [{ title, edits, cost: costText(weight), weight }];
}
