import { describe, expect, test } from 'vitest';
import { kindNames, readChoices, usualKinds } from './choices.ts';
import { taskKinds } from '../planner/index.ts';

const from = (query: string) => readChoices(new URLSearchParams(query));

describe('choices of an export', () => {
	test.each([
		['', {}],
		['name=x&kinds=dose&kinds=test', { kinds: ['test', 'dose'] }],
		['kinds=dose,test', { kinds: ['test', 'dose'] }],
		['per=service&times=days', { per: 'service', allDay: true }],
		['per=task&times=timed', { per: 'task', allDay: false }],
		['alarm.dose=30&alarm.test=0&alarm.change=', { alarms: { dose: 30, test: 0 } }]
	])('%j', (query, value) => expect(from(query)).toEqual({ ok: true, value }));

	test.each([
		['kinds=party', 'kinds', 'party'],
		['kinds=', 'kinds', ''],
		['kinds=toString', 'kinds', 'toString'],
		['per=week', 'per', 'week'],
		['times=noon', 'times', 'noon'],
		['alarm.party=1', 'alarm', 'party'],
		['alarm.dose=-1', 'alarm.dose', '-1'],
		['alarm.dose=1.5', 'alarm.dose', '1.5'],
		['alarm.dose=10081', 'alarm.dose', '10081']
	])('%j is refused for its %s', (query, code, seen) =>
		expect(from(query)).toMatchObject({ ok: false, problem: { code, seen } })
	);

	test('every kind has a name of its own, and top-offs have to be asked for', () => {
		expect(Object.keys(kindNames).toSorted()).toEqual(taskKinds.toSorted());
		expect(new Set(Object.values(kindNames)).size).toBe(taskKinds.length);
		expect(usualKinds).toHaveLength(taskKinds.length - 1);
		expect(usualKinds).not.toContain('topoff');
	});
});
