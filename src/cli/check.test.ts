import { describe, expect, test } from 'vitest';
import { now, plan, terminal } from './terminal.ts';

const { file, lazaret } = terminal();

describe('check', () => {
	test('exits 0 without a stop and 1 with one', () => {
		expect(lazaret(['check', file('a.json', plan), ...now]).exit).toBe(0);
		const { net: _net, ...tank } = plan.tank;
		const { exit, out, say } = lazaret(['check', file('n.json', { ...plan, tank }), '--as', 'json', ...now]);
		const { findings } = JSON.parse(out) as { findings: { severity: string; cell?: string }[] };
		expect(findings.some((finding) => finding.cell === 'tank.net')).toBe(true);
		expect([exit, say]).toEqual([findings.some((finding) => finding.severity === 'stop') ? 1 : 0, '']);
	});
});
