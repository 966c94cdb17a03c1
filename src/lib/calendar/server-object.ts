import ICAL from 'ical.js';
import { clean, fold } from './content-line.ts';
import type { CalendarEvent } from './event.ts';
import { dayAfter, productId, triggerOf } from './writer.ts';

/** What a calendar server keeps of a task: a to-do, or an event where it takes no to-dos. */
export type ObjectKind = 'VTODO' | 'VEVENT';

/**
 * A task, or a service, as the one object of a calendar resource, timed or for a whole day. With `base`, the text the server holds, that component
 * is changed in place: properties and alarms of other programs survive, only what is ours is set. `doneAt` is the
 * instant a finished task was done. No METHOD (stored objects must have none), lines of at most 75 octets.
 */
export function writeObject(
	event: CalendarEvent,
	kind: ObjectKind,
	doneAt: string | null,
	base: string | null
): string {
	const calendar = (base === null ? null : calendarIn(base)) ?? emptyCalendar();
	const known = calendar.getFirstSubcomponent(kind.toLowerCase());
	const component = known ?? new ICAL.Component(kind.toLowerCase());
	if (!known) calendar.addSubcomponent(component);
	calendar.removeAllProperties('method');
	setShown(component, event, kind);
	if (kind === 'VTODO') setToDo(component, event, doneAt);
	else setEvent(component, event);
	setAlarm(component, event, kind);
	return folded(calendar.toString());
}

function emptyCalendar(): ICAL.Component {
	const calendar = new ICAL.Component('vcalendar');
	calendar.addPropertyWithValue('version', '2.0');
	calendar.addPropertyWithValue('prodid', productId);
	return calendar;
}

/** Null when the text is no calendar: then the object is written anew. */
export function calendarIn(text: string): ICAL.Component | null {
	try {
		const root = new ICAL.Component(ICAL.parse(text) as ConstructorParameters<typeof ICAL.Component>[0]);
		return root.name === 'vcalendar' ? root : null;
	} catch {
		return null;
	}
}

function setShown(component: ICAL.Component, event: CalendarEvent, kind: ObjectKind): void {
	const changed = ICAL.Time.fromDateTimeString(event.lastModified);
	component.updatePropertyWithValue('uid', event.uid);
	component.updatePropertyWithValue('dtstamp', changed);
	component.updatePropertyWithValue('last-modified', changed);
	component.updatePropertyWithValue('sequence', event.sequence);
	// a to-do is ticked by its program; an event can only say it in its title
	component.updatePropertyWithValue('summary', clean(kind === 'VTODO' ? unmarked(event.title) : event.title));
	component.updatePropertyWithValue('description', clean(event.description));
	component.removeAllProperties('url');
	if (event.url) component.addPropertyWithValue('url', event.url);
	component.removeAllProperties('categories');
	const categories = new ICAL.Property('categories', component);
	categories.setValues(event.categories.map(clean));
	if (event.categories.length) component.addProperty(categories);
	// a task happens once: a repeat would be another's
	for (const name of ['rrule', 'rdate', 'exdate', 'duration']) component.removeAllProperties(name);
}

const unmarked = (title: string): string => title.replace(/^[✓✗] /, '');

const startOf = ({ when }: CalendarEvent): ICAL.Time =>
	'day' in when ? ICAL.Time.fromDateString(when.day) : ICAL.Time.fromDateTimeString(when.start);

const endOf = ({ when }: CalendarEvent): ICAL.Time =>
	'day' in when ? ICAL.Time.fromDateString(dayAfter(when.day)) : ICAL.Time.fromDateTimeString(when.end);

function setTime(component: ICAL.Component, name: string, time: ICAL.Time): void {
	// the old one may carry a zone of its own
	component.removeAllProperties(name);
	component.addPropertyWithValue(name, time);
}

function setToDo(component: ICAL.Component, event: CalendarEvent, doneAt: string | null): void {
	setTime(component, 'due', startOf(event));
	// another program's start would have to lie before the due time, which may have moved
	component.removeAllProperties('dtstart');
	const status = { CONFIRMED: 'COMPLETED', CANCELLED: 'CANCELLED' } as const;
	component.updatePropertyWithValue('status', event.status ? status[event.status] : 'NEEDS-ACTION');
	component.removeAllProperties('completed');
	component.removeAllProperties('percent-complete');
	if (event.status !== 'CONFIRMED') return;
	component.addPropertyWithValue('completed', ICAL.Time.fromDateTimeString(doneAt ?? event.lastModified));
	component.addPropertyWithValue('percent-complete', 100);
}

function setEvent(component: ICAL.Component, event: CalendarEvent): void {
	setTime(component, 'dtstart', startOf(event));
	setTime(component, 'dtend', endOf(event));
	component.updatePropertyWithValue('transp', 'TRANSPARENT');
	component.removeAllProperties('status');
	if (event.status) component.addPropertyWithValue('status', event.status);
}

/** Marks the alarm that is ours among those a phone may have added. */
const ours = 'x-lazaret-alarm';

function setAlarm(component: ICAL.Component, event: CalendarEvent, kind: ObjectKind): void {
	const mine = component
		.getAllSubcomponents('valarm')
		.find((alarm) => alarm.getFirstPropertyValue(ours) !== null);
	if (event.alarmMinutes === null) {
		if (mine) component.removeSubcomponent(mine);
		return;
	}
	const trigger = triggerOf(event.alarmMinutes);
	const known = mine?.getFirstPropertyValue('trigger');
	// left as it is, with what the phone noted on it
	if (known instanceof ICAL.Duration && known.toSeconds() === -60 * event.alarmMinutes) return;
	if (mine) component.removeSubcomponent(mine);
	const alarm = new ICAL.Component('valarm');
	alarm.addPropertyWithValue('action', 'DISPLAY');
	alarm.addPropertyWithValue('description', clean(event.title));
	const property = alarm.addPropertyWithValue('trigger', ICAL.Duration.fromString(trigger));
	if (kind === 'VTODO') property.setParameter('related', 'END');
	alarm.addPropertyWithValue(ours, '1');
	component.addSubcomponent(alarm);
}

/** The library folds a line one octet too long, and ends the last one with nothing. */
const folded = (text: string): string =>
	`${text
		.replace(/\r\n[ \t]/g, '')
		.trimEnd()
		.split('\r\n')
		.map(fold)
		.join('\r\n')}\r\n`;
