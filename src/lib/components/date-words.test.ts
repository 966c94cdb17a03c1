import { expect, test } from 'vitest';
import type { DayCell } from '$lib/calendar';
import { dateWords } from './date-words.ts';

test('what the checks find of a day is spoken with its days as they are read', () => {
	const message = 'Copper falls to 0.14 mg/L on 2026-12-08, and stays there to 2026-12-09.';
	const day = {
		day: '2026-12-08',
		away: false,
		chips: [],
		findings: [{ severity: 'caution', message }]
	} as unknown as DayCell;
	const spoken = dateWords('en-GB', 1).dayLine(day);
	expect(spoken).toMatch(
		/^Tuesday,? 8 December 2026\. nothing due\. caution: Copper falls to 0\.14 mg\/L on 8 Dec/
	);
	expect(spoken).not.toContain('2026-12');
});
