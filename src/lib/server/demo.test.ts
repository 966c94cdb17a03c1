import { expect, test } from 'vitest';
import { plan } from '../planner/index.ts';
import { readRun } from '../run/index.ts';
import { openDemo } from './demo.ts';
import { freshStore } from './fresh-store.ts';
import { planFileOf, readLog } from './log.ts';
import { listRuns } from './runs.ts';

const at = async (now: string, timeZone: string) => {
	const store = await freshStore('sqlite');
	store.now = () => now;
	const shown = await openDemo(store, timeZone, 'ada');
	const runs = await listRuns(store);
	const files = await Promise.all(runs.map((run) => planFileOf(store, run.id)));
	const made = files.map((file) => {
		const run = readRun(file, { today: null });
		return { run, plan: plan(run, now) };
	});
	return { store, shown, runs, made };
};

test.each([
	['2026-11-25T19:00:00.000Z', 'America/Chicago'],
	['2027-03-30T23:30:00.000Z', 'Australia/Sydney'],
	['2028-02-29T05:00:00.000Z', 'UTC']
])(
	'opened on %s in %s the demo is in mid-run, with nothing unread and nothing forbidden',
	async (now, zone) => {
		const { shown, made } = await at(now, zone);
		expect(shown.name).toBe('Slate Quay delivery');
		expect(made).toHaveLength(2);
		for (const { run, plan: made1 } of made) {
			expect(run.problems).toEqual([]);
			expect(made1.findings.filter((finding) => finding.severity === 'stop')).toEqual([]);
			expect(made1.release).not.toBeNull();
			const states = new Set(made1.tasks.map((task) => task.state));
			expect(states).toContain('done');
			expect(states).toContain('planned');
			expect(states).not.toContain('missed');
			// everything of the days before today was answered
			const today = made1.tasks.find((task) => task.state === 'open')?.date ?? '9999';
			expect(made1.tasks.filter((task) => task.date < today && task.state === 'open')).toEqual([]);
		}
		expect(made.some(({ run }) => run.phases.length >= 6 && run.medicines.length === 2)).toBe(true);
	}
);

test('asked for twice it is made once', async () => {
	const { store, shown } = await at('2026-11-25T19:00:00.000Z', 'UTC');
	const again = await openDemo(store, 'UTC', 'ada');
	expect(again.id).toBe(shown.id);
	expect(await listRuns(store)).toHaveLength(2);
	expect((await readLog(store, shown.id)).length).toBeGreaterThan(30);
});
