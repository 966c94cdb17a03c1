import { expect, test } from 'vitest';
import type { SheetDocument } from '$lib/sheet';
import { placeWords, withPlaces } from './place-words.ts';

const document = {
	medicines: [{ id: 'cu', active: 'copper-ionic' }],
	lots: [{ id: 'a', what: 'two gobies' }],
	phases: [
		{ id: 'settle', kind: 'settle' },
		{ id: 'copper', kind: 'hold', medicine: 'cu' }
	]
} as unknown as SheetDocument;

test.each([
	['The level is missing (phases.copper.level).', 'The level is missing (Row 2, Hold, Level).'],
	['What they eat is missing (lots.a.feed).', 'What they eat is missing (two gobies, Feed).'],
	['The true water volume is missing (tank.net).', 'The true water volume is missing (Tank, Net volume).'],
	['Write medicines.cu.strength first.', 'Write Ionic copper, Strength of this bottle first.'],
	['A tank. The next sentence.', 'A tank. The next sentence.']
])('%s', (sentence, told) => {
	expect(withPlaces(sentence, (cell) => placeWords(document, cell))).toBe(told);
});
