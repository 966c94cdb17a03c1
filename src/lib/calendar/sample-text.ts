import fc from 'fast-check';

/** Pieces that have broken calendar files before: wide scripts, joined emoji, right-to-left, marks, controls. */
const pieces = [
	...'abc XYZ 0123456789',
	...'\\,;:"\'`<>&=%|',
	'\n',
	'\r\n',
	'\r',
	'\t',
	'\\n',
	'\\N',
	'\\\\',
	'é',
	'ß',
	'µ',
	'水',
	'検疫',
	'어항',
	'👩‍🔬',
	'🐠',
	'🏳️‍🌈',
	'👨‍👩‍👧‍👦',
	'🇳🇿',
	'مرحبا',
	'שלום',
	'\u202e',
	'\u200f',
	'e\u0301',
	'\u0000',
	'\u0007',
	'\u001b[31m',
	'\u007f',
	'\u0085',
	'\u2028',
	'\ufeff',
	'\ud800',
	'BEGIN:VEVENT',
	'END:VCALENDAR',
	'  ',
	'x'.repeat(80)
];

const text = fc.array(fc.constantFrom(...pieces), { maxLength: 60 }).map((parts) => parts.join(''));

/** The same texts in every run and on every machine. */
export const sampleTexts = (count: number, seed: number): string[] =>
	fc.sample(text, { numRuns: count, seed });
