import { expect, test } from 'vitest';
import type { Finding } from '../planner/index.ts';
import { samplePlan, sampleRun, sampleTask, sampleTasks } from './sample-plan.ts';
import { planToText } from './text.ts';

const finding = (severity: Finding['severity'], message: string, more: Partial<Finding> = {}): Finding => ({
	rule: 'a-rule',
	severity,
	date: null,
	phase: null,
	message,
	because: '',
	source: '',
	repairs: [],
	...more
});

test('release, findings with the worst first, phases, days in order, what is needed', () => {
	const plan = {
		...samplePlan(sampleTasks().slice(0, 3)),
		findings: [
			finding('note', 'No measure is given.'),
			finding('stop', 'Copper would pass its ceiling.', {
				date: '2027-02-02',
				phase: 'copper',
				because: '0.21 is over 0.20 mg/L.',
				source: 'judgment, no source',
				repairs: [{ title: 'Ramp over 3 days', cost: 'release +1 day', edits: [] }]
			})
		]
	};
	expect(planToText(sampleRun(), plan)).toBe(`Harbour wrasses
Tank Q7, 96 L. Times are those of America/Chicago.
Release Wed 2027-03-10.

STOP (2027-02-02, copper): Copper would pass its ceiling.
  0.21 is over 0.20 mg/L.
  Source: judgment, no source
  Repair: Ramp over 3 days (release +1 day)
NOTE (whole run): No measure is given.

copper       2027-02-01 to 2027-02-28, 26 days credited
watch        from 2027-03-01

Mon 2027-02-01
  08:00  Test Cu  [copper/test/1]
         It is due.
  08:00  Change 24 L  [copper/change/1]
         NH3-N would reach 0.021 mg/L; the limit is 0.02.
  08:00  Ionic copper 4.3 mL  [copper/dose/1]
         Rises in two steps, 0.09 mg/L of 0.18.
         Copper kills invertebrates; keep its tools apart.

Needed: 72 L water, cu 8.6 mL.

The product label, a veterinarian and local law come first.
`);
});

test('what was typed can neither steer the terminal nor break a line', () => {
	const run = sampleRun('x', 'A\u001b[2J\u0007\r\nB');
	const text = planToText(run, samplePlan([sampleTask('a/test/1', '2027-02-01', { text: 'x\ny\u009b31m' })]));
	expect(text.split('\n')[0]).toBe('A[2J B');
	expect(text).toContain('08:00  x y31m  [a/test/1]');
	expect(
		[...text].some((mark) => mark !== '\n' && (mark < ' ' || (mark >= '\u007f' && mark < '\u00a0')))
	).toBe(false);
});

test('without tank, dates or release it says so and invents nothing', () => {
	const run = sampleRun();
	run.tank.name = '';
	run.tank.netL = null;
	const plan = {
		...samplePlan([]),
		release: null,
		phases: [{ id: 'watch', from: null, to: null, tasks: 0 }]
	};
	expect(planToText(run, plan)).toBe(`Harbour wrasses
Times are those of America/Chicago.
No release date.

watch        no dates

The product label, a veterinarian and local law come first.
`);
});
