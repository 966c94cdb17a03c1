import { expect, test } from 'vitest';
import { digest } from './digest.ts';

// Published FNV-1a 64-bit test vectors (Landon Curt Noll, fnv test suite; from memory)
test.each([
	['', 'cbf29ce484222325'],
	['a', 'af63dc4c8601ec8c'],
	['foobar', '85944171f73967e8'],
	['chongo was here!\n', '46810940eff5f915']
])('FNV-1a of %j is %s', (text, sum) => {
	expect(digest(text)).toBe(sum);
});

test('agrees with the same sum in big integers', () => {
	for (const text of ['Q2: 水 5.0 mL', 'x'.repeat(500), '🐠'.repeat(99)]) {
		let sum = 0xcbf29ce484222325n;
		for (const octet of Buffer.from(text))
			sum = ((sum ^ BigInt(octet)) * 0x100000001b3n) & 0xffffffffffffffffn;
		expect(digest(text)).toBe(sum.toString(16).padStart(16, '0'));
	}
});
