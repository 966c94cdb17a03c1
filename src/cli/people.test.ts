import { writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { terminal } from './terminal.ts';

const { lazaret, path } = terminal();

describe('people', () => {
	const env = { LAZARET_DATA: path('people') };
	const people = (args: string[], input = '') => lazaret(['people', ...args], input, env);
	const words = 'tide tables and kelp\n';
	test('are named, changed and sent away, the passphrase never an argument', () => {
		expect(people([]).out).toMatch(/^nobody is named/);
		expect(people(['add', 'Kim', 'keeper'], words)).toMatchObject({
			exit: 0,
			say: 'Kim: may enter as keeper\n'
		});
		writeFileSync(path('words'), words);
		const file = ['--passphrase-file', path('words')];
		expect(people(['add', 'Hal', 'helper', ...file])).toMatchObject({
			exit: 0,
			say: 'Hal: may enter as helper\n'
		});
		expect(people(['role', 'hal', 'viewer']).say).toBe('Hal: is now viewer\n');
		expect(people([]).out).toBe('keeper\tKim\nviewer\tHal\n');
		expect(people(['passphrase', 'Hal'], 'other words for the sea\n').exit).toBe(0);
		expect(people(['out', 'Hal']).exit).toBe(0);
		expect(people(['remove', 'Hal']).say).toBe('Hal: may enter no more\n');
	}, 60_000);
	test.each([
		[['remove', 'Kim'], '', /last keeper/],
		[['remove', 'Nobody'], '', /^saw Nobody, expected Kim\n$/],
		[['add', 'Lee'], '', /^saw people add Lee, expected people add NAME ROLE\n$/],
		[['add', 'Lee', 'captain'], words, /^saw captain, expected viewer, helper, keeper\n$/],
		[['add', 'Lee', 'helper'], 'short\n', /12/],
		[['add', 'Lee', 'helper', '--passphrase', 'x'], '', /--passphrase,/],
		[['promote', 'Kim'], '', /^saw people promote, expected one of: /]
	])(
		'%j is refused with one sentence',
		(args, input, sentence) => {
			const answer = people(args, input);
			expect(answer).toMatchObject({ exit: 2, out: '' });
			expect(answer.say).toMatch(sentence);
			expect(answer.say.trimEnd()).not.toContain('\n');
		},
		30_000
	);
});
