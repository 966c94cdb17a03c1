import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import type { CalendarEvent } from './event.ts';
import { newsOf, readObject } from './received.ts';
import { sampleTexts } from './sample-text.ts';
import { clean } from './content-line.ts';
import { writeObject } from './server-object.ts';

const event = (more: Partial<CalendarEvent> = {}): CalendarEvent => ({
	uid: 'copper/dose/2@harbour',
	when: { start: '2027-02-02T14:00:00Z', end: '2027-02-02T14:10:00Z' },
	title: 'Q7: Ionic copper 4.3 mL',
	description: 'Rises in two steps, 0.09 mg/L of 0.18.\nThe product label comes first.',
	url: 'http://127.0.0.1:4173/runs/harbour?task=copper%2Fdose%2F2',
	categories: ['dose'],
	alarmMinutes: 30,
	status: null,
	sequence: 3,
	lastModified: '2027-01-31T12:00:00Z',
	...more
});
const zone = 'America/Chicago';
const read = (text: string) => readObject(text, zone);
const lines = (text: string) => text.split('\r\n');
const patched = (text: string, from: RegExp | string, to: string) => {
	const made = text.replace(from, to);
	expect(made).not.toBe(text);
	return made;
};

describe('a task as a to-do', () => {
	const text = writeObject(event(), 'VTODO', null, null);

	test('carries due time, state, alarm before the due time, and no METHOD', () => {
		expect(lines(text)).toEqual(
			expect.arrayContaining([
				'BEGIN:VTODO',
				'UID:copper/dose/2@harbour',
				'DUE:20270202T140000Z',
				'STATUS:NEEDS-ACTION',
				'SEQUENCE:3',
				'CATEGORIES:dose',
				'DTSTAMP:20270131T120000Z',
				'LAST-MODIFIED:20270131T120000Z',
				'TRIGGER;RELATED=END:-PT30M'
			])
		);
		expect(text).not.toMatch(/^(METHOD|DTSTART|DTEND|COMPLETED):/m);
		expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
	});

	test('done says when, and drops the mark from its title', () => {
		const done = event({ status: 'CONFIRMED', title: '✓ Q7: Ionic copper 4.3 mL', alarmMinutes: null });
		const made = writeObject(done, 'VTODO', '2027-02-02T14:12:00Z', text);
		expect(lines(made)).toEqual(
			expect.arrayContaining([
				'STATUS:COMPLETED',
				'COMPLETED:20270202T141200Z',
				'PERCENT-COMPLETE:100',
				'SUMMARY:Q7: Ionic copper 4.3 mL'
			])
		);
		expect(made).not.toContain('VALARM');
	});

	test('is changed in place: what other programs wrote survives, a moved time loses its zone', () => {
		const theirs = patched(
			patched(text, 'DUE:20270202T140000Z', 'DUE;TZID=Europe/Berlin:20270202T150000'),
			'END:VTODO',
			[
				'PRIORITY:1',
				'X-PHONE-SORT:7',
				'DTSTART:20270201T000000Z',
				'RRULE:FREQ=DAILY',
				'BEGIN:VALARM',
				'ACTION:AUDIO',
				'TRIGGER:-PT5M',
				'END:VALARM',
				'END:VTODO'
			].join('\r\n')
		);
		const made = writeObject(event({ sequence: 4 }), 'VTODO', null, theirs);
		expect(lines(made)).toEqual(
			expect.arrayContaining(['PRIORITY:1', 'X-PHONE-SORT:7', 'ACTION:AUDIO', 'DUE:20270202T140000Z'])
		);
		expect(made.match(/BEGIN:VALARM/g)).toHaveLength(2);
		expect(made).not.toMatch(/RRULE|DTSTART|TZID/);
		// and a second time nothing changes
		expect(writeObject(event({ sequence: 4 }), 'VTODO', null, made)).toBe(made);
	});

	test('is an event where a server takes no to-dos', () => {
		const made = writeObject(event({ status: 'CONFIRMED', title: '✓ Q7: x' }), 'VEVENT', null, null);
		expect(lines(made)).toEqual(
			expect.arrayContaining(['DTSTART:20270202T140000Z', 'DTEND:20270202T141000Z', 'SUMMARY:✓ Q7: x'])
		);
		expect(read(made)).toMatchObject({ kind: 'VEVENT', done: false, at: '2027-02-02T14:00:00Z' });
	});

	test.each([
		['VTODO', ['DUE;VALUE=DATE:20270202', 'TRIGGER;RELATED=END:PT450M']],
		// RFC 5545 3.6.1: the end of a whole day is the day after
		['VEVENT', ['DTSTART;VALUE=DATE:20270202', 'DTEND;VALUE=DATE:20270203', 'TRIGGER:PT450M']]
	] as const)('of a whole day as a %s has a date and no time', (kind, expected) => {
		const whole = event({ when: { day: '2027-02-02' }, alarmMinutes: -450 });
		const made = writeObject(whole, kind, null, null);
		expect(lines(made)).toEqual(expect.arrayContaining([...expected]));
		expect(read(made)?.at).toBe('2027-02-02');
		// a program that gave it a time of day is put right, in place
		const timed = made.replace(/^(DUE|DTSTART);VALUE=DATE:20270202/m, '$1:20270202T150000Z');
		expect(newsOf(read(made)!, read(timed)!).moved).toBe('2027-02-02T15:00:00Z');
		expect(writeObject(whole, kind, null, timed).split('\r\n').toSorted()).toEqual(lines(made).toSorted());
	});

	test('any text comes back as written, in lines of at most 75 octets', () => {
		for (const title of sampleTexts(300, 5)) {
			const made = writeObject(event({ title: `Q7: ${title}`, description: title }), 'VTODO', null, null);
			expect(read(made)).toMatchObject({ title: `Q7: ${clean(title)}`, description: clean(title) });
			for (const line of lines(made)) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
		}
	});
});

