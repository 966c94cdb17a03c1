import { phaseLabel } from '../calendar/index.ts';
import { labels } from '../formulary/index.ts';
import { openSlips, shownSlips, type Names, type ShownSlip } from '../planner/index.ts';
import { readRun, type Day, type Run } from '../run/index.ts';
import type { Document } from './document.ts';
import { readLog, type Entry } from './log.ts';
import { getRun } from './runs.ts';
import type { Store } from './store.ts';

/** A run's open and missed jobs with the ways to go on, and what they were worked out from. */
export interface RunSlips {
	id: string;
	name: string;
	version: number;
	document: Document;
	log: Entry[];
	/** how its phases and medicines are called, by id */
	phases: Record<string, string>;
	medicines: Record<string, string>;
	slips: ShownSlip[];
}

/** The slips of a run as of `now`; null when there is no such run, or it was deleted. */
export async function slipsOf(store: Store, id: string, now: string, today: Day): Promise<RunSlips | null> {
	const stored = await getRun(store, id);
	if (!stored || stored.deleted !== null) return null;
	const { version, document } = stored;
	const log = await readLog(store, id);
	const whole = { ...document, id, log };
	const run = readRun(whole, { today });
	const names = namesIn(run);
	const called: Names = {
		phase: (one) => names.phases[one] ?? one,
		medicine: (one) => names.medicines[one] ?? one
	};
	return {
		id,
		name: run.name,
		version,
		document,
		log,
		...names,
		slips: shownSlips(openSlips(whole, now, today), called)
	};
}

function namesIn({ phases, medicines }: Run): Pick<RunSlips, 'phases' | 'medicines'> {
	const bottles = Object.fromEntries(medicines.map(({ id, active }) => [id, labels[active].name]));
	return {
		phases: Object.fromEntries(
			phases.map((phase) => [
				phase.id,
				phase.medicine && bottles[phase.medicine]
					? `${bottles[phase.medicine]}, ${phase.kind.replace('-', ' ')}`
					: phaseLabel(phase, null, '')
			])
		),
		medicines: bottles
	};
}
