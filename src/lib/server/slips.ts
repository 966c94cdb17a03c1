import { setImmediate as nextTurn } from 'node:timers/promises';
import { phaseLabel } from '../calendar/index.ts';
import { labels } from '../formulary/index.ts';
import {
	briefSlip,
	dayIn,
	eachSlip,
	shownSlips,
	type BriefSlip,
	type Names,
	type ShownSlip,
	type Slip
} from '../planner/index.ts';
import { readRun, type Day, type Run } from '../run/index.ts';
import type { Document } from './document.ts';
import { readLog, type Entry } from './log.ts';
import { marksOf } from './marks.ts';
import { getRun, type StoredRun } from './runs.ts';
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
	/** the moment they were worked out for, and its day in the run's zone */
	at: string;
	today: Day;
	slips: ShownSlip[];
}

const kept = new WeakMap<Store, Map<string, { mark: string; made: Promise<RunSlips | null> }>>();
const MOST_KEPT = 100;

/**
 * The slips of a run as of `now`; null when there is no such run, or it was deleted. They take a march for each way, so
 * the same ones go to everybody who asks within a minute while nothing changes.
 */
export async function slipsOf(store: Store, id: string, now: string): Promise<RunSlips | null> {
	// asked before what is read, so that what is written meanwhile is another state
	const marks = await marksOf(store);
	const stored = await getRun(store, id);
	if (!stored || stored.deleted !== null) return null;
	const log = await readLog(store, id);
	const mark = `${marks.each.get(id)} ${now.slice(0, 16)}`;
	const all = kept.get(store) ?? new Map();
	kept.set(store, all);
	const known = all.get(id);
	if (known?.mark === mark) return known.made;
	const made = figure(stored, log, now);
	// the oldest goes
	if (!all.delete(id) && all.size >= MOST_KEPT) all.delete(all.keys().next().value ?? '');
	all.set(id, { mark, made });
	made.catch(() => all.delete(id));
	return made;
}

/** The same for the page of the day. */
export async function briefSlipsOf(
	store: Store,
	id: string,
	now: string
): Promise<{ at: string; slips: BriefSlip[] } | null> {
	const found = await slipsOf(store, id, now);
	return found && { at: found.at, slips: found.slips.map(briefSlip) };
}

async function figure(stored: StoredRun, log: Entry[], now: string): Promise<RunSlips> {
	const { id, version, document } = stored;
	const today = dayIn(String(document.timeZone), now);
	const whole = { ...document, id, log };
	const run = readRun(whole, { today });
	const names = namesIn(run);
	const called: Names = {
		phase: (one) => names.phases[one] ?? one,
		medicine: (one) => names.medicines[one] ?? one
	};
	const slips: Slip[] = [];
	for (const slip of eachSlip(whole, now, today)) {
		slips.push(slip);
		// whoever asks for something else meanwhile waits for one job's ways, not for all
		await nextTurn();
	}
	return {
		id,
		name: run.name,
		version,
		document,
		log,
		...names,
		at: now,
		today,
		slips: shownSlips(slips, called)
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
