import type { Bottle } from './bottle.ts';
import type { Amount, Task, TaskKind } from './plan.ts';
import type { Effect, Forecast, NewWater } from './tank-water.ts';

/** What a job turned out to be when its turn came. Words are made only when the walk is recorded. */
export interface Deed {
	effects: Effect[];
	amount: Amount | null;
	/** the words and numbers of the task */
	words(): Pick<Task, 'text' | 'because'> &
		Partial<
			Pick<
				Task,
				'raises' | 'medicine' | 'what' | 'equipment' | 'minutes' | 'cautions' | 'fraction' | 'urgent'
			>
		>;
	/** the effects when the keeper did another amount than planned */
	scale?: (done: Pick<Amount, 'value' | 'unit'>, water: Forecast) => Effect[];
}

/** One thing due in a service, before its amount is known: that depends on what is done before it. */
export interface Job {
	phase: string;
	kind: TaskKind;
	/** last part of the task id */
	n: string;
	/** medicine dosed, if it doses */
	bottle?: Bottle;
	/** a change asks for a share of the volume; only the largest of a service is made */
	fraction?: number;
	/** what is measured, for tests */
	what?: string[];
	equipment?: { what: string; on: boolean };
	/** nothing is left to do: null */
	act(water: Forecast, source: NewWater): Deed | null;
	/** told once it counts as done, and when that was */
	applied?(atMs: number): void;
}

const first = ['observe', 'topoff', 'test'];
const last = ['acclimate', 'dip', 'transfer', 'feed', 'supply', 'release', 'clean'];

/** The order of work within a service: look, top off, test, equipment out, change, salinity, dose, equipment in, the rest. */
export function rank(job: Pick<Job, 'kind' | 'equipment'>): number {
	const early = first.indexOf(job.kind);
	if (early >= 0) return early;
	switch (job.kind) {
		case 'equipment':
			return job.equipment?.on ? 7 : 3;
		case 'change':
		case 'washout':
			return 4;
		case 'salinity':
			return 5;
		case 'dose':
			return 6;
		default:
			return 8 + last.indexOf(job.kind);
	}
}
