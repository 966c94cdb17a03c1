import { compare, compareWords, plan, releaseSince, type ComparisonWords, type Names } from '$lib/planner';
import { readRun, type Day } from '$lib/run';

/** A run at one moment: its document with its log. */
export interface Stand {
	document: object;
	log: readonly unknown[];
}

/**
 * What really differs once a way was taken, from what the store then holds; its release against the one that was
 * `planned` before any job was missed. Fetched only when somebody takes a way.
 */
export function whatMoved(
	id: string,
	before: Stand,
	after: Stand,
	{ now, today }: { now: string; today: string },
	names: Names,
	planned: Day | null
): ComparisonWords {
	const [was, is] = [before, after].map(({ document, log }) =>
		plan(readRun({ ...document, id, log }, { today }), now)
	);
	if (!was || !is) throw new Error('two plans are compared');
	return { ...compareWords(compare(was, is), names), release: releaseSince(planned, is.release) };
}
