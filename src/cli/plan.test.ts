import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { now, plan, terminal } from './terminal.ts';

const { file, folder, lazaret, path } = terminal();

describe('plan', () => {
	test('prints the plan and one newline, and nothing on stderr', () => {
		const { exit, out, say } = lazaret(['plan', file('a.json', plan), ...now]);
		expect([exit, say]).toEqual([0, '']);
		expect(out).toMatch(/[^\n]\n$/);
		// 2.5 mg/L in 100 L by hand
		expect(out).toContain('Praziquantel 250 mg');
	});
	test('as JSON is the same from standard input, and under any TZ', () => {
		const args = ['plan', '-', '--as', 'json', ...now];
		const outputs = ['UTC', 'America/New_York', 'Australia/Sydney'].map((TZ) =>
			lazaret(args, JSON.stringify(plan), { TZ })
		);
		expect(JSON.parse(outputs[0]?.out ?? '')).toMatchObject({
			format: 'lazaret-result/1',
			begins: '2027-02-01'
		});
		expect(new Set(outputs.map(({ out }) => out)).size).toBe(1);
	});
	test.each([
		['csv', /^[^\n]*date[^\n]*\n/],
		['ics', /^BEGIN:VCALENDAR\r\n[^]*END:VCALENDAR\r\n$/]
	])('as %s', (as, shape) => {
		const { exit, out, say } = lazaret(['plan', file('a.json', plan), '--as', as, ...now]);
		expect([exit, say]).toEqual([0, '']);
		expect(out).toMatch(shape);
		expect(out).not.toMatch(/\n\n$/);
	});
	test('with --out replaces the file whole and says so in one line', () => {
		file('out.ics', 'old');
		const { exit, out, say } = lazaret([
			'plan',
			file('a.json', plan),
			'--as',
			'ics',
			'--out',
			'out.ics',
			...now
		]);
		expect([exit, out]).toEqual([0, '']);
		expect(say).toMatch(/^out\.ics: \d+ tasks, release 2027-\d\d-\d\d, 0 stops\n$/);
		expect(readFileSync(path('out.ics'), 'utf8')).toBe(
			lazaret(['plan', 'a.json', '--as', 'ics', ...now]).out
		);
		expect(readdirSync(folder).filter((name) => name.includes('.part'))).toEqual([]);
	});
	test('with --since hands on the stamps of what has not changed', () => {
		file('old.ics', lazaret(['plan', file('a.json', plan), '--as', 'ics', ...now]).out);
		const later = ['--now', '2027-02-01T00:00:00Z'];
		const moved = { ...plan, service: '09:00' };
		const same = lazaret(['plan', 'a.json', '--as', 'ics', '--since', 'old.ics', ...later]).out;
		const other = lazaret(['plan', file('b.json', moved), '--as', 'ics', '--since', 'old.ics', ...later]).out;
		expect(same).toBe(readFileSync(path('old.ics'), 'utf8'));
		expect(other).toContain('SEQUENCE:1');
		expect(other).toContain('DTSTAMP:20270201T000000Z');
	});
	test('a calendar file with chosen kinds, alarms and shape', () => {
		const ics = ['plan', file('a.json', plan), '--as', 'ics', ...now];
		const doses = lazaret([...ics, '--kinds', 'dose', '--alarms', 'dose=30', '--times', 'days']).out;
		expect(new Set(doses.match(/^CATEGORIES:.*$/gm))).toEqual(new Set(['CATEGORIES:dose']));
		expect(doses).toContain('BEGIN:VALARM');
		expect(doses).toContain('DTSTART;VALUE=DATE:');
		expect(lazaret([...ics, '--per', 'service']).out).toContain('/service/1@');
	});
	test('answers within two seconds of processor time', () => {
		// the clock on the wall says more about what else the machine does
		const meter = `process.on('exit', () => { const { user, system } = process.cpuUsage(); process.stderr.write(String(user + system)) })`;
		const env = { NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(meter)}` };
		const { exit, say } = lazaret(['plan', file('a.json', plan), ...now], '', env);
		expect(exit).toBe(0);
		expect(Number(say) / 1e6).toBeGreaterThan(0.01);
		expect(Number(say) / 1e6).toBeLessThan(2);
	});
	test('a number that is missing is a finding, not an error', () => {
		const { net: _net, ...tank } = plan.tank;
		const { exit, out } = lazaret(['plan', file('n.json', { ...plan, tank }), '--as', 'json', ...now]);
		expect(exit).toBe(0);
		const result = JSON.parse(out) as { levels: unknown[]; tasks: { kind: string; amount: unknown }[] };
		expect(result.levels).toEqual([]);
		expect(result.tasks.filter((task) => task.kind === 'dose').map((task) => task.amount)).toEqual([
			null,
			null
		]);
	});
});
