import { expect, test } from 'vitest';
import { kept } from './kept.ts';

const week = () => ({
	first: '2026-11-30',
	days: [
		{ day: '2026-11-30', chips: [{ text: 'NH₃', state: 'planned' }], away: false },
		{ day: '2026-12-01', chips: [{ text: 'Cu 5.0 mL', state: 'planned' }], away: false }
	]
});

test('what reads as before is the very same value', () => {
	const before = week();
	expect(kept(before, week())).toBe(before);
});

test('one changed day is new, and so is what holds it; its neighbour is the old one', () => {
	const before = week();
	const now = week();
	now.days[1] = { day: '2026-12-01', chips: [{ text: 'Cu 4.8 mL', state: 'planned' }], away: false };
	const merged = kept(before, now);
	expect(merged).toEqual(now);
	expect(merged).not.toBe(before);
	expect(merged.days[0]).toBe(before.days[0]);
	expect(merged.days[1]).not.toBe(before.days[1]);
});

test.each([
	[
		[1, 2, 3],
		[1, 2]
	],
	[
		[1, 2],
		[1, 2, 3]
	],
	[{ a: 1 }, {}],
	[{}, { a: undefined }],
	[{ a: undefined }, { b: undefined }],
	[null, { a: 1 }],
	[{ a: 1 }, null],
	[[], {}],
	[0, -0]
])('%j and then %j reads as the latter', (before, now) => {
	expect(kept(before, now)).toStrictEqual(now);
});

test('the old value is never written into', () => {
	const before = Object.freeze({
		days: Object.freeze([Object.freeze({ day: 1 }), Object.freeze({ day: 2 })])
	});
	expect(kept(before, { days: [{ day: 1 }, { day: 3 }] })).toEqual({ days: [{ day: 1 }, { day: 3 }] });
});
