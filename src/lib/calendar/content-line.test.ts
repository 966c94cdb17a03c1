import { describe, expect, test } from 'vitest';
import { clean, cut, escape, fold } from './content-line.ts';
import { sampleTexts } from './sample-text.ts';

describe('fold', () => {
	test('leaves 75 octets on one line and cuts the 76th off', () => {
		expect(fold('x'.repeat(75))).toBe('x'.repeat(75));
		expect(fold('x'.repeat(76))).toBe(`${'x'.repeat(75)}\r\n x`);
	});

	// RFC 5545 3.1: lines SHOULD NOT be longer than 75 octets; unfolding removes CRLF and one white space
	test('2,000 random texts: no line over 75 octets, no code point split, nothing lost', () => {
		for (const text of sampleTexts(2000, 75)) {
			const whole = `SUMMARY:${escape(clean(text))}`;
			const lines = fold(whole).split('\r\n');
			for (const line of lines) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
			expect(lines.every((line) => line.isWellFormed())).toBe(true);
			expect(lines.map((line, n) => (n ? line.slice(1) : line)).join('')).toBe(whole);
			expect(lines.slice(1).every((line) => line.startsWith(' '))).toBe(true);
		}
	});
});

test('escapes what RFC 5545 3.3.11 lists and nothing else', () => {
	expect(escape('a,b;c\\d\ne:f"g')).toBe('a\\,b\\;c\\\\d\\ne:f"g');
});

test('cleans line ends, controls and lone surrogates', () => {
	expect(clean('a\r\nb\rc\u2028d\u0085e')).toBe('a\nb\nc\nd\ne');
	expect(clean('\u0000x\u0007y\u001b[0m\u007fz\u009b\t!')).toBe('xy[0mz\t!');
	expect(clean('\ud800 🐠 \udfff')).toBe('\ufffd 🐠 \ufffd');
});

test('cuts with an ellipsis and never through an emoji', () => {
	expect(cut('abcdef', 6)).toBe('abcdef');
	expect(cut('abcdefg', 6)).toBe('abcde…');
	expect(cut('abcd🐠g', 6)).toBe('abcd…');
	expect(cut('abc', 0)).toBe('');
});
