import { dayNumber, dayText, type Day } from '../run/index.ts';
import type { Instant } from '../planner/index.ts';
import type { CalendarEvent } from './event.ts';
import { eventsOf, type EventOptions } from './events.ts';
import type { Planned } from './ics.ts';
import { stamp, type IdentityRow } from './revision.ts';
import { writeIcs } from './writer.ts';

/**
 * What calendar services take of a subscription: above about 1 MB or 1,100 events some drop the rest without a
 * word (reports by users, no source of the services themselves).
 */
export const feedBounds = { daysBack: 30, daysAhead: 180, events: 1000, octets: 1_000_000 };

export interface FeedOptions extends EventOptions {
	now: Instant;
	/** the calendar's name */
	name: string;
	/** what the last rendering remembered; empty the first time */
	previous: readonly IdentityRow[];
}

export interface Feed {
	body: string;
	/** to be kept for the next time, tombstones included */
	rows: IdentityRow[];
	leftOut: LeftOut;
}

/** What a feed does not hold, so that it can be said. */
export interface LeftOut {
	/** events before the window, and after it */
	earlier: number;
	later: number;
	/** events inside it that were too many */
	over: number;
	/** descriptions were dropped to keep the size */
	descriptions: boolean;
}

/**
 * The body of a subscribed calendar: the tasks around `now` of every run given. A removed task is simply absent,
 * which is how subscribers delete; a done one stays, marked. Days are counted in UTC from the day of `now`.
 */
export function feedOf(planned: readonly Planned[], options: FeedOptions): Feed {
	const drafts = planned.flatMap(({ run, plan }) => eventsOf(run, plan, options));
	const { rows, events } = stamp(options.previous, drafts, options.now);
	const window = inWindow(events, options.now);
	const kept = mostWanted(window.events, options.now, feedBounds.events);
	const fitted = fit(kept, options);
	const leftOut = { ...window.leftOut, over: window.events.length - fitted.count, descriptions: fitted.bare };
	return { body: fitted.body, rows, leftOut };
}

const dayOf = ({ when }: CalendarEvent): Day => ('day' in when ? when.day : when.start.slice(0, 10));

function inWindow(events: readonly CalendarEvent[], now: Instant) {
	const today = dayNumber(now.slice(0, 10));
	const first = dayText(today - feedBounds.daysBack);
	const last = dayText(today + feedBounds.daysAhead);
	const earlier = events.filter((event) => dayOf(event) < first).length;
	const later = events.filter((event) => dayOf(event) > last).length;
	const inside = events.filter((event) => dayOf(event) >= first && dayOf(event) <= last);
	return { events: inside, leftOut: { earlier, later } };
}

/** The next `most` events; what is past goes first, then what is furthest ahead. In their old order. */
function mostWanted(events: readonly CalendarEvent[], now: Instant, most: number): CalendarEvent[] {
	if (events.length <= most) return [...events];
	const today = now.slice(0, 10);
	const byNeed = events.toSorted((a, b) => {
		const [x, y] = [dayOf(a), dayOf(b)];
		const [xPast, yPast] = [x < today, y < today];
		if (xPast !== yPast) return xPast ? 1 : -1;
		return (x < y ? -1 : Number(x > y)) * (xPast ? -1 : 1);
	});
	const wanted = new Set(byNeed.slice(0, most));
	return events.filter((event) => wanted.has(event));
}

/** Under the size bound: with descriptions if they fit, else without, else with fewer events. */
function fit(events: readonly CalendarEvent[], { name, now }: FeedOptions) {
	const whole = writeIcs(events, name);
	if (octetsOf(whole) <= feedBounds.octets) return { body: whole, count: events.length, bare: false };
	let left = events.map((event) => ({ ...event, description: '' }));
	let body = writeIcs(left, name);
	while (octetsOf(body) > feedBounds.octets && left.length > 1) {
		left = mostWanted(left, now, Math.floor(left.length * 0.9));
		body = writeIcs(left, name);
	}
	return { body, count: left.length, bare: true };
}

const utf8 = new TextEncoder();
const octetsOf = (text: string): number => utf8.encode(text).length;

/** What is missing from a feed, in words; empty when nothing is. */
export function leftOutSentences({ earlier, later, over, descriptions }: LeftOut): string[] {
	const sentences: string[] = [];
	const { daysBack, daysAhead } = feedBounds;
	if (earlier) sentences.push(`${count(earlier)} more than ${daysBack} days back ${are(earlier)} left out.`);
	if (later)
		sentences.push(`${count(later)} more than ${daysAhead} days ahead ${are(later)} left out for now.`);
	if (over) sentences.push(`${count(over)} ${are(over)} left out: calendar services take no more at once.`);
	if (descriptions)
		sentences.push('Reasons and cautions are left out of the entries to keep the feed small.');
	return sentences;
}

const count = (events: number): string => (events === 1 ? '1 entry' : `${events} entries`);
const are = (events: number): string => (events === 1 ? 'is' : 'are');
