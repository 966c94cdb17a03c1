import { execFileSync } from 'node:child_process';
import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import type { Plan, Task } from '../planner/index.ts';
import { clean } from './content-line.ts';
import { planToIcs, plansToIcs, type IcsOptions } from './ics.ts';
import { readIcs } from './read-ics.ts';
import { samplePlan, sampleRun, sampleTask, sampleTasks } from './sample-plan.ts';
import { sampleTexts } from './sample-text.ts';

const now = '2027-01-30T00:00:00Z';
const later = '2027-01-31T09:30:00Z';
const link = (task: string) => `http://127.0.0.1:4173/today?task=${encodeURIComponent(task)}`;
const written = (plan: Plan, options: Partial<IcsOptions> = {}) =>
	planToIcs(sampleRun(), plan, { now, ...options });

/** Events as ical.js reads them, an implementation that shares nothing with the writer. */
const parsed = (text: string) =>
	new ICAL.Component(ICAL.parse(text) as ConstructorParameters<typeof ICAL.Component>[0]).getAllSubcomponents(
		'vevent'
	);
const value = (component: ICAL.Component | undefined, name: string) =>
	String(component?.getFirstPropertyValue(name) ?? '');
const byUid = (text: string) =>
	new Map(parsed(text).map((component) => [value(component, 'uid'), component]));
/** The text of each event by its UID. */
const blocks = (text: string) =>
	new Map(
		text
			.split('BEGIN:VEVENT')
			.slice(1)
			.map((block) => [/UID:(.*)\r/.exec(block)?.[1] ?? '', block])
	);
const old = (text: string) => {
	const events = readIcs(text);
	if (!events.ok) throw new Error('own file unreadable');
	return events.value;
};
const changed = (id: string, change: Partial<Task>) =>
	samplePlan(sampleTasks().map((task) => (task.id === id ? { ...task, ...change } : task)));

describe('a file', () => {
	test('holds each task under its own UID, at its instant, with tank and amount in the title', () => {
		const events = byUid(written(samplePlan(), { link }));
		expect([...events.keys()]).toEqual(sampleTasks().map(({ id }) => `${id}@harbour`));
		const dose = events.get('copper/dose/2@harbour');
		expect(value(dose, 'summary')).toBe('Q7: Ionic copper 4.3 mL');
		expect(value(dose, 'dtstart')).toBe('2027-02-02T14:00:00Z');
		expect(value(dose, 'url')).toBe('http://127.0.0.1:4173/today?task=copper%2Fdose%2F2');
		expect(value(dose, 'sequence')).toBe('0');
		expect(value(dose, 'dtstamp')).toBe(now);
		expect(value(dose, 'last-modified')).toBe(now);
	});

	test('says reason, figures, caution, deference and link, in that order', () => {
		const dose = byUid(written(samplePlan(), { link })).get('copper/dose/1@harbour');
		expect(value(dose, 'description').split('\n')).toEqual([
			'Rises in two steps, 0.09 mg/L of 0.18.',
			'Amount: 4.3 mL.',
			'Raises 0 to 0.08958 mg/L.',
			'Caution: Copper kills invertebrates; keep its tools apart.',
			'The product label, a veterinarian and local law come first.',
			'http://127.0.0.1:4173/today?task=copper%2Fdose%2F1'
		]);
	});

	// RFC 5545 3.1 and 3.6; RFC 4791 4.1 forbids METHOD in a stored object; RFC 7986 5.7
	test('has CRLF only, a refresh hint in both forms and no METHOD', () => {
		const text = written(samplePlan());
		expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
		expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
		expect(text).toContain('\r\nREFRESH-INTERVAL;VALUE=DURATION:PT1H\r\n');
		expect(text).toContain('\r\nX-PUBLISHED-TTL:PT1H\r\n');
		expect(text).not.toContain('METHOD');
	});

	test('keeps to the kinds asked for', () => {
		const uids = [...byUid(written(samplePlan(), { kinds: ['dose'] })).keys()];
		expect(uids).toEqual(['copper/dose/1@harbour', 'copper/dose/2@harbour']);
	});

	test('rings the minutes before that each kind asks, and not for a job that is done', () => {
		const plan = changed('copper/dose/1', { state: 'done' });
		const events = byUid(written(plan, { alarms: { dose: 30, test: 0 } }));
		const trigger = (uid: string) => {
			const alarm = events.get(uid)?.getFirstSubcomponent('valarm');
			return alarm ? (alarm.getFirstPropertyValue('trigger') as ICAL.Duration).toSeconds() : null;
		};
		expect(trigger('copper/dose/2@harbour')).toBe(-1800);
		expect(trigger('copper/test/2@harbour')).toBe(0);
		expect(trigger('copper/change/2@harbour')).toBeNull();
		expect(trigger('copper/dose/1@harbour')).toBeNull();
		expect(value(events.get('copper/dose/1@harbour'), 'summary')).toBe('✓ Q7: Ionic copper 4.3 mL');
		expect(value(events.get('copper/dose/1@harbour'), 'status')).toBe('CONFIRMED');
	});

	test('as whole days ends on the next day and rings at the same time of day', () => {
		const event = byUid(written(samplePlan(), { allDay: true, alarms: { dose: 30 } })).get(
			'copper/dose/1@harbour'
		);
		expect(value(event, 'dtstart')).toBe('2027-02-01');
		expect(value(event, 'dtend')).toBe('2027-02-02');
		const trigger = event?.getFirstSubcomponent('valarm')?.getFirstPropertyValue('trigger') as ICAL.Duration;
		expect(trigger.toSeconds()).toBe(7.5 * 3600);
	});

	test('per service joins the jobs of a service under one id', () => {
		const events = byUid(written(samplePlan(), { per: 'service' }));
		expect([...events.keys()]).toEqual([1, 2, 3].map((n) => `copper/service/${n}@harbour`));
		expect(value(events.get('copper/service/1@harbour'), 'summary')).toBe(
			'Q7: Test Cu, change 24 L, ionic copper 4.3 mL'
		);
		expect(value(events.get('copper/service/1@harbour'), 'dtend')).toBe('2027-02-01T14:50:00Z');
	});

	test('of several runs keeps their UIDs apart', () => {
		const planned = ['harbour', 'quay'].map((id) => ({ run: sampleRun(id), plan: samplePlan() }));
		expect(byUid(plansToIcs(planned, { now, name: 'All' })).size).toBe(2 * sampleTasks().length);
	});

	test('stays whole with a text of a million characters, cautions and link kept', () => {
		const plan = changed('copper/dose/1', { because: '水'.repeat(1e6), text: 'y'.repeat(1e6) });
		const dose = byUid(written(plan, { link })).get('copper/dose/1@harbour');
		expect(value(dose, 'description').length).toBeLessThanOrEqual(2000);
		expect(value(dose, 'description')).toContain('Caution: Copper');
		expect(value(dose, 'description')).toMatch(/copper%2Fdose%2F1$/);
	});
});

