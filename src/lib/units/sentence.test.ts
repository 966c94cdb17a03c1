/** Sentences of the planner, retold. The figures are worked by hand: 1 US gal = 3.785411784 L (NIST SP 811), °F = 1.8 °C + 32. */
import { describe, expect, it } from 'vitest';
import { sentenceIn } from './index.ts';

describe('a sentence in US units', () => {
	it.each([
		['Change 34 L', 'Change 9.0 gal'],
		['Mix 56 L of salt water for tomorrow', 'Mix 14.8 gal of salt water for tomorrow'],
		['Top off 0.3 L of fresh water', 'Top off 10.1 fl oz of fresh water'],
		['Evaporation left 106 L of 112 L; salt stayed.', 'Evaporation left 28.0 gal of 29.6 gal; salt stayed.'],
		['Evaporation leaves 106 of 112 L, and', 'Evaporation leaves 28.0 of 29.6 gal, and'],
		['the filter’s 40 L a day count as none', 'the filter’s 10.6 gal a day count as none'],
		['It loses 1.5 L/d.', 'It loses 0.4 gal/d.'],
		['release +1 day, 34 L more water', 'release +1 day, 9.0 gal more water'],
		[
			'Formalin at 28 °C; sources stop at 26 to 27 °C.',
			'Formalin at 82.4 °F; sources stop at 78.8 to 80.6 °F.'
		],
		['No cyst opened at 7 or 37 °C.', 'No cyst opened at 44.6 or 98.6 °F.'],
		['slower to open at 20 than at 25 °C', 'slower to open at 68.0 than at 77.0 °F'],
		['holds between 25–26 °C', 'holds between 77.0–78.8 °F'],
		[
			'New water at 23 °C moves the tank by -1.5 °C in a change',
			'New water at 73.4 °F moves the tank by -2.7 °F in a change'
		],
		['More than 1 °C at once is a shock', 'More than 1.8 °F at once is a shock'],
		['Bring it back by at most 1 °C per hour.', 'Bring it back by at most 1.8 °F per hour.'],
		['the pond label stops at 80 °F (26.7 °C)', 'the pond label stops at 80 °F'],
		['It is 2 °C off; a larger', 'It is 3.6 °F off; a larger'],
		['The heater holds within 2 °C; 1 °C is the most.', 'The heater holds within 3.6 °F; 1.8 °F is the most.']
	])('%s', (metric, us) => expect(sentenceIn('us', metric)).toBe(us));

	it.each([
		'Ionic copper 5.0 mL',
		'Praziquantel 280 mg',
		'From 0 to 0.18 mg/L is wanted',
		'25 µL/L for 60 min',
		'down to 14 ppt',
		'Move 1 of 4: all fish into L2',
		'30 L-shaped pipes at 3 LED'
	])('%s stays as it is', (said) => expect(sentenceIn('us', said)).toBe(said));

	it('is the same sentence in metric units', () =>
		expect(sentenceIn('metric', 'Change 34 L at 26 °C')).toBe('Change 34 L at 26 °C'));
});
