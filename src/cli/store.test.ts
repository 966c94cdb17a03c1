import { readFileSync, statSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { oneLine, plan, refused, terminal } from './terminal.ts';

const { file, lazaret, path } = terminal();

describe('the store', () => {
	test('takes a plan file once, exports, backs up, and restores', () => {
		const imported = lazaret(['import', file('a.json', { ...plan, id: 'trial' })]);
		expect(imported).toEqual({ exit: 0, out: '', say: 'a.json: run Trial added, 0 log entries added\n' });
		expect(lazaret(['import', 'a.json']).say).toBe(
			'a.json: run Trial was there already, 0 log entries added\n'
		);
		expect(lazaret(['backup', 'copy.sqlite']).say).toBe('copy.sqlite: 1 run, 1 save, 0 log entries\n');
		expect(lazaret(['export', 'all.json']).say).toBe('all.json: 1 run\n');
		const other = { LAZARET_DATA: path('other') };
		expect(lazaret(['import', 'all.json'], '', other).say).toBe(
			'all.json: 1 run added, 0 extended, 0 as they were, 0 log entries added\n'
		);
		expect(lazaret(['restore', 'copy.sqlite'], '', other).say).toMatch(
			/^copy\.sqlite: 1 run, 1 save, 0 log entries; what it replaced is in .*before-restore-\d+\.sqlite\n$/
		);
		const runs = (text: string) => (JSON.parse(text) as { runs: unknown }).runs;
		expect(runs(lazaret(['export', '-'], '', other).out)).toEqual(
			runs(readFileSync(path('all.json'), 'utf8'))
		);
	});
	test.each<[string[], RegExp]>([
		[['import', 'x.json'], /^x\.json: saw text that is not JSON/],
		[['import', 'bad.json'], /^bad\.json: tank\.net: /],
		[['restore', 'x.json'], /^x\.json: saw .*, expected a backup/],
		[['restore', 'gone'], /^gone: saw no such file, expected a backup/],
		[['export', 'no/such/x'], /^no\/such\/x: saw no such file or folder/]
	])('refuses %j', (args, sentence) => {
		file('x.json', 'dear diary');
		file('bad.json', { ...plan, tank: { net: '-1 L' } });
		const env = { LAZARET_DATA: path('fresh') };
		const answer = lazaret(args, '', env);
		expect(answer).toEqual(refused(sentence));
		expect(answer.say).toMatch(oneLine);
	});
	test('its folder is readable by its owner only', () => {
		lazaret(['export', '-'], '', { LAZARET_DATA: path('private') });
		expect(statSync(path('private')).mode & 0o077).toBe(0);
	});
});