test('2,000 random titles and notes come back as they were, control characters aside', () => {
	const notes = sampleTexts(2000, 21);
	const tasks = sampleTexts(2000, 20).map((text, n) =>
		sampleTask(`copper/dose/${n}`, '2027-02-01', { text, because: notes[n] ?? '' })
	);
	const events = byUid(written(samplePlan(tasks)));
	expect(events.size).toBe(2000);
	expect(tasks.filter(({ text }) => text.length < 490).length).toBeGreaterThan(1900);
	for (const { id, text, because } of tasks) {
		const event = events.get(`${id}@harbour`);
		if (text.length < 490)
			expect(value(event, 'summary')).toBe(`Q7: ${clean(text)}`.replace(/[ \t\n]+$/, ''));
		expect(
			value(event, 'description').startsWith(
				clean(because)
					.replace(/^[ \t\n]+/, '')
					.slice(0, 1500)
			)
		).toBe(true);
	}
});

test('the same plan gives the same bytes on hosts in any zone', () => {
	const script = `
		import { planToIcs } from '${import.meta.dirname}/ics.ts';
		import { samplePlan, sampleRun } from '${import.meta.dirname}/sample-plan.ts';
		for (const form of [{}, { allDay: true }, { per: 'service' }])
			process.stdout.write(planToIcs(sampleRun(), samplePlan(), { now: '${now}', alarms: { dose: 30 }, ...form }));`;
	const [first, ...others] = ['UTC', 'America/New_York', 'Australia/Sydney', 'Australia/Lord_Howe'].map(
		(TZ) =>
			execFileSync(process.execPath, ['--input-type=module', '-e', script], { env: { ...process.env, TZ } })
	);
	expect(first?.length).toBeGreaterThan(5000);
	for (const other of others) expect(other.equals(first!)).toBe(true);
});

