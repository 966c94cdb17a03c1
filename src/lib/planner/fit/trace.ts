import type { Run } from '../../run/index.ts';
import type { WaterState } from '../../water/index.ts';
import type { Effect, Rates } from '../tank-water.ts';

/** What happened to the water, in order: all that an estimate needs to go the same way with other rates. */
export type TraceEvent =
	| { is: 'age'; days: number; volumeL: number; rates: Rates }
	| { is: 'effect'; effect: Effect; volumeL: number }
	| ReadEvent;

/** One reading, in the unit of the forecast. */
export interface ReadEvent {
	is: 'reading';
	/** `NH3`, or a medicine's id */
	of: string;
	/** mg/L (uL/L), ammonia as TAN in mg/L N */
	level: number;
	/** the number on the kit's card, and what one of it is worth as `level` */
	shown: number;
	perShown: number;
	/** the forecast that the reading met, mg/L (uL/L) */
	forecast: number;
	volumeL: number;
	/** a reading that blanks doses is a slip or an emergency: it says nothing about rates */
	teaches: boolean;
}

export interface Trace {
	/** what the tank held when the run began, mg N */
	tanMg: number;
	volumeL: number;
	events: TraceEvent[];
	/** readings are still to come; after the last one nothing more is written down */
	open: boolean;
}

/** A trace to be written; null for a run that nobody read anything in, or whose volume is unknown. */
export const traceOf = (run: Run, { tanMg, volumeL }: WaterState): Trace | null =>
	run.tank.netL !== null && run.log.some(({ kind }) => kind === 'reading' || kind === 'correct')
		? { tanMg, volumeL, events: [], open: true }
		: null;

export const readingsOf = ({ events }: Trace, of: string): ReadEvent[] =>
	events.filter((event) => event.is === 'reading' && event.of === of && event.teaches) as ReadEvent[];
