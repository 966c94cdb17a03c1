import ICAL from 'ical.js';
import type { Instant } from '../planner/index.ts';
import { read, unreadable, type Read } from '../units/index.ts';
import type { CalendarEvent, When } from './event.ts';

/**
 * The events of an older file, as far as this program writes them. Events of other programs come along; what
 * has no UID or no start is left out. Trouble: the text is no iCalendar at all.
 */
export function readIcs(text: string): Read<CalendarEvent[]> {
	try {
		const roots = ICAL.parse(text) as unknown[];
		const calendars = typeof roots[0] === 'string' ? [roots] : (roots as unknown[][]);
		if (!calendars.length) return refused(text);
		return read(
			calendars.flatMap((root) =>
				eventsIn(new ICAL.Component(root as ConstructorParameters<typeof ICAL.Component>[0]))
			)
		);
	} catch {
		return refused(text);
	}
}

const refused = (text: string) =>
	unreadable('calendar', text.slice(0, 40), 'an iCalendar file, BEGIN:VCALENDAR to END:VCALENDAR');

function eventsIn(calendar: ICAL.Component): CalendarEvent[] {
	if (calendar.name !== 'vcalendar') throw new Error('not a calendar');
	return calendar.getAllSubcomponents('vevent').flatMap((component) => eventOf(component) ?? []);
}

function eventOf(component: ICAL.Component): CalendarEvent | null {
	const uid = textOf(component, 'uid');
	const when = whenOf(component);
	if (!uid || !when) return null;
	const status = textOf(component, 'status');
	return {
		uid,
		when,
		title: textOf(component, 'summary'),
		description: textOf(component, 'description'),
		url: textOf(component, 'url') || null,
		categories: component
			.getAllProperties('categories')
			.flatMap((property) => property.getValues().map(String)),
		alarmMinutes: alarmOf(component),
		status: status === 'CONFIRMED' || status === 'CANCELLED' ? status : null,
		sequence: Number(component.getFirstPropertyValue('sequence') ?? 0),
		lastModified: instantOf(component, 'last-modified') ?? instantOf(component, 'dtstamp') ?? epoch
	};
}

const epoch: Instant = '1970-01-01T00:00:00Z';

const textOf = (component: ICAL.Component, name: string): string =>
	String(component.getFirstPropertyValue(name) ?? '');

function whenOf(component: ICAL.Component): When | null {
	const start = timeOf(component, 'dtstart');
	if (!start) return null;
	if (start.isDate) return { day: start.toString() };
	return { start: utc(start), end: utc(timeOf(component, 'dtend') ?? start) };
}

function timeOf(component: ICAL.Component, name: string): ICAL.Time | null {
	const value = component.getFirstPropertyValue(name);
	return value instanceof ICAL.Time ? value : null;
}

function instantOf(component: ICAL.Component, name: string): Instant | null {
	const time = timeOf(component, name);
	return time ? utc(time) : null;
}

const utc = (time: ICAL.Time): Instant =>
	new Date(time.toUnixTime() * 1000).toISOString().replace('.000Z', 'Z');

function alarmOf(component: ICAL.Component): number | null {
	const trigger = component.getFirstSubcomponent('valarm')?.getFirstPropertyValue('trigger');
	return trigger instanceof ICAL.Duration ? 0 - Math.round(trigger.toSeconds() / 60) : null;
}
