import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromHtml, fromTsv, tiled, toHtml, toTsv } from './clipboard.ts';

describe('tab-separated text', () => {
	// quoting as in RFC 4180, with tabs for commas: what spreadsheets put on the clipboard as text/plain
	test.each([
		[
			'a\tb\r\nc\td\r\n',
			[
				['a', 'b'],
				['c', 'd']
			]
		],
		['one', [['one']]],
		['a\t\tb', [['a', '', 'b']]],
		['a\t', [['a', '']]],
		['"two\nlines"\tx', [['two\nlines', 'x']]],
		['"say ""hi"""\tx', [['say "hi"', 'x']]],
		['"a\tb"\tc', [['a\tb', 'c']]],
		['\n\nx', [[''], [''], ['x']]],
		['"never closed', [['"never closed']]],
		['5" pipe', [['5" pipe']]],
		['', []]
	])('%j is read as %j', (text, block) => expect(fromTsv(text)).toEqual(block));

	test('what is written is read back, whatever the cells hold', () => {
		const cell = fc.string({
			unit: fc.constantFrom('a', ' ', '"', '\t', '\n', '\r', 'é', '2'),
			maxLength: 6
		});
		const block = fc
			.tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 }))
			.chain(([rows, columns]) =>
				fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), {
					minLength: rows,
					maxLength: rows
				})
			)
			// a single empty cell and an empty clipboard are the same text
			.filter((cells) => cells.flat().some((text) => text !== ''))
			.filter((cells) => cells[0]?.length !== 1 || cells.at(-1)?.[0] !== '');
		fc.assert(
			fc.property(block, (cells) => {
				expect(fromTsv(toTsv(cells))).toEqual(cells);
			}),
			{ seed: 1127, numRuns: 500 }
		);
	});
});

describe('an HTML table', () => {
	// the shapes LibreOffice Calc and a browser's own tables put on the clipboard, from memory
	test.each([
		[
			'<meta charset="utf-8"><table><colgroup width="85"></colgroup><tr><td height="17" align="left">a</td><td>b</td></tr><tr><td>c</td><td><br></td></tr></table>',
			[
				['a', 'b'],
				['c', '']
			]
		],
		[
			'<TABLE><TR><TH>x</TH><TD>1 &amp; 2 &lt; 3&nbsp;L &#8804; &#x2265;</TD></TR></TABLE>',
			[['x', '1 & 2 < 3 L ≤ ≥']]
		],
		['<table><tbody><tr><td colspan="2">wide</td><td>c</td></tr></tbody></table>', [['wide', '', 'c']]],
		[
			'<table><tr><td rowspan=2>high</td><td colspan="2" rowspan=\'2\'>both</td><td>d</td></tr><tr><td>e</td></tr><tr><td>f</td></tr></table>',
			[
				['high', 'both', '', 'd'],
				['', '', '', 'e'],
				['f', '', '', '']
			]
		],
		[
			'<table><tr><td>a</td><td rowspan="3">b</td></tr><tr></tr><tr><td rowspan="0">c</td></tr><tr><td>d</td><td>e</td></tr></table>',
			[
				['a', 'b'],
				['', ''],
				['c', ''],
				['d', 'e']
			]
		],
		['<table><tr><td>two<br>lines</td></tr></table>', [['two\nlines']]],
		['<table><tr><td><span style="color:red"><b>bold</b> text</span></td></tr></table>', [['bold text']]],
		['<p>no table</p>', null],
		['<table></table>', null]
	])('%j', (html, block) => expect(fromHtml(html)).toEqual(block));

	test('what is written is read back', () => {
		const block = [
			['<b>"x"</b> & y', 'two\nlines'],
			['', '50%']
		];
		expect(fromHtml(toHtml(block))).toEqual(block);
	});
});

describe('a block that fills', () => {
	test('repeats where the rectangle is a whole number of blocks', () => {
		expect(tiled([['a', 'b']], 2, 4)).toEqual([
			['a', 'b', 'a', 'b'],
			['a', 'b', 'a', 'b']
		]);
	});
	test('stands as it is elsewhere', () => {
		expect(tiled([['a', 'b']], 1, 3)).toEqual([['a', 'b']]);
		expect(tiled([['a'], ['b']], 3, 1)).toEqual([['a'], ['b']]);
	});
});
