import { describe, expect, test } from 'vitest';
import { minutesFor, taskKinds, type Task } from '../planner/index.ts';
import { eventsOf } from './events.ts';

import { samplePlan, sampleRun, sampleTask, sampleTasks } from './sample-plan.ts';

const only = (task: Task, options = {}) => eventsOf(sampleRun(), samplePlan([task]), options)[0]!;
const dose = (more: Partial<Task>) =>
	sampleTask('copper/dose/1', '2027-02-01', { text: 'Copper 4 mL', ...more });

test.each([
	['planned', 'Q7: Copper 4 mL', null],
	['open', 'Q7: Copper 4 mL', null],
	['done', '✓ Q7: Copper 4 mL', 'CONFIRMED'],
	['late', '✓ Q7: Copper 4 mL', 'CONFIRMED'],
	['partly', '✓ Q7: Copper 4 mL', 'CONFIRMED'],
	['missed', '✗ Q7: Copper 4 mL', 'CANCELLED']
] as const)('a job that is %s', (state, title, status) => {
	expect(only(dose({ state }))).toMatchObject({ title, status });
});

test('a timed bath lasts its minutes and the time around it', () => {
	const dip = sampleTask('bath/dip/1', '2027-02-01', { minutes: 45 });
	expect(only(dip).when).toEqual({ start: '2027-02-01T14:00:00Z', end: '2027-02-01T15:00:00Z' });
	expect(only(dip).description).toContain('Takes 45 min.');
});

test('every kind has a length', () => {
	for (const kind of taskKinds) expect(minutesFor({ kind })).toBeGreaterThan(0);
});

test('a missing amount stays missing', () => {
	expect(only(dose({ text: 'Copper: strength is not said' })).description).not.toMatch(/Amount|NaN|null/);
});

test('the amount is in the title once, also where the text lacks it', () => {
	expect(only(dose({ amount: { value: 4, unit: 'mL' } })).title).toBe('Q7: Copper 4 mL');
	expect(only(dose({ text: 'Add 307 g', amount: { value: 307.21, unit: 'g' } })).title).toBe('Q7: Add 307 g');
	const move = sampleTask('moves/transfer/1', '2027-02-01', {
		text: 'Move 1 of 4',
		amount: { value: 40, unit: 'L' }
	});
	expect(only(move).title).toBe('Q7: Move 1 of 4, 40 L');
});

test('an address npm ics would refuse stands in the description only', () => {
	const link = () => 'http://[::1]:4173/today';
	expect(only(dose({}), { link })).toMatchObject({
		url: null,
		description: expect.stringContaining('http://[::1]:4173')
	});
});

describe('per service', () => {
	const services = (tasks: Task[]) =>
		eventsOf(sampleRun(), samplePlan(tasks), { per: 'service' }).map(({ uid, title }) => [uid, title]);

	test('a name that is no word keeps its capitals in the middle', () => {
		const tasks = [sampleTask('copper/test/1', '2027-02-01', { text: 'Look' }), dose({ text: 'NH3 test' })];
		expect(services(tasks)[0]?.[1]).toBe('Q7: Look, NH3 test');
	});

	test('morning and evening are two, and losing a job renames neither', () => {
		const evening = dose({ id: 'copper/dose/2', time: '20:00', at: '2027-02-02T02:00:00Z' });
		const all = services([...sampleTasks(), evening]);
		expect(all.map(([uid]) => uid)).toContain('copper/service/1-2@harbour');
		expect(services([sampleTasks()[2]!, evening]).map(([uid]) => uid)).toEqual([
			'copper/service/1@harbour',
			'copper/service/1-2@harbour'
		]);
	});

	test('a phase put in front, five days long, renames nothing', () => {
		const before = eventsOf(sampleRun(), samplePlan(), { per: 'service' }).map(({ uid }) => uid);
		const plan = samplePlan(
			sampleTasks().map((task) => ({ ...task, date: task.date.replace('-02-0', '-02-1') }))
		);
		plan.phases = [
			{ id: 'settle', from: '2027-02-06', to: '2027-02-10', tasks: 0 },
			{ id: 'copper', from: '2027-02-11', to: '2027-03-10', tasks: 8 }
		];
		expect(eventsOf(sampleRun(), plan, { per: 'service' }).map(({ uid }) => uid)).toEqual(before);
	});

	test('is done when every job is answered, missed when all were, and rings for the open ones', () => {
		const jobs = (...states: Task['state'][]) =>
			eventsOf(
				sampleRun(),
				samplePlan(states.map((state, n) => sampleTask(`copper/dose/${n}`, '2027-02-01', { state }))),
				{ per: 'service', alarms: { dose: 10 } }
			)[0]!;
		expect(jobs('done', 'planned')).toMatchObject({ status: null, alarmMinutes: 10 });
		expect(jobs('done', 'planned').title).toBe('Q7: ✓ Job copper/dose/0, job copper/dose/1');
		expect(jobs('done', 'missed')).toMatchObject({ status: 'CONFIRMED', alarmMinutes: null });
		expect(jobs('missed', 'missed')).toMatchObject({
			status: 'CANCELLED',
			title: expect.stringMatching(/^✗ Q7/)
		});
	});

	test('rings as early as its earliest job asks', () => {
		const [service] = eventsOf(sampleRun(), samplePlan(), { per: 'service', alarms: { test: 5, dose: 45 } });
		expect(service?.alarmMinutes).toBe(45);
	});

	test('a phase holds its first day and its last, and nothing after', () => {
		const tasks = ['2027-02-01', '2027-02-28', '2027-03-01'].map((date, n) =>
			sampleTask(`copper/test/${n}`, date)
		);
		expect(services(tasks).map(([uid]) => uid)).toEqual([
			'copper/service/1@harbour',
			'copper/service/28@harbour',
			'watch/service/1@harbour'
		]);
	});

	test('a job outside every phase is a service of its own', () => {
		const tasks = [sampleTask('copper/supply/1', '2027-01-20'), sampleTask('copper/supply/2', '2027-01-20')];
		expect(services(tasks)).toHaveLength(2);
	});
});
