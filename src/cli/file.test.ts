import { existsSync, rmSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { now, oneLine, plan, refused, terminal } from './terminal.ts';

const { file, lazaret, path } = terminal();

describe('a file that cannot be read is one sentence and exit 2', () => {
	const phase = (over: object) => ({ ...plan, phases: [{ ...plan.phases[0], ...over }] });
	test.each<[string, unknown, RegExp]>([
		['not JSON', 'dear diary', /^x\.json: .*not JSON/],
		['empty', '', /^x\.json: saw an empty file/],
		['broken off', JSON.stringify(plan).slice(0, 300), /^x\.json: /],
		['binary', Buffer.from([0xff, 0xfe, 0, 1, 2, 0x80]), /^x\.json: saw bytes that are not text/],
		['a list', [], /^x\.json: saw a list/],
		['of another format', { ...plan, format: 'lazaret-plan/9' }, /^x\.json: format: /],
		['with an unknown key', { ...plan, colour: 'blue' }, /^x\.json: colour: /],
		['with a negative volume', { ...plan, tank: { net: '-5 L' } }, /^x\.json: tank\.net: saw "?-5 L/],
		['with 30 February', phase({ starts: 'on 2027-02-30' }), /^x\.json: phases\.settle\.starts: /],
		['with a reference to nothing', phase({ starts: 'after nowhere' }), /^x\.json: phases\.settle\.starts: /],
		[
			'with a cycle',
			{
				...plan,
				phases: [
					{ id: 'a', kind: 'observe', starts: 'after b', lasts: '1 d' },
					{ id: 'b', kind: 'observe', starts: 'after a', lasts: '1 d' }
				]
			},
			/^x\.json: phases\.[ab]\.starts: /
		],
		['with an id twice', { ...plan, phases: [plan.phases[0], plan.phases[0]] }, /^x\.json: phases/],
		['with no zone', { ...plan, timeZone: 'Mars/Base' }, /^x\.json: timeZone: /],
		[
			'with 10,000 phases',
			{ ...plan, phases: Array.from({ length: 10_000 }, (_, i) => ({ id: `p${i}`, kind: 'observe' })) },
			/^x\.json: phases: saw 10000/
		],
		['nested 100,000 deep', '['.repeat(100_000), /^x\.json: /],
		['with NaN', JSON.stringify(plan).replace('8.1', 'NaN'), /^x\.json: /],
		['with control characters', { ...plan, timeZone: '\u001b[31m\nUTC' }, /^x\.json: timeZone: /]
	])('%s', (_, content, sentence) => {
		const answer = lazaret(['plan', file('x.json', content), '--out', 'never.txt', ...now]);
		expect(answer).toEqual(refused(sentence));
		expect(answer.say).toMatch(oneLine);
		expect(answer.say).not.toContain('\u001b');
		expect(existsSync(path('never.txt'))).toBe(false);
	});
	test('more than 32 MiB', () => {
		expect(lazaret(['plan', file('big.json', ' '.repeat(33 * 1024 * 1024)), ...now])).toEqual(
			refused(/^big\.json: saw more than 32 MiB/)
		);
		rmSync(path('big.json'));
	});
	test.each([
		['a missing file', 'gone.json', /^gone\.json: saw no such file/],
		['a folder', '.', /^\.: saw a folder, expected a file/]
	])('%s', (_, name, sentence) => expect(lazaret(['plan', name, ...now])).toEqual(refused(sentence)));
});
