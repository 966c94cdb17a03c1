import ICAL from 'ical.js';
import { Temporal } from '#temporal';
import type { Instant } from '../planner/index.ts';
import type { Day } from '../run/index.ts';
import { calendarIn, type ObjectKind } from './server-object.ts';

/** What a calendar server holds of one task, as far as it matters here. */
export interface Received {
	uid: string;
	kind: ObjectKind;
	/** when it is due, or begins; a whole day where the program took its time away */
	at: Instant | Day | null;
	done: boolean;
	/** null: the program did not say */
	completedAt: Instant | null;
	title: string;
	description: string;
	status: string;
	sequence: number;
	repeats: boolean;
}

/** What a phone did to a task since the last look. */
export interface News {
	done: boolean;
	reopened: boolean;
	/** where its time went */
	moved: Instant | Day | null;
	/** words of what else was changed that is not the phone's to change */
	changed: string[];
}

/**
 * Reads the resource of one task. A time without a zone is on the clock of `timeZone`. Null when the text is no
 * calendar, or holds no single task.
 */
export function readObject(text: string, timeZone: string): Received | null {
	const calendar = calendarIn(text);
	const component = calendar?.getFirstSubcomponent('vtodo') ?? calendar?.getFirstSubcomponent('vevent');
	const uid = component ? textOf(component, 'uid') : '';
	if (!component || uid === '') return null;
	const kind = component.name === 'vtodo' ? 'VTODO' : 'VEVENT';
	const status = textOf(component, 'status').toUpperCase();
	const completedAt = timeOf(component, 'completed', timeZone);
	return {
		uid,
		kind,
		at: timeOf(component, kind === 'VTODO' ? 'due' : 'dtstart', timeZone),
		done: kind === 'VTODO' && (status === 'COMPLETED' || (status === '' && completedAt !== null)),
		completedAt: completedAt?.includes('T') ? completedAt : null,
		title: textOf(component, 'summary'),
		description: textOf(component, 'description'),
		status,
		sequence: Number(component.getFirstPropertyValue('sequence') ?? 0) || 0,
		repeats: component.hasProperty('rrule') || component.hasProperty('rdate')
	};
}

const textOf = (component: ICAL.Component, name: string): string =>
	String(component.getFirstPropertyValue(name) ?? '');

function timeOf(component: ICAL.Component, name: string, timeZone: string): Instant | Day | null {
	const property = component.getFirstProperty(name);
	const value = property?.getFirstValue();
	if (!property || !(value instanceof ICAL.Time)) return null;
	if (value.isDate) return value.toString();
	if (value.zone === ICAL.Timezone.utcTimezone) return instantText(value.toUnixTime() * 1000);
	const wall = value.toString().replace(/Z$/, '');
	const named = String(property.getFirstParameter('tzid') ?? '');
	const known = named && zonedMs(wall, named);
	if (known) return instantText(known);
	// a zone of the file's own, with a name nobody else has
	if (named && value.zone && value.zone !== ICAL.Timezone.localTimezone)
		return instantText(value.toUnixTime() * 1000);
	return instantText(zonedMs(wall, timeZone) ?? value.toUnixTime() * 1000);
}

function zonedMs(wall: string, zone: string): number | null {
	try {
		return Temporal.PlainDateTime.from(wall).toZonedDateTime(zone).epochMilliseconds;
	} catch {
		return null;
	}
}

const instantText = (ms: number): Instant => new Date(ms).toISOString().replace(/\.\d+Z$/, 'Z');

/** What changed between what was there at the last look and what is there now. */
export function newsOf(was: Received, now: Received): News {
	const moved = now.at !== was.at;
	const changed: string[] = [];
	if (now.title !== was.title) changed.push('title');
	if (now.description !== was.description) changed.push('notes');
	if (now.repeats) changed.push('repeat');
	if (moved && now.at === null) changed.push('time');
	if (now.status === 'CANCELLED' && was.status !== 'CANCELLED') changed.push('state');
	return {
		done: now.done && !was.done,
		reopened: was.done && !now.done,
		moved: moved ? now.at : null,
		changed
	};
}
