import { cautionsFor } from '../cautions.ts';
import { cite } from '../citations.ts';
import { labels } from '../labels.ts';
import type { MedicineRow } from '../row.ts';
import { judged, practice, published, remembered } from '../sourced.ts';
import { plain } from './plain.ts';

const shared = {
	margin: practice('narrow'),
	temperatureC: published({ max: 26 }, cite.formalinMonograph, 'the pond label stops at 80 °F (26.7 °C)'),
	oxygenDemand: published(
		{ mgPerLPerHour: 5 / 36, perLevel: 25 },
		cite.vm77,
		'1 mg of oxygen per 5 mg of formalin; that it is spread over about 36 hours is from memory'
	),
	removedBy: remembered(['change'], 'carbon holds it badly'),
	strengthForms: ['whole'],
	doesNotTreat: {
		cryptocaryon: remembered(
			'It reaches swimmers and some trophonts on the surface, not those deep in the skin nor cysts.'
		),
		worms: judged('It does not reach the gut.')
	}
} as const satisfies Partial<MedicineRow>;

/** Formalin, counted as the whole liquid (about 37 % formaldehyde), and its mixture with malachite green. */
export const formalinRows = {
	formalin: {
		...plain,
		...shared,
		...labels.formalin,
		window: published(
			{ low: 15, high: 25 },
			cite.vm77,
			'prolonged bath; of the whole liquid, never divided by 0.37'
		),
		ceiling: published(25, cite.vm77, 'prolonged bath; a short bath has its own'),
		clear: judged(1.5),
		bath: {
			ceiling: published(250, cite.vm77, 'cool water'),
			warm: published({ aboveC: 21, ceiling: 150 }, cite.vm77),
			minutes: published(
				{ low: 30, high: 60 },
				cite.vm77,
				'the keeper stays and ends it at the first distress'
			)
		},
		loss: judged(
			{ leastHalfLifeDays: null, greatestHalfLifeDays: 0.115 },
			'a filter used to it ate 1.81 mg/L of formaldehyde an hour (Pedersen 2010): half of 25 µL/L in under 3 h; a new one a tenth of that'
		),
		course: remembered({ doses: 3, gapDays: 2 }),
		harmsFilter: published(
			false,
			cite.fredricks2018,
			'at 25 µL/L; 100 µL/L and more held a filter back for 8 days'
		),
		lightSensitive: remembered(true, 'the bottle: dark, above 4 °C'),
		sensitive: remembered({
			groups: ['boxfish', 'dragonet', 'eel', 'frogfish', 'lionfish', 'pipefish', 'puffer', 'seahorse'],
			aim: 15,
			rampDays: null
		}),
		howToGive: practice(
			'Thin it in a bucket of tank water and add it slowly into strong aeration; stay and watch.'
		),
		disturbs: remembered(['formaldehyde upsets ammonia kits; believe a reading only after a change']),
		cautions: cautionsFor(
			'carcinogen',
			'corrosive',
			'fumes',
			'allergy',
			'poison',
			'permanganate',
			'invertebrates'
		),
		legal: remembered(
			'Formaldehyde is a controlled carcinogen at work in many countries; some restrict its sale.'
		),
		treats: {
			brooklynella: published('Clears it from skin and gills.', 'encyclopaedia citing textbooks'),
			uronema: published('Holds back what is on the skin; does not clear organs.', cite.jee2002),
			amyloodinium: published(
				'51 µL/L for 1 h took 97 % off the skin and 68 % off the gills of one fish; those that drop are alive and may divide (from memory).',
				cite.formalinTexts
			),
			neobenedenia: published('Listed for flukes of skin and gills.', cite.vm77),
			benedenia: published('Listed for flukes of skin and gills.', cite.vm77),
			flukes: published('Listed for flukes of skin and gills.', cite.vm77),
			fungus: remembered('External fungi, on eggs above all.')
		},
		doesNotTreat: {
			...shared.doesNotTreat,
			bacteria: judged('Not a treatment of bacterial disease.')
		},
		uses: [
			{ of: 'prolonged bath', level: { low: 15, high: 25 }, mark: 'P', source: cite.vm77 },
			{
				of: 'short bath, cool water',
				level: { low: 0, high: 250 },
				minutes: { low: 0, high: 60 },
				mark: 'P',
				source: cite.vm77
			},
			{
				of: 'short bath above 21 °C',
				level: { low: 0, high: 150 },
				minutes: { low: 0, high: 60 },
				mark: 'P',
				source: cite.vm77
			},
			{
				of: 'label, finfish other than salmonids',
				level: { low: 0, high: 250 },
				hours: { low: 0, high: 1 },
				mark: 'P',
				source: cite.merckTable
			},
			{
				of: 'label, salmonids above 50 °F',
				level: { low: 0, high: 170 },
				hours: { low: 0, high: 1 },
				mark: 'P',
				source: cite.merckTable
			},
			{
				of: 'short bath above 22 °C',
				level: { low: 0, high: 167 },
				mark: 'P',
				source: cite.formalinTexts
			},
			{
				of: 'short bath at 250',
				level: { low: 250, high: 250 },
				minutes: { low: 30, high: 45 },
				mark: 'P',
				source: cite.formalinTexts
			}
		],
		toxicity: [
			{
				of: 'fresh-water filter held back for 8 days',
				level: { low: 100, high: 100 },
				mark: 'P',
				source: cite.fredricks2018
			}
		],
		notes: [
			published(
				'1 µL of the liquid weighs about 1.09 mg; 100 µL/L is about 37 mg/L of formaldehyde.',
				cite.formalinMonograph
			),
			published('Keep the water at 6 to 8 mg/L of oxygen during a bath.', cite.formalinMonograph),
			published('The label forbids it under 5 mg/L of oxygen.', cite.merckTable),
			published('Striped bass are sensitive to it.', cite.formalinTexts),
			published(
				'Keep the bottle above 4 °C and throw it away once a white sediment shows.',
				cite.formalinTexts
			),
			published('Explodes with potassium permanganate.', cite.formalinTexts),
			published(
				'A filter that has met it before eats it up to ten times faster (0.19, later 1.81 mg/L an hour).',
				cite.pedersen2010
			)
		],
		disagreements: [
			{
				about: 'white sediment',
				says: 'Fine paraformaldehyde was no more toxic than clear formalin; most sources say to discard the bottle.',
				source: cite.howe1995
			},
			{
				about: 'filter bacteria',
				says: 'The nitrite step of a marine filter suffered above 40 mg/L for 1 h or 60 mg/L for more than 4 h.',
				source: cite.keck2002
			},
			{
				about: 'filter bacteria',
				says: '167 ppm left a filter alone, 300 ppm did not.',
				source: cite.schwartz2000
			},
			{
				about: 'warm water',
				says: 'The short-bath ceiling drops at 21 °C to 150 in one source, at 22 °C to 167 in another.',
				source: cite.formalinTexts
			},
			{
				about: 'greatest temperature',
				says: 'One monograph stops at 26 °C, the pond label at 26.7 °C; reef fish are kept at both.',
				source: cite.merckTable
			}
		]
	},
	'formalin-malachite': {
		...plain,
		...shared,
		...labels['formalin-malachite'],
		window: null,
		ceiling: published(
			25,
			cite.astmTable,
			"of the formalin share; the bottle's label says how much it holds"
		),
		loss: judged(
			{ leastHalfLifeDays: null, greatestHalfLifeDays: 0.115 },
			'as formalin; malachite green may stay longer'
		),
		course: remembered({ doses: 3, gapDays: 2 }),
		bath: {
			ceiling: published(25, cite.astmTable, 'with 0.1 mg/L of malachite green'),
			warm: null,
			minutes: published({ low: 60, high: 120 }, cite.astmTable)
		},
		removedBy: published(
			['carbon', 'light', 'change'],
			cite.aitcheson2001,
			'carbon takes the dye, hardly the formalin; light is from memory'
		),
		harmsFilter: judged(true, 'taken as harmful until shown otherwise'),
		lightSensitive: remembered(true),
		notFor: remembered(['shark', 'ray']),
		sensitive: remembered(
			{
				groups: ['boxfish', 'dragonet', 'eel', 'frogfish', 'lionfish', 'pipefish', 'puffer', 'seahorse'],
				aim: null,
				rampDays: null
			},
			'half the dose for scaleless fish'
		),
		howToGive: practice('By the label, thinned in tank water, slowly, into strong aeration.'),
		disturbs: remembered(['formaldehyde upsets ammonia kits', 'the dye hides the colours of kits']),
		cautions: cautionsFor(
			'carcinogen',
			'corrosive',
			'fumes',
			'allergy',
			'poison',
			'permanganate',
			'stains',
			'food',
			'invertebrates'
		),
		legal: published(
			'Malachite green is banned for food fish and stays in the flesh.',
			cite.fao,
			'some countries forbid its sale altogether (from memory)'
		),
		treats: {
			brooklynella: remembered('External ciliates.'),
			uronema: remembered('What is on the skin; not what is in organs.'),
			fungus: remembered('External fungi, on eggs above all.')
		},
		uses: [
			{
				of: 'formalin 25 with malachite green 0.1 mg/L, research fish',
				level: { low: 25, high: 25 },
				hours: { low: 1, high: 2 },
				mark: 'P',
				source: cite.astmTable
			},
			{
				of: 'alternate days',
				level: { low: 25, high: 25 },
				doses: { low: 3, high: 3 },
				gapDays: { low: 2, high: 2 },
				mark: 'M',
				source: 'from memory'
			}
		],
		notes: [
			remembered(
				"The level counted here is the formalin of the mixture; malachite green follows in the label's proportion."
			)
		]
	}
} as const satisfies Partial<Record<string, MedicineRow>>;
