import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { planToIcs } from './ics.ts';
import { readIcs } from './read-ics.ts';
import { samplePlan, sampleRun, sampleTasks } from './sample-plan.ts';

/** Files that real calendar programs read in the client suite. `WRITE_GOLDEN=1` writes them anew. */
const folder = join(import.meta.dirname, '../../../tests/clients/golden');

const now = '2027-01-30T00:00:00Z';
const link = (task: string) => `https://keeper.example/today?task=${encodeURIComponent(task)}`;
const options = { now, link, alarms: { dose: 30, test: 0 } };

function changed(): string {
	const since = readIcs(planToIcs(sampleRun(), samplePlan(), options));
	if (!since.ok) throw new Error('own file unreadable');
	const tasks = sampleTasks()
		.filter(({ id }) => id !== 'copper/change/3')
		.map((task) =>
			task.id === 'copper/dose/2' ? { ...task, date: '2027-02-05', at: '2027-02-05T14:00:00Z' } : task
		)
		.map((task) => (task.id === 'copper/test/1' ? { ...task, state: 'done' as const } : task))
		.map((task) => (task.id === 'copper/test/2' ? { ...task, text: 'Test Cu and pH' } : task));
	return planToIcs(sampleRun(), samplePlan(tasks), {
		...options,
		now: '2027-02-01T15:00:00Z',
		since: since.value
	});
}

const odd = () => {
	const run = sampleRun('odd', 'Names; with, marks\\ and "quotes"');
	run.tank.name = '検疫 2 🐠';
	return planToIcs(run, samplePlan(), options);
};

const files: Record<string, () => string> = {
	'per-task.ics': () => planToIcs(sampleRun(), samplePlan(), options),
	'per-service.ics': () => planToIcs(sampleRun(), samplePlan(), { ...options, per: 'service' }),
	'all-day.ics': () => planToIcs(sampleRun(), samplePlan(), { ...options, allDay: true }),
	'changed.ics': changed,
	'odd-names.ics': odd
};

test.each(Object.entries(files))('%s is written as it was', (name, write) => {
	const path = join(folder, name);
	if (process.env.WRITE_GOLDEN) {
		mkdirSync(folder, { recursive: true });
		writeFileSync(path, write());
	}
	expect(write()).toBe(readFileSync(path, 'utf8'));
});
