import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readDelimited, writeCsv } from './csv.ts';

describe('CSV', () => {
	it('is as RFC 4180, section 2, has it', () => {
		// its own examples 5 to 7: quotes around line ends, commas and doubled quotes
		expect(
			writeCsv([
				['aaa', 'b\r\nbb', 'ccc'],
				['zzz', 'y,y', 'b"bb']
			])
		).toBe('aaa,"b\r\nbb",ccc\r\nzzz,"y,y","b""bb"\r\n');
		expect(readDelimited('"aaa","b""bb","ccc"\r\nzzz,yyy,xxx')).toEqual([
			['aaa', 'b"bb', 'ccc'],
			['zzz', 'yyy', 'xxx']
		]);
	});

	it('comes back as it was, whatever stands in it', () => {
		const cell = fc
			.string({ unit: fc.constantFrom('a', '7', '"', ',', ';', '\n', '=', '+', ' ', 'é') })
			.map((text) => text.trim());
		const rows = fc
			.array(fc.tuple(fc.constant('x'), cell, cell), { minLength: 1 })
			.map((some) => [['h', 'i', 'j'], ...some.map((row) => [...row])]);
		fc.assert(
			fc.property(rows, (some) => {
				expect(readDelimited(writeCsv(some))).toEqual(some);
			}),
			{ seed: 7, numRuns: 300 }
		);
	});

	it.each([
		[
			'tabs',
			'a\tb,c\n1\t2',
			[
				['a', 'b,c'],
				['1', '2']
			]
		],
		[
			'semicolons',
			'a;b\n0,12;3',
			[
				['a', 'b'],
				['0,12', '3']
			]
		],
		['a mark at its beginning', '\uFEFFa,b', [['a', 'b']]],
		[
			'empty lines',
			'a,b\n\n,\n1,2\n',
			[
				['a', 'b'],
				['1', '2']
			]
		]
	])('is read with %s', (_, text, rows) => {
		expect(readDelimited(text)).toEqual(rows);
	});

	it('gives a spreadsheet nothing to run', () => {
		expect(writeCsv([['=1+1', '-0.1', '@x']])).toBe("'=1+1,-0.1,'@x\r\n");
	});
});
