import { compare, compareWords, plan, type ComparisonWords, type Names } from '$lib/planner';
import { readRun } from '$lib/run';

/** A run at one moment: its document with its log. */
export interface Stand {
	document: object;
	log: readonly unknown[];
}

/** What really differs once a way was taken, from what the store then holds. Fetched only when somebody takes one. */
export function whatMoved(
	id: string,
	before: Stand,
	after: Stand,
	{ now, today }: { now: string; today: string },
	names: Names
): ComparisonWords {
	const [was, is] = [before, after].map(({ document, log }) =>
		plan(readRun({ ...document, id, log }, { today }), now)
	);
	if (!was || !is) throw new Error('two plans are compared');
	return compareWords(compare(was, is), names);
}
