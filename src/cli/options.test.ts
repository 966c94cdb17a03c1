import { chmodSync, mkdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { now, oneLine, plan, refused, terminal } from './terminal.ts';

const { file, lazaret, path } = terminal();

describe('usage that is wrong is one sentence and exit 2', () => {
	test.each<[string[], RegExp]>([
		[[], /^saw no verb/],
		[['dance'], /^saw dance, expected one of plan, check, water/],
		[['constructor'], /^saw constructor/],
		[['plan'], /^saw no file, expected lazaret plan FILE/],
		[['plan', 'a.json', 'b.json'], /^saw b\.json after a\.json, expected one file/],
		[['plan', 'a.json', '--colour', 'blue'], /^saw --colour, expected one of --as/],
		[['plan', 'a.json', '-x'], /^saw -x, expected one of/],
		[['plan', 'a.json', '--as', 'pdf'], /^--as: saw pdf, expected text, json, csv, ics/],
		[['plan', 'a.json', '--as'], /^--as: saw no value/],
		[['plan', 'a.json', '--as', 'csv', '--as=ics'], /^saw --as twice/],
		[['plan', 'a.json', '--now', 'noon'], /^--now: saw noon, expected an instant/],
		[['plan', 'a.json', '--now', '2027-02-30T00:00:00Z'], /^--now: saw 2027-02-30/],
		[['plan', 'a.json', '--kinds', 'dose'], /^--kinds: saw --as text, expected --as ics/],
		[['plan', 'a.json', '--as', 'ics', '--kinds', 'party'], /^--kinds: saw party, expected kinds of task/],
		[['plan', 'a.json', '--as', 'ics', '--alarms', 'dose'], /^--alarms: saw dose, expected KIND=MINUTES/],
		[
			['plan', 'a.json', '--as', 'ics', '--alarms', 'dose=soon'],
			/^--alarms: saw soon, expected whole minutes/
		],
		[['plan', 'a.json', '--since', 'old.ics'], /^--since: saw --as text, expected --as ics/],
		[['plan', 'a.json', '--as', 'ics', '--since', 'a.json'], /^a\.json: --since: /],
		[['check', 'a.json', '--as', 'ics'], /^--as: saw ics, expected text, json/],
		[['plan', 'a.json', '--out', 'no/such/folder/x'], /^no\/such\/folder\/x: saw no such file or folder/],
		[['plan', 'a.json', '--out', '.'], /^\.: saw a folder/]
	])('%j', (args, sentence) => {
		file('a.json', plan);
		const answer = lazaret(args);
		expect(answer).toEqual(refused(sentence));
		expect(answer.say).toMatch(oneLine);
	});
	test('a folder that may not be written', () => {
		mkdirSync(path('locked'));
		chmodSync(path('locked'), 0o500);
		const answer = lazaret(['plan', file('a.json', plan), '--out', 'locked/x', ...now]);
		chmodSync(path('locked'), 0o700);
		// root may write anywhere
		expect([0, 2]).toContain(answer.exit);
		expect(answer.exit === 0).toBe(process.getuid?.() === 0);
	});
});
