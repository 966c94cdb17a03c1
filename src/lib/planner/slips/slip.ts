import type { Edit, Taken } from '../../run/index.ts';
import type { Comparison } from '../compare.ts';
import type { Amount, Instant, Task } from '../plan.ts';

/** How a job is used in a run: what may be done about a missed one follows from it. */
export type Use = 'hold' | 'pulse' | 'daily' | 'dip' | 'transfer' | 'test' | 'change';

/** A log entry still without its id, which its writer makes. */
export interface ChoiceEntry {
	at: Instant;
	kind: 'choice';
	task: string;
	taken: Taken;
}

/** One way to go on: what it writes, and what the plan then is, marched to its end. */
export interface Way {
	taken: Taken;
	/** imperative, one line */
	title: string;
	/** taking it is writing exactly these entries and these edits */
	entries: ChoiceEntry[];
	edits: Edit[];
	safe: boolean;
	/** why it is not; null where it is */
	danger: string | null;
	because: string;
	source: string;
	/** what then has to be measured out, where the job is done now and can be figured */
	amount: Amount | null;
	/** against the plan as it stood before the first of the jobs that are open or were missed */
	release: Comparison['release'];
	/** against the plan as it stands */
	comparison: Comparison;
}

/** A way that is not offered, and why. */
export interface Withheld {
	title: string;
	because: string;
	source: string;
}

/** A job whose time has passed without an answer, or that was missed, with the ways to go on. */
export interface Slip {
	task: Task;
	use: Use;
	/** hours since it was due */
	hoursLate: number;
	/** empty where there are more slips than can be marched at once: answer the earlier ones first */
	ways: Way[];
	/** the way that is proposed; null where none is safe */
	proposed: Taken | null;
	/** why that one */
	reason: string;
	/** ways that other jobs know and that make no sense for this one */
	withheld: readonly Withheld[];
}
