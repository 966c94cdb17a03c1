import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import type { Task } from '../planner/index.ts';
import { dayNumber, dayText } from '../run/index.ts';
import { feedOf, leftOutSentences, type FeedOptions } from './feed.ts';
import { samplePlan, sampleRun, sampleTask, sampleTasks } from './sample-plan.ts';

const now = '2027-02-01T09:00:00Z';
const feed = (tasks: Task[], options: Partial<FeedOptions> = {}) =>
	feedOf([{ run: sampleRun(), plan: samplePlan(tasks) }], { now, name: 'Harbour', previous: [], ...options });
const day = (offset: number) => dayText(dayNumber('2027-02-01') + offset);
const uids = (body: string) =>
	new ICAL.Component(ICAL.parse(body) as ConstructorParameters<typeof ICAL.Component>[0])
		.getAllSubcomponents('vevent')
		.map((event) => String(event.getFirstPropertyValue('uid')));

test('holds the days from 30 back to 180 ahead, both ends in, and counts the rest', () => {
	const tasks = [-31, -30, 0, 180, 181, 182].map((offset) =>
		sampleTask(`copper/test/${offset + 40}`, day(offset))
	);
	const { body, leftOut } = feed(tasks);
	expect(uids(body)).toEqual([10, 40, 220].map((n) => `copper/test/${n}@harbour`));
	expect(leftOut).toEqual({ earlier: 1, later: 2, over: 0, descriptions: false });
	expect(leftOutSentences(leftOut)).toEqual([
		'1 entry more than 30 days back is left out.',
		'2 entries more than 180 days ahead are left out for now.'
	]);
});

test('of more than 1,000 events keeps the next 1,000, dropping what is past first', () => {
	const tasks = Array.from({ length: 1100 }, (_, n) =>
		sampleTask(`copper/test/${n}`, day(Math.floor(n / 10) - 5))
	);
	const { body, leftOut } = feed(tasks);
	// days -5 to -1 hold tasks 0 to 49, and 50 of the last are over
	expect(uids(body)).toEqual(tasks.slice(50, 1050).map(({ id }) => `${id}@harbour`));
	expect(leftOut.over).toBe(100);
	expect(leftOut.descriptions).toBe(false);
});

test('stays under a megabyte by dropping descriptions, then events', () => {
	const long = Array.from({ length: 900 }, (_, n) =>
		sampleTask(`copper/test/${n}`, day(1), { because: '水'.repeat(1500) })
	);
	const bare = feed(long);
	expect(Buffer.byteLength(bare.body)).toBeLessThan(1_000_000);
	expect(bare.leftOut).toMatchObject({ over: 0, descriptions: true });
	expect(uids(bare.body)).toHaveLength(900);
	const wide = feed(long.map((task) => ({ ...task, text: '水'.repeat(480) })));
	expect(Buffer.byteLength(wide.body)).toBeLessThanOrEqual(1_000_000);
	expect(wide.leftOut.over).toBe(900 - uids(wide.body).length);
	expect(leftOutSentences(wide.leftOut)).toHaveLength(2);
});

describe('polled again', () => {
	const first = feed(sampleTasks());

	test('unchanged gives the same bytes at another hour of the day', () => {
		expect(feed(sampleTasks(), { previous: first.rows, now: '2027-02-01T21:00:00Z' })).toEqual(first);
	});

	test('leaves a removed task out and brings it back above its old self', () => {
		const gone = feed(sampleTasks().slice(1), { previous: first.rows, now: '2027-02-01T10:00:00Z' });
		expect(uids(gone.body)).not.toContain('copper/test/1@harbour');
		const back = feed(sampleTasks(), { previous: gone.rows, now: '2027-02-01T11:00:00Z' });
		expect(back.rows.find(({ uid }) => uid === 'copper/test/1@harbour')).toMatchObject({
			sequence: 1,
			goneAt: null
		});
		expect(uids(back.body)).toEqual(uids(first.body));
	});

	test('a task that slides out of the window is not gone', () => {
		const later = feed(sampleTasks(), { previous: first.rows, now: '2027-06-01T10:00:00Z' });
		expect(uids(later.body)).toEqual([]);
		expect(later.rows).toEqual(first.rows);
	});
});
