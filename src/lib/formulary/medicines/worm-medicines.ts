import { cautionsFor } from '../cautions.ts';
import { cite } from '../citations.ts';
import { labels } from '../labels.ts';
import type { MedicineRow } from '../row.ts';
import { judged, practice, published, remembered } from '../sourced.ts';
import { plain } from './plain.ts';

/** Levamisole and fenbendazole. */
export const wormRows = {
	levamisole: {
		...plain,
		...labels.levamisole,
		margin: judged('wide', '125 mg/L for 24 h killed no fish (trials on flukes)'),
		window: judged({ low: 1, high: 2 }, '2 mg/L for 24 h is published (UF/IFAS); the lower end is ours'),
		aim: published(2, cite.ufNematode),
		ceiling: remembered(50, 'for 2 hours'),
		clear: judged(0.1),
		course: published({ doses: 2, gapDays: 14 }, cite.ufNematode, 'again after 2 to 3 weeks'),
		removedBy: remembered(['carbon', 'change']),
		harmsFilter: judged(true, 'taken as harmful until shown otherwise'),
		howToGive: practice('Dissolve in tank water and spread it over the tank; lights low.'),
		cautions: cautionsFor('poison', 'eyesAndSkin', 'dust', 'food', 'invertebrates'),
		legal: remembered('A livestock wormer, on prescription in many countries.'),
		treats: {
			worms: published('Paralyses roundworms of the gut.', cite.ufNematode),
			flukes: published('125 mg/L for 24 h took off 88 %; far above the usual level.', cite.levamisoleTrials)
		},
		doesNotTreat: {
			cryptocaryon: judged('A worm medicine.'),
			amyloodinium: judged('A worm medicine.'),
			brooklynella: judged('A worm medicine.'),
			uronema: judged('A worm medicine.'),
			bacteria: judged('A worm medicine.'),
			fungus: judged('A worm medicine.')
		},
		uses: [
			{
				of: 'bath, roundworms',
				level: { low: 2, high: 2 },
				hours: { low: 24, high: 24 },
				gapDays: { low: 14, high: 21 },
				mark: 'P',
				source: cite.ufNematode
			},
			{
				of: 'bath, flukes of tambaqui',
				level: { low: 125, high: 125 },
				hours: { low: 24, high: 24 },
				result: '88 % gone, no deaths',
				mark: 'P',
				source: cite.levamisoleTrials
			},
			{
				of: 'short bath',
				level: { low: 50, high: 50 },
				hours: { low: 2, high: 2 },
				mark: 'M',
				source: 'from memory'
			}
		],
		disagreements: [
			{
				about: 'effect',
				says: '1 to 10 mg/L for 72 h, three times, never cleared zebrafish of roundworms; 73 % at best.',
				source: cite.levamisoleTrials
			}
		]
	},
	fenbendazole: {
		...plain,
		...labels.fenbendazole,
		margin: judged('narrow'),
		window: published(
			{ low: 10, high: 25 },
			`${cite.forwood}; ${cite.kolarova2022}`,
			'baths in fresh water; no marine trial at hand'
		),
		ceiling: published(25, cite.kolarova2022, 'the highest bath on record here, carp'),
		course: published({ doses: 2, gapDays: 1 }, cite.kolarova2022),
		clear: judged(1),
		removedBy: remembered(['carbon', 'change']),
		harmsFilter: judged(true, 'taken as harmful until shown otherwise'),
		notFor: remembered(['shark', 'ray'], 'damage to bone marrow of sand tiger sharks is reported'),
		howToGive: published('In food; in water it hardly dissolves (from memory).', cite.ufNematode),
		dissolvesGPerL: remembered(0.01),
		cautions: cautionsFor('dust', 'eyesAndSkin', 'food', 'invertebrates'),
		legal: remembered('A livestock wormer, on prescription in many countries.'),
		treats: {
			worms: published('Roundworms of the gut, in food.', cite.ufNematode),
			flukes: published(
				'25 mg/L for 12 h, twice a day apart, took off more than 90 % of a carp fluke.',
				cite.kolarova2022
			)
		},
		doesNotTreat: {
			cryptocaryon: judged('A worm medicine.'),
			amyloodinium: judged('A worm medicine.'),
			brooklynella: judged('A worm medicine.'),
			uronema: judged('A worm medicine.'),
			bacteria: judged('A worm medicine.'),
			fungus: judged('A worm medicine.')
		},
		uses: [
			{
				of: 'bath, carp fluke',
				level: { low: 25, high: 25 },
				hours: { low: 12, high: 12 },
				doses: { low: 2, high: 2 },
				gapDays: { low: 1, high: 1 },
				result: 'over 90 % gone',
				mark: 'P',
				source: cite.kolarova2022
			},
			{
				of: 'bath, fresh-water gill fluke',
				level: { low: 10, high: 10 },
				hours: { low: 48, high: 48 },
				result: '91 % gone',
				mark: 'P',
				source: cite.forwood
			}
		],
		disagreements: [
			{
				about: 'way of use',
				says: 'One source gives it in food only, others bathe in it.',
				source: cite.ufNematode
			}
		]
	}
} as const satisfies Partial<Record<string, MedicineRow>>;
