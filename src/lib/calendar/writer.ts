import { clean, escape, fold } from './content-line.ts';
import type { CalendarEvent } from './event.ts';
import { dayNumber, dayText, type Day } from '../run/index.ts';
import type { Instant } from '../planner/index.ts';

/** Names the program that wrote the file (RFC 5545 3.7.3). */
export const productId = '-//Lazaret//Quarantine planner//EN';

/** `20261130T140000Z` for 2026-11-30T14:00:00Z. */
export const utcStamp = (at: Instant): string => at.replace(/[-:]/g, '');

export const dateStamp = (day: Day): string => day.replaceAll('-', '');

/** The day after; a whole-day event ends before it. */
export const dayAfter = (day: Day): Day => dayText(dayNumber(day) + 1);

/** RFC 5545 duration in minutes only: several readers refuse mixed or empty ones. Negative is before. */
export const triggerOf = (alarmMinutes: number): string =>
	alarmMinutes > 0 ? `-PT${alarmMinutes}M` : `PT${-alarmMinutes}M`;

/** Suggested wait between two looks at a feed; calendars may take far longer. */
const refresh = 'PT1H';

/**
 * A calendar as iCalendar text (RFC 5545, and REFRESH-INTERVAL of RFC 7986), lines of at most 75 octets ended
 * by CRLF. No METHOD: stored objects must have none. Byte for byte what `guardedIcs` writes, many times faster.
 */
export function writeIcs(events: readonly CalendarEvent[], name: string): string {
	const parts = [head(name)];
	for (const event of events) parts.push(eventText(event));
	parts.push('END:VCALENDAR\r\n');
	return parts.join('');
}

function head(name: string): string {
	const shown = escape(clean(name));
	return (
		'BEGIN:VCALENDAR\r\nVERSION:2.0\r\nCALSCALE:GREGORIAN\r\n' +
		`PRODID:${productId}\r\n` +
		(shown ? `${fold(`X-WR-CALNAME:${shown}`)}\r\n` : '') +
		`X-PUBLISHED-TTL:${refresh}\r\nREFRESH-INTERVAL;VALUE=DURATION:${refresh}\r\n`
	);
}

function eventText(event: CalendarEvent): string {
	const title = escape(clean(event.title));
	const description = escape(clean(event.description));
	const stamp = utcStamp(event.lastModified);
	return (
		'BEGIN:VEVENT\r\n' +
		`${fold(`UID:${escape(clean(event.uid))}`)}\r\n` +
		(title ? `${fold(`SUMMARY:${title}`)}\r\n` : '') +
		`DTSTAMP:${stamp}\r\n` +
		whenText(event) +
		`SEQUENCE:${event.sequence}\r\n` +
		(description ? `${fold(`DESCRIPTION:${description}`)}\r\n` : '') +
		(event.url ? `${fold(`URL:${event.url}`)}\r\n` : '') +
		(event.status ? `STATUS:${event.status}\r\n` : '') +
		(event.categories.length
			? `${fold(`CATEGORIES:${event.categories.map((word) => escape(clean(word))).join(',')}`)}\r\n`
			: '') +
		`TRANSP:TRANSPARENT\r\nLAST-MODIFIED:${stamp}\r\n` +
		(event.alarmMinutes === null ? '' : alarmText(title, event.alarmMinutes)) +
		'END:VEVENT\r\n'
	);
}

function whenText({ when }: CalendarEvent): string {
	return 'day' in when
		? `DTSTART;VALUE=DATE:${dateStamp(when.day)}\r\nDTEND;VALUE=DATE:${dateStamp(dayAfter(when.day))}\r\n`
		: `DTSTART:${utcStamp(when.start)}\r\nDTEND:${utcStamp(when.end)}\r\n`;
}

const alarmText = (title: string, alarmMinutes: number): string =>
	'BEGIN:VALARM\r\nACTION:DISPLAY\r\n' +
	(title ? `${fold(`DESCRIPTION:${title}`)}\r\n` : '') +
	`TRIGGER:${triggerOf(alarmMinutes)}\r\nEND:VALARM\r\n`;
