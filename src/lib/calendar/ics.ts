import type { Instant, Plan } from '../planner/index.ts';
import type { Run } from '../run/index.ts';
import type { CalendarEvent, Draft } from './event.ts';
import { eventsOf, type EventOptions } from './events.ts';
import { guardedIcs } from './guard.ts';
import { rowOfEvent, stamp } from './revision.ts';
import { writeIcs } from './writer.ts';

export interface IcsOptions extends EventOptions {
	/** stamps what is new or changed */
	now: Instant;
	/** the events of the file written before (`readIcs`); they hand on what did not change */
	since?: readonly CalendarEvent[];
	/** the calendar's own name; absent: the run's */
	name?: string;
}

/** A plan with its run, as every export takes it. */
export interface Planned {
	run: Run;
	plan: Plan;
}

/**
 * A run's tasks as an iCalendar file. With `since`, tasks of this run that stood in the old file and left the
 * plan are written as CANCELLED: a file that is imported cannot delete. Same input, same bytes.
 */
export const planToIcs = (run: Run, plan: Plan, options: IcsOptions): string =>
	plansToIcs([{ run, plan }], { name: run.name, ...options });

/** Several runs in one file. */
export function plansToIcs(planned: readonly Planned[], options: IcsOptions & { name: string }): string {
	const drafts = planned.flatMap(({ run, plan }) => eventsOf(run, plan, options));
	const old = options.since ?? [];
	const gone = planned.flatMap(({ run, plan }) => goneFrom(old, drafts, run, plan, options));
	const { events } = stamp(old.map(rowOfEvent), [...drafts, ...gone], options.now);
	return eventsToIcs(events, options.name);
}

/** Up to this many events go through npm `ics` (0.3 ms each); the plain writer gives the same bytes. */
const mostGuarded = 200;

/** Any events as a file. */
export const eventsToIcs = (events: readonly CalendarEvent[], name: string): string =>
	events.length > mostGuarded || events.some(beforeEpoch) ? writeIcs(events, name) : guardedIcs(events, name);

/** npm `ics` takes no time before 1970. */
const beforeEpoch = ({ when, lastModified }: CalendarEvent): boolean =>
	('start' in when && when.start < '1970') || lastModified < '1970';

/** Old events of the run that are in the plan no more, in the order of their UIDs. */
function goneFrom(
	old: readonly CalendarEvent[],
	drafts: readonly Draft[],
	run: Run,
	plan: Plan,
	options: EventOptions
): Draft[] {
	const shown = new Set(drafts.map(({ uid }) => uid));
	// a kind left out by choice is not gone; single tasks are, once they are written per service
	const kept = new Set(eventsOf(run, plan, { ...options, kinds: undefined }).map(({ uid }) => uid));
	return old
		.filter(({ uid }) => uid.endsWith(`@${run.id}`) && !shown.has(uid) && !kept.has(uid))
		.map((event): Draft => ({ ...event, status: 'CANCELLED', alarmMinutes: null }))
		.toSorted((a, b) => (a.uid < b.uid ? -1 : 1));
}