describe('a file since an older one', () => {
	const before = written(samplePlan(), { alarms: { dose: 30 } });
	const again = (plan: Plan, since: string, options: Partial<IcsOptions> = {}) =>
		written(plan, { alarms: { dose: 30 }, now: later, since: old(since), ...options });

	test('of the same plan is the older one, byte for byte', () => {
		expect(again(samplePlan(), before)).toBe(before);
	});

	test('moves one task: its SEQUENCE rises, every other event keeps its bytes; moved back it rises again', () => {
		const moved = again(changed('copper/dose/2', { at: '2027-02-04T14:00:00Z', date: '2027-02-04' }), before);
		const event = byUid(moved).get('copper/dose/2@harbour');
		expect(value(event, 'sequence')).toBe('1');
		expect(value(event, 'last-modified')).toBe(later);
		expect(value(event, 'dtstamp')).toBe(later);
		const [was, is] = [blocks(before), blocks(moved)];
		expect([...is].filter(([uid, block]) => was.get(uid) !== block).map(([uid]) => uid)).toEqual([
			'copper/dose/2@harbour'
		]);
		const back = again(samplePlan(), moved, { now: '2027-02-01T00:00:00Z' });
		expect(value(byUid(back).get('copper/dose/2@harbour'), 'sequence')).toBe('2');
	});

	test('with another text raises LAST-MODIFIED alone, with another alarm too', () => {
		const renamed = byUid(again(changed('copper/dose/1', { text: 'Ionic copper 4.4 mL' }), before));
		expect(value(renamed.get('copper/dose/1@harbour'), 'sequence')).toBe('0');
		expect(value(renamed.get('copper/dose/1@harbour'), 'last-modified')).toBe(later);
		const rung = byUid(again(samplePlan(), before, { alarms: { dose: 15 } }));
		expect(value(rung.get('copper/dose/1@harbour'), 'last-modified')).toBe(later);
		expect(value(rung.get('copper/test/1@harbour'), 'last-modified')).toBe(now);
	});

	test('with a task done raises its SEQUENCE', () => {
		const done = byUid(again(changed('copper/dose/1', { state: 'done' }), before));
		expect(value(done.get('copper/dose/1@harbour'), 'sequence')).toBe('1');
		expect(value(done.get('copper/dose/2@harbour'), 'sequence')).toBe('0');
	});

	test('cancels a task that left the plan, keeps saying so, and lets it return above its old self', () => {
		const without = samplePlan(sampleTasks().filter(({ id }) => id !== 'copper/dose/2'));
		const cancelled = again(without, before);
		const event = byUid(cancelled).get('copper/dose/2@harbour');
		expect(value(event, 'status')).toBe('CANCELLED');
		expect(value(event, 'sequence')).toBe('1');
		expect(event?.getFirstSubcomponent('valarm')).toBeNull();
		expect(again(without, cancelled, { now: '2027-02-05T00:00:00Z' })).toBe(cancelled);
		const back = byUid(again(samplePlan(), cancelled, { now: '2027-02-05T00:00:00Z' })).get(
			'copper/dose/2@harbour'
		);
		expect(value(back, 'status')).toBe('');
		expect(value(back, 'sequence')).toBe('2');
	});

	test('leaves alone the kinds not asked for, other runs and other programs', () => {
		const other = before.replaceAll('@harbour', '@quay');
		const doses = again(samplePlan(), before, { kinds: ['dose'], since: [...old(before), ...old(other)] });
		expect([...byUid(doses).keys()]).toEqual(['copper/dose/1@harbour', 'copper/dose/2@harbour']);
		expect(doses).not.toContain('CANCELLED');
	});

	test('never lowers LAST-MODIFIED, even with a clock that stands behind', () => {
		const behind = byUid(
			again(changed('copper/dose/1', { text: 'x' }), before, { now: '2020-01-01T00:00:00Z' })
		);
		expect(value(behind.get('copper/dose/1@harbour'), 'last-modified')).toBe('2027-01-30T00:00:01Z');
		expect(value(behind.get('copper/dose/2@harbour'), 'last-modified')).toBe(now);
	});
});

describe('reading an older file', () => {
	test.each([
		'',
		'not a calendar',
		'{}',
		'BEGIN:VCALENDAR\r\nBEGIN:VEVENT',
		'<html></html>',
		'BEGIN:VCARD\r\nEND:VCARD\r\n'
	])('refuses %j as data', (text) => {
		const events = readIcs(text);
		expect(events.ok).toBe(false);
	});

	test('takes a time with its zone for the instant it is', () => {
		const text = [
			'BEGIN:VCALENDAR',
			'BEGIN:VTIMEZONE',
			'TZID:Somewhere',
			'BEGIN:STANDARD',
			'DTSTART:19700101T000000',
			'TZOFFSETFROM:-0600',
			'TZOFFSETTO:-0600',
			'END:STANDARD',
			'END:VTIMEZONE',
			'BEGIN:VEVENT',
			'UID:copper/dose/1@harbour',
			'DTSTART;TZID=Somewhere:20270201T080000',
			'END:VEVENT',
			'END:VCALENDAR',
			''
		].join('\r\n');
		expect(old(text)[0]?.when).toEqual({ start: '2027-02-01T14:00:00Z', end: '2027-02-01T14:00:00Z' });
	});
});