describe('a to-do that comes back', () => {
	const text = writeObject(event(), 'VTODO', null, null);
	const was = read(text)!;
	const news = (made: string) => newsOf(was, read(made)!);

	test('unchanged brings no news', () => {
		expect(news(text)).toEqual({ done: false, reopened: false, moved: null, changed: [] });
	});

	test.each([
		['in UTC', 'DUE:20270203T150000Z', '2027-02-03T15:00:00Z'],
		// 09:00 in Berlin in winter is 08:00 UTC
		['in a named zone', 'DUE;TZID=Europe/Berlin:20270203T090000', '2027-02-03T08:00:00Z'],
		// 08:00 in Chicago in winter is 14:00 UTC
		['on the keeper’s own clock', 'DUE:20270203T080000', '2027-02-03T14:00:00Z'],
		['as a day', 'DUE;VALUE=DATE:20270203', '2027-02-03']
	])('moved %s', (_how, due, moved) => {
		expect(news(patched(text, 'DUE:20270202T140000Z', due))).toMatchObject({ moved, changed: [] });
	});

	test.each(['DUE;TZID=America/Chicago:20270202T080000', 'DUE:20270202T080000'])(
		'the same instant as %s is no move',
		(due) => expect(news(patched(text, 'DUE:20270202T140000Z', due)).moved).toBeNull()
	);

	test('in a zone that only its file knows', () => {
		const own = `BEGIN:VTIMEZONE\r\nTZID:Quay\r\nBEGIN:STANDARD\r\nDTSTART:19700101T000000\r\nTZOFFSETFROM:+0200\r\nTZOFFSETTO:+0200\r\nEND:STANDARD\r\nEND:VTIMEZONE\r\nBEGIN:VTODO`;
		const made = patched(
			patched(text, 'BEGIN:VTODO', own),
			'DUE:20270202T140000Z',
			'DUE;TZID=Quay:20270203T100000'
		);
		expect(news(made).moved).toBe('2027-02-03T08:00:00Z');
	});

	test('done, with its time, and open again', () => {
		const done = patched(text, 'STATUS:NEEDS-ACTION', 'STATUS:COMPLETED\r\nCOMPLETED:20270202T141200Z');
		expect(news(done)).toMatchObject({ done: true, moved: null });
		expect(read(done)?.completedAt).toBe('2027-02-02T14:12:00Z');
		expect(newsOf(read(done)!, was)).toMatchObject({ done: false, reopened: true });
	});

	test.each([
		['SUMMARY:', 'SUMMARY:Not ', 'title'],
		['DESCRIPTION:', 'DESCRIPTION:Not ', 'notes'],
		['STATUS:NEEDS-ACTION', 'STATUS:CANCELLED', 'state'],
		['DUE:20270202T140000Z\r\n', '', 'time'],
		['END:VTODO', 'RRULE:FREQ=DAILY\r\nEND:VTODO', 'repeat']
	])('%j as %j changes its %s', (from, to, what) => {
		expect(news(patched(text, from, to)).changed).toEqual([what]);
	});

	test.each(['', 'hello', '<html>', 'BEGIN:VCALENDAR\r\nEND:VCALENDAR', 'BEGIN:VCARD\r\nEND:VCARD'])(
		'%j is no task',
		(made) => expect(read(made)).toBeNull()
	);

	test('is read by the library as the standard has it', () => {
		const calendar = new ICAL.Component(ICAL.parse(text) as ConstructorParameters<typeof ICAL.Component>[0]);
		expect(calendar.getAllSubcomponents('vtodo')).toHaveLength(1);
	});
});
