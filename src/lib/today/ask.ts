import type { Amount, Instant } from '../planner/index.ts';
import type { Band } from '../run/index.ts';

/** How grave a reading is; `good` asks for nothing. */
export type Tone = 'good' | 'note' | 'caution' | 'stop';

/** A bound of an ordinary measurable: what is said past it. */
export interface Bound {
	/** true: speaks above `at`; false: below it */
	above: boolean;
	at: number;
	tone: Tone;
	text: string;
}

/** The bottle that answers a reading. Active amounts are mg, or uL of a liquid counted whole. */
export interface AskedDose {
	medicine: string;
	name: string;
	/** active substance in one unit measured from the bottle */
	activePerUnit: number;
	unit: Amount['unit'];
	/** smallest step of the measuring tool; null: no rounding */
	step: number | null;
	/** most that one service may raise, mg/L or uL/L; null: no such limit */
	raiseMost: number | null;
}

/** A level that is held: the window, and what today's dose aims at (a step of the ramp, or the aim). */
export interface Keep {
	floor: number;
	target: number;
	ceiling: number;
	/** what a low level would cost the course, which has earned something; absent: nothing hangs on it */
	pause?: Pausing;
}

/** A level at `least` or above it that is back inside by then only pauses its course. */
export interface Pausing {
	by: Instant;
	/** the same in words, and since when the level may be out */
	byWords: string;
	sinceWords: string;
	least: number;
}

/** What is needed to turn an ammonia kit's number into the toxic share. Limits are NH3-N, mg/L. */
export interface AskedAmmonia {
	/** un-ionised share of the total; null: pH or temperature unknown */
	share: number | null;
	/** the water that share belongs to, in words */
	water: string;
	/** total ammonia in new water, mg/L N */
	sourceMgNPerL: number;
	act: number;
	override: number;
	emergency: number;
}

/**
 * Everything a typed reading is judged against, worked out beforehand so that the judging needs no plan and no
 * network. Levels are mg/L (uL/L for a liquid counted whole), volumes litres.
 */
export interface Ask {
	/** what is measured: a measurable, or a medicine's id */
	what: string;
	name: string;
	unit: string;
	/** what the kit's number may count, the usual one first; empty: only one thing */
	forms: readonly string[];
	/** expected, in the unit above (total ammonia as N); null: not known */
	forecast: number | null;
	/** a number outside is ten times off the forecast; null: no forecast to be off from */
	believed: Band | null;
	/** water in the tank now, and when it is topped off */
	volumeL: number | null;
	brimL: number | null;
	keep: Keep | null;
	/** the reading before this one was low against its forecast too, is logged, and nothing has made up for it */
	lowBefore: boolean;
	/** the level if that one was wrong, where it is too old to be confirmed; null: it is not */
	otherwise?: number | null;
	/** the most this medicine may stand at outside a hold */
	ceiling: number | null;
	/** at or under this a wash-out is over */
	clear: number | null;
	dose: AskedDose | null;
	/** share of the water that this service's change still takes out, and its task */
	thins: { task: string; fraction: number } | null;
	/** the top-off that still belongs to this service */
	topoff: string | null;
	ammonia: AskedAmmonia | null;
	bounds: readonly Bound[];
}

/** What a reading came to. */
export interface Verdict {
	tone: Tone;
	/** one to three plain sentences, numbers first */
	text: string;
	/**
	 * what this reading makes of the dose of this service; `now` null: nothing may be given. Absent where the reading
	 * does not speak about a dose.
	 */
	dose?: { medicine: string; now: Amount | null; rest: Amount | null };
	/** the water that this reading of ammonia asks to be changed */
	away?: Amount;
	/** the emergency card that belongs to it */
	card?: 'overdose' | 'fouling';
}
