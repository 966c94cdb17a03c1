import { describe, expect, test } from 'vitest';
import type { CalendarEvent } from './event.ts';
import { guardedIcs } from './guard.ts';
import { sampleTexts } from './sample-text.ts';
import { writeIcs } from './writer.ts';

const event = (n: number, more: Partial<CalendarEvent> = {}): CalendarEvent => ({
	uid: `copper/dose/${n}@harbour`,
	when: { start: '2027-02-01T14:00:00Z', end: '2027-02-01T14:10:00Z' },
	title: 'Q7: Ionic copper 4.3 mL',
	description: 'Rises in two steps.',
	url: 'https://keeper.example/today?task=copper%2Fdose%2F1',
	categories: ['dose'],
	alarmMinutes: 30,
	status: null,
	sequence: 0,
	lastModified: '2027-01-30T00:00:00Z',
	...more
});

/** Every option the events have, one row each. */
const forms: Record<string, Partial<CalendarEvent>> = {
	plain: {},
	'no link': { url: null },
	silent: { alarmMinutes: null },
	'alarm at the start': { alarmMinutes: 0 },
	'alarm after midnight of a whole day': { when: { day: '2028-02-28' }, alarmMinutes: -450 },
	'whole day before a leap day': { when: { day: '2028-02-28' } },
	'last day of a year': { when: { day: '2027-12-31' } },
	done: { status: 'CONFIRMED', sequence: 3 },
	cancelled: { status: 'CANCELLED', sequence: 2147483647 },
	'no kind': { categories: [] },
	'three kinds': { categories: ['dose', 'a,b', 'c;d\\'] },
	'no description': { description: '' },
	'no title': { title: '' },
	'odd uid': { uid: 'a,b;c\n@run' },
	'description of 2,000 characters': { description: '水,'.repeat(1000) }
};

describe('the plain writer gives the bytes of npm ics behind its guard', () => {
	test.each(Object.entries(forms))('%s', (_, form) => {
		const events = [event(1, form)];
		expect(writeIcs(events, 'Name, with; marks\\')).toBe(guardedIcs(events, 'Name, with; marks\\'));
	});

	test('2,000 random titles and notes', () => {
		const notes = sampleTexts(2000, 11);
		const events = sampleTexts(2000, 10).map((title, n) =>
			event(n, { title, description: notes[n] ?? '', sequence: n % 7, alarmMinutes: n % 3 ? n : null })
		);
		expect(writeIcs(events, 'Harbour')).toBe(guardedIcs(events, 'Harbour'));
	});

	test('an empty calendar without a name', () => {
		expect(writeIcs([], '')).toBe(guardedIcs([], ''));
	});
});
