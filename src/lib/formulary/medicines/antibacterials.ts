import { cautionsFor } from '../cautions.ts';
import { cite } from '../citations.ts';
import { labels } from '../labels.ts';
import type { MedicineRow } from '../row.ts';
import { judged, practice, published, remembered } from '../sourced.ts';
import { plain } from './plain.ts';

const notAParasiticide = {
	cryptocaryon: judged('It does not touch parasites.'),
	brooklynella: judged('It does not touch parasites.'),
	uronema: judged('It does not touch parasites.'),
	flukes: judged('It does not touch parasites.'),
	neobenedenia: judged('It does not touch parasites.'),
	benedenia: judged('It does not touch parasites.'),
	worms: judged('It does not touch parasites.')
} as const;

const antibioticLaw = published(
	'Antibiotic: on prescription in the US since June 2023 where it matters to medicine; none is approved for ornamental fish there.',
	cite.fda,
	'EU, UK and others: only through a veterinarian (from memory)'
);

const botanical = {
	...plain,
	margin: judged('narrow', 'strength differs from bottle to bottle'),
	window: null,
	ceiling: null,
	course: practice({ days: 7 }, 'the label decides'),
	removedBy: practice(['carbon', 'skimmer', 'change'], 'fine bubbles foam it out'),
	harmsFilter: judged(true, 'taken as harmful until shown otherwise'),
	foams: practice(true, 'coarse bubbles only'),
	howToGive: practice('By the label, shaken, into the flow; coarse bubbles, skimmer off.'),
	cautions: cautionsFor('eyesAndSkin', 'allergy', 'invertebrates'),
	legal: remembered('Sold freely; the label decides.'),
	doesNotTreat: { ...notAParasiticide, amyloodinium: judged('It does not touch parasites.') }
} as const satisfies Partial<MedicineRow>;

/** Antibiotics and the two botanical remedies. */
export const antibacterialRows = {
	nitrofurazone: {
		...plain,
		...labels.nitrofurazone,
		margin: practice('wide'),
		window: remembered(
			{ low: 3, high: 20 },
			'3 to 5 for 30 to 60 min in fresh water is published, 10 to 20 for 6 to 12 h is from memory'
		),
		ceiling: remembered(20),
		clear: judged(0.3),
		course: remembered({ doses: 3, gapDays: 1 }),
		removedBy: remembered(['carbon', 'light', 'change']),
		harmsFilter: judged(true, 'taken as harmful until shown otherwise'),
		lightSensitive: remembered(true, 'lights off'),
		howToGive: practice(
			'Dissolve in tank water, spread it over the tank, lights off; siphon out what stays yellow.'
		),
		disturbs: remembered(['the yellow water hides the colours of kits']),
		cautions: cautionsFor('carcinogen', 'dust', 'stains', 'resistance', 'food', 'invertebrates'),
		legal: published(
			'Forbidden for food fish.',
			cite.cir84,
			'on prescription in many countries (from memory)'
		),
		prescriptionOnly: true,
		treats: { bacteria: remembered('Gram-negative bacteria on skin and fins.') },
		doesNotTreat: {
			...notAParasiticide,
			amyloodinium: published('Did not kill the swimmers.', cite.bower),
			fungus: judged('Not a fungicide.')
		},
		uses: [
			{
				of: 'short bath, fresh water, as active substance',
				level: { low: 3, high: 5 },
				minutes: { low: 30, high: 60 },
				mark: 'P',
				source: cite.doseTable
			},
			{
				of: 'bath',
				level: { low: 10, high: 20 },
				hours: { low: 6, high: 12 },
				mark: 'M',
				source: 'from memory'
			}
		]
	},
	kanamycin: {
		...plain,
		...labels.kanamycin,
		margin: practice('wide'),
		window: remembered({ low: 50, high: 100 }),
		ceiling: remembered(100),
		clear: judged(5),
		course: remembered({ doses: 3, gapDays: 3 }),
		removedBy: remembered(['carbon', 'change']),
		harmsFilter: judged(true, 'taken as harmful until shown otherwise'),
		howToGive: practice('Dissolve the weighed powder in tank water and spread it over the tank.'),
		cautions: cautionsFor('allergy', 'dust', 'resistance', 'food', 'invertebrates'),
		legal: antibioticLaw,
		prescriptionOnly: true,
		treats: { bacteria: published('Useful in the water for infections on the outside only.', cite.cir84) },
		doesNotTreat: {
			...notAParasiticide,
			amyloodinium: judged('It does not touch parasites.'),
			fungus: judged('Not a fungicide.')
		},
		uses: [
			{
				of: 'bath',
				level: { low: 50, high: 100 },
				doses: { low: 3, high: 3 },
				gapDays: { low: 3, high: 3 },
				mark: 'M',
				source: 'from memory'
			}
		],
		notes: [published('Injected, its class harms kidneys.', cite.cir84)]
	},
	erythromycin: {
		...plain,
		...labels.erythromycin,
		margin: practice('wide'),
		window: remembered({ low: 5, high: 20 }),
		ceiling: judged(20),
		clear: judged(0.5),
		course: remembered({ doses: 4, gapDays: 1 }),
		loss: judged(
			{ leastHalfLifeDays: null, greatestHalfLifeDays: 1 },
			'it degrades in water (UF/IFAS Circular 84); no rate at hand'
		),
		removedBy: remembered(['carbon', 'change']),
		harmsFilter: remembered(true, 'can hold nitrifiers back'),
		howToGive: published('A poor choice in water: hardly absorbed. In food where it can be.', cite.cir84),
		dissolvesGPerL: judged(2),
		cautions: cautionsFor('allergy', 'dust', 'resistance', 'food', 'invertebrates'),
		legal: antibioticLaw,
		prescriptionOnly: true,
		treats: {
			bacteria: published('Gram-positive bacteria only; most of those of marine fish are not.', cite.cir84)
		},
		doesNotTreat: {
			...notAParasiticide,
			amyloodinium: judged('It does not touch parasites.'),
			fungus: judged('Not a fungicide.')
		}
	},
	'botanical-antibacterial': {
		...botanical,
		...labels['botanical-antibacterial'],
		treats: { bacteria: practice('Mild: frayed fins and small sores, at best.') },
		doesNotTreat: { ...botanical.doesNotTreat, fungus: judged('Its antifungal sister is meant for that.') },
		disagreements: [
			{
				about: 'effect',
				says: 'Plant oils killed Aeromonas from 0.02 % (cinnamon) to 2 % (thyme), 200 mg/L and more, well above usual doses; no bath trial on fish found.',
				source: cite.starliper2015
			}
		]
	},
	'botanical-antifungal': {
		...botanical,
		...labels['botanical-antifungal'],
		treats: { fungus: practice('Mild: fuzz on fins and sores, at best.') },
		doesNotTreat: {
			...botanical.doesNotTreat,
			bacteria: judged('Its antibacterial sister is meant for that.')
		}
	}
} as const satisfies Partial<Record<string, MedicineRow>>;
