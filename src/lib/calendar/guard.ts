import { createEvents, type DateArray, type EventAttributes, type HeaderAttributes } from 'ics';
import { clean, escape, fold } from './content-line.ts';
import type { CalendarEvent } from './event.ts';
import { dayAfter, productId, triggerOf } from './writer.ts';

/** `timestamp` is read by the library but missing from its types. */
type Attributes = EventAttributes & { timestamp: number };

/**
 * Events through npm `ics`, with a guard on both sides: what it does not escape is escaped before, what it folds
 * by graphemes is folded by octets after, times go in as milliseconds so the host's zone plays no part, METHOD
 * is dropped, empty durations are repaired and REFRESH-INTERVAL is added. Throws what the library refuses: the
 * events are ours, so that is a bug.
 */
export function guardedIcs(events: readonly CalendarEvent[], name: string): string {
	const header: HeaderAttributes = { productId, method: undefined, calName: escape(clean(name)) };
	const { error, value } = createEvents(events.map(attributesOf), header);
	// the library's error is a plain object; its list is the useful part
	if (error || !value)
		throw new Error(`ics refused an event: ${JSON.stringify((error as Error | undefined) ?? 'no text')}`);
	return repaired(value);
}

function attributesOf(event: CalendarEvent): Attributes {
	const title = clean(event.title);
	const changed = Date.parse(event.lastModified);
	return {
		uid: escape(clean(event.uid)),
		title,
		timestamp: changed,
		lastModified: changed,
		...timesOf(event),
		sequence: event.sequence,
		description: clean(event.description),
		...(event.url ? { url: event.url } : {}),
		...(event.status ? { status: event.status } : {}),
		...(event.categories.length ? { categories: event.categories.map((word) => escape(clean(word))) } : {}),
		transp: 'TRANSPARENT',
		...(event.alarmMinutes === null ? {} : { alarms: [alarmOf(title, event.alarmMinutes)] })
	};
}

function timesOf({ when }: CalendarEvent): { start: number | DateArray; end: number | DateArray } {
	if ('day' in when) return { start: dateArray(when.day), end: dateArray(dayAfter(when.day)) };
	return { start: Date.parse(when.start), end: Date.parse(when.end) };
}

const dateArray = (day: string): DateArray => day.split('-').map(Number) as unknown as DateArray;

const alarmOf = (title: string, alarmMinutes: number) => ({
	action: 'display' as const,
	description: escape(title),
	trigger: { before: alarmMinutes > 0, minutes: Math.abs(alarmMinutes) }
});

const ttl = 'X-PUBLISHED-TTL:PT1H';

function repaired(text: string): string {
	const lines = text.replace(/\r\n[ \t]/g, '').split('\r\n');
	return lines.flatMap(mended).map(fold).join('\r\n');
}

function mended(line: string): string | string[] {
	if (line === 'TRIGGER:PT' || line === 'TRIGGER:-PT') return `TRIGGER:${triggerOf(0)}`;
	if (line === ttl) return [ttl, 'REFRESH-INTERVAL;VALUE=DURATION:PT1H'];
	return line;
}
