import type { Phase, PhaseKind, Run, Taken } from '../run/index.ts';
import type { Bottle } from './bottle.ts';
import type { Service } from './clock.ts';
import type { Job } from './job.ts';
import type { TaskKind } from './plan.ts';
import type { Forecast } from './tank-water.ts';

/** What has passed between two services, told to every active phase at the second one. */
export interface Interval {
	from: Service;
	/** local wall-clock days between the two services */
	wallDays: number;
	/** lowest level of each medicine from the end of the first service to the start of the second */
	lowest: readonly number[];
	/** highest salinity in the interval, ppt; null when unknown */
	saltiestPpt: number | null;
}

/** What the tank tells a phase. */
export interface Bench {
	run: Run;
	bottles: readonly Bottle[];
	/** null while the volume is unknown */
	netL: number | null;
	/** forecast level now, mg/L or uL/L */
	level(bottle: Bottle): number;
	/** the most of it that may be left: at the published least loss, whatever was learned */
	mostLeft(bottle: Bottle): number;
	salinityPpt(): number | null;
	/** wall-clock day of the last test of this thing, planned or logged; null: never */
	lastTest(what: string): number | null;
	/** nobody is there on this day */
	away(day: number): boolean;
	/** the automatic change planned for this service; `natural` is the day its id counts */
	plannedChange(service: Service): { fraction: number; natural: number } | null;
	/** the last test of this thing was a logged reading above this level, at or after the wall-clock day `since` */
	kitStillShows(what: string, above: number, since: number): boolean;
	/** the most a dose may raise this medicine after an unconfirmed low reading; null: no such bound */
	unconfirmedRoom(bottle: Bottle, water: Forecast): number | null;
	/** why no dose of this medicine may be figured now; null: it may */
	withheld(bottle: Bottle): string | null;
	/** when the work that is figured now is done at the soonest, wall-clock days */
	handsWall(): number;
}

/** A reading that was logged, told to every active phase. */
export interface ReadingNews {
	what: string;
	value: number;
	wall: number;
}

/** What the keeper chose about a job of this phase that is open or was missed. */
export interface Chosen {
	kind: TaskKind;
	/** number of the job */
	n: number;
	taken: Taken;
	/** the day it was chosen on */
	day: number;
	/** the day of the first service after it that a series can begin anew on */
	nextDay: number;
	/** the job of this number has its answer: what happened does not move */
	settled(n: number): boolean;
}

/** One phase under way: a small state machine. `today` is the service's day, in days since 1970-01-01. */
export interface PhaseRun {
	/** an interval has passed */
	passed?(interval: Interval, bench: Bench): void;
	/** the jobs of this service */
	due(service: Service, bench: Bench): Job[];
	/** it can never end by itself: nothing it waits for will come */
	stuck?(service: Service, bench: Bench): boolean;
	/** ended with the day before: judged at the first service of a day, before anything is done */
	endedBefore?(service: Service, bench: Bench): boolean;
	/** this is its last day: judged after the day's last service */
	endsWith(service: Service, bench: Bench): boolean;
	/** days earned so far, for phases that count credit */
	credit?(): number;
	/** a level that is read as low from now on only pauses the course if it is back by then, wall-clock days; null: nothing pauses */
	pausesUntil?(): number | null;
	heard?(reading: ReadingNews): void;
	/** the water has been worked on */
	levelled?(bench: Bench): void;
	/** all credit is lost: fish have joined */
	restart?(): void;
	/** the keeper chose what becomes of one of its jobs; true where that is one of a series, which follows it */
	chosen?(choice: Chosen, bench: Bench): boolean;
	/** task id of the job that has to be answered before the phase is over */
	awaits?(): string | null;
	/** a dose still acts at this service, maybe after the phase's last day: no change should thin it */
	acting?(service: Service): boolean;
	/** gives back what an emergency's change takes, `share` of the water; the hour of it names the jobs */
	madeUp?(service: Service, share: number, bench: Bench): Job[];
	/** what a change that had to be made all the same took out of that dose */
	again?(service: Service, bench: Bench): Job[];
}

export interface PhaseKindRow {
	kind: PhaseKind;
	/** a new state machine, for a phase that begins on `from` */
	begin(phase: Phase, bottle: Bottle | null, from: number, bench: Bench): PhaseRun;
}

/** The day of a phase, counted from 1: the number in the id of everything the sheet does not count itself. */
export const dayOf = ({ day, slot, beside, written }: Service, from: number): string => {
	const n = String(day - from + 1);
	if (beside) return `${n}.${written.replace(':', '')}`;
	return slot === 0 ? n : `${n}.${slot + 1}`;
};
