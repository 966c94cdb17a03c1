import { expect, test } from 'vitest';
import { editWords } from './edit-words.ts';

test.each([
	[{ path: ['phases', 0, 'lasts'], to: '4 d', was: '3 d' }, 'Row 1, Lasts: 3 d → 4 d'],
	[{ path: ['phases', 1, 'aim'], to: '0.18 mg/L' }, 'Row 2, aim: nothing → 0.18 mg/L'],
	[{ path: ['phases', 2], to: { id: 'wash', kind: 'washout' } }, 'Row 3 put in: washout'],
	[{ path: ['phases', 2], was: { id: 'row' } }, 'Row 3 taken out: row'],
	[{ path: ['lots', 0, 'count'], to: 4, was: 5 }, 'Fish 1, count: 5 → 4'],
	[{ path: ['tank', 'net'], to: '112 L', was: '100 L' }, 'tank, net: 100 L → 112 L'],
	[{ path: ['name'], was: 'Trial' }, 'name: Trial → nothing'],
	[{ path: ['note'], to: 'x'.repeat(100) }, `note: nothing → ${'x'.repeat(59)}…`]
])('%j is told as %s', (edit, words) => expect(editWords(edit)).toBe(words));
