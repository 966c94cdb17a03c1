import { expect, test } from 'vitest';
import type { Plan } from '$lib/planner';
import { releaseOf } from './run-words.ts';

const planned = (release: string | null, ...rules: string[]) =>
	({
		release,
		tasks: [{ kind: 'release', date: '2027-01-24' }],
		findings: rules.map((rule) => ({ rule, severity: 'stop' }))
	}) as unknown as Plan;

test.each([
	['it is as planned', planned('2027-01-24'), { day: '2027-01-24', unsure: false }],
	['a bottle has no strength yet', planned(null, 'quantity-missing'), { day: '2027-01-24', unsure: true }],
	['a check forbids it', planned(null, 'quantity-missing', 'release-after-signs'), null],
	['no row releases', { ...planned(null), tasks: [] }, null]
])('the day of release where %s', (_, plan, day) => expect(releaseOf(plan)).toEqual(day));
