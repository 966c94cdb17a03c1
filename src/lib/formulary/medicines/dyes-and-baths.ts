import { cautionsFor } from '../cautions.ts';
import { cite } from '../citations.ts';
import { labels } from '../labels.ts';
import type { MedicineRow } from '../row.ts';
import { judged, practice, published, remembered } from '../sourced.ts';
import { plain } from './plain.ts';

/** Dyes, hydrogen peroxide, fresh water, and whatever the shelf does not know. */
export const dyeAndBathRows = {
	'methylene-blue': {
		...plain,
		...labels['methylene-blue'],
		margin: judged('narrow'),
		window: remembered({ low: 1, high: 3 }),
		ceiling: remembered(3, 'prolonged bath'),
		bath: {
			ceiling: remembered(50, 'a dip of seconds'),
			warm: null,
			minutes: remembered({ low: 0.1, high: 1 })
		},
		clear: judged(0.1),
		course: remembered({ days: 5 }),
		removedBy: remembered(['carbon', 'light', 'change']),
		harmsFilter: remembered(true),
		lightSensitive: remembered(true),
		howToGive: practice('Thin it in tank water; it stains whatever it meets.'),
		disturbs: remembered(['the blue hides the colours of kits']),
		cautions: cautionsFor('stains', 'eyesAndSkin', 'poison', 'food', 'invertebrates'),
		treats: {
			fungus: remembered('Fungus on eggs and sores.'),
			amyloodinium: published('Stopped the swimmers in the dish.', cite.bower)
		},
		doesNotTreat: {
			cryptocaryon: judged('No effect worth counting on.'),
			flukes: judged('Not a worm medicine.'),
			neobenedenia: judged('Not a worm medicine.'),
			benedenia: judged('Not a worm medicine.'),
			worms: judged('Not a worm medicine.')
		},
		uses: [{ of: 'prolonged bath', level: { low: 1, high: 3 }, mark: 'M', source: 'from memory' }]
	},
	'hydrogen-peroxide': {
		...plain,
		...labels['hydrogen-peroxide'],
		margin: published('narrow', cite.peroxide2017, 'twice the useful level harms'),
		window: published(
			{ low: 56, high: 75 },
			`${cite.peroxide2017}; ${cite.rach2000}`,
			'75 mg/L in warm sea water; 56 is the low end for salmonids'
		),
		aim: published(75, cite.peroxide2017),
		ceiling: published(75, cite.peroxide2017),
		bath: {
			ceiling: published(75, cite.peroxide2017, 'at 28.5 °C; salmonids in cool water bore more'),
			warm: null,
			minutes: published({ low: 30, high: 60 }, cite.peroxide2017, '30 min; 60 for salmonids (Rach 2000)')
		},
		clear: judged(1),
		contactHours: judged(0.5),
		loss: remembered(
			{ leastHalfLifeDays: null, greatestHalfLifeDays: 0.1 },
			'gone in hours in water that holds life'
		),
		course: judged({ doses: 2, gapDays: 7 }, 'eggs outlive it, so the gap is that of the worm'),
		removedBy: remembered(['carbon', 'light', 'change']),
		harmsFilter: published(true, cite.schwartz2000, '100 ppm shut a filter down within a day'),
		lightSensitive: remembered(true),
		temperatureC: judged({ max: 29 }, 'harm grows with temperature; 75 mg/L was tried at 28.5 °C'),
		sensitive: published(
			{ groups: ['grouper'], aim: 56, rampDays: null },
			cite.cruz2004,
			'groupers died at 700 ppm; the aim is a judgment'
		),
		howToGive: practice(
			'In a bath of its own, thinned, with strong aeration; stay, and end it at the first distress.'
		),
		disturbs: remembered(['oxidises the reagents of chlorine and copper kits']),
		cautions: cautionsFor('corrosive', 'oxidiser', 'invertebrates'),
		treats: {
			neobenedenia: published('75 mg/L for 30 min removed all.', cite.peroxide2017),
			benedenia: published('75 mg/L for 30 min removed all.', cite.peroxide2017),
			flukes: published('75 mg/L for 30 min removed all.', cite.peroxide2017),
			amyloodinium: published('200 ppm looked promising; above the ceiling held here.', cite.peroxideTexts),
			uronema: published(
				'More than 50 mg/L killed a scuticociliate in the dish.',
				'Korean study of 2017 on Miamiensis'
			),
			bacteria: published('Gill bacteria of salmonids.', cite.rach2000)
		},
		doesNotTreat: {
			cryptocaryon: judged('Cysts and the stages in the skin outlive a bath.'),
			worms: judged('It does not reach the gut.')
		},
		uses: [
			{
				of: 'bath, Seriola dumerili, three kinds of fluke, 28.5 °C',
				level: { low: 75, high: 75 },
				minutes: { low: 30, high: 30 },
				result: 'all gone',
				mark: 'P',
				source: cite.peroxide2017
			},
			{
				of: 'bath, salmonids',
				level: { low: 56, high: 110 },
				minutes: { low: 60, high: 60 },
				mark: 'P',
				source: cite.rach2000
			},
			{
				of: 'bath, salmonids',
				level: { low: 230, high: 230 },
				minutes: { low: 30, high: 30 },
				mark: 'P',
				source: cite.rach2000
			}
		],
		toxicity: [
			{ of: 'Seriola harmed, 28.5 °C', level: { low: 150, high: 300 }, mark: 'P', source: cite.peroxide2017 },
			{
				of: 'kingfish killed by repeated baths, 26 °C',
				level: { low: 340, high: 340 },
				mark: 'P',
				source: cite.peroxideTexts
			},
			{
				of: 'grouper killed in 30 min and more, 25 °C',
				level: { low: 700, high: 700 },
				hours: 0.5,
				mark: 'P',
				source: cite.cruz2004
			},
			{
				of: 'filter shut down within a day',
				level: { low: 100, high: 100 },
				hours: 24,
				mark: 'P',
				source: cite.schwartz2000
			}
		]
	},
	acriflavine: {
		...plain,
		...labels.acriflavine,
		margin: judged('narrow'),
		window: published(
			{ low: 4, high: 10 },
			cite.exoticFormulary,
			'4 mg/L for trout, 10 for catfish, 4 hours; no marine trial at hand'
		),
		ceiling: published(10, cite.exoticFormulary),
		contactHours: published(4, cite.exoticFormulary),
		course: judged({ doses: 1 }),
		clear: judged(0.4),
		removedBy: remembered(['carbon', 'light', 'change']),
		harmsFilter: judged(true, 'taken as harmful until shown otherwise'),
		lightSensitive: remembered(true),
		howToGive: practice('Thin it in tank water, lights off.'),
		disturbs: remembered(['the yellow green dye hides the colours of kits']),
		cautions: cautionsFor('carcinogen', 'stains', 'eyesAndSkin', 'food', 'invertebrates'),
		treats: {
			bacteria: published('Bacteria on the outside.', cite.exoticFormulary),
			amyloodinium: published('Stopped the swimmers in the dish.', cite.bower),
			fungus: remembered('Surface fungi.')
		},
		doesNotTreat: {
			cryptocaryon: judged('No effect worth counting on.'),
			flukes: judged('Not a worm medicine.'),
			neobenedenia: judged('Not a worm medicine.'),
			benedenia: judged('Not a worm medicine.'),
			worms: judged('It does not reach the gut.')
		},
		uses: [
			{
				of: 'bath, trout',
				level: { low: 4, high: 4 },
				hours: { low: 4, high: 4 },
				mark: 'P',
				source: cite.exoticFormulary
			},
			{
				of: 'bath, catfish',
				level: { low: 10, high: 10 },
				hours: { low: 4, high: 4 },
				mark: 'P',
				source: cite.exoticFormulary
			}
		]
	},
	'fresh-water': {
		...plain,
		...labels['fresh-water'],
		margin: judged('narrow', 'minutes decide'),
		window: null,
		ceiling: null,
		bath: {
			ceiling: null,
			warm: null,
			minutes: published(
				{ low: 2, high: 5 },
				cite.daneshyari,
				'the fish decides: end it when it rolls or stops breathing evenly'
			)
		},
		contactHours: judged(0),
		loss: judged({ leastHalfLifeDays: null, greatestHalfLifeDays: null }, 'water is not lost'),
		course: judged({ doses: 1 }),
		removedBy: judged([]),
		harmsFilter: judged(false, 'it happens in a vessel of its own'),
		notFor: remembered(['shark', 'ray']),
		sensitive: remembered({
			groups: ['dragonet', 'frogfish', 'pipefish', 'seahorse', 'anthias'],
			aim: null,
			rampDays: null
		}),
		strengthForms: [],
		howToGive: practice(
			"Fresh water without chlorine, at the tank's temperature and pH, aired beforehand; stay and watch."
		),
		cautions: cautionsFor('electricity', 'invertebrates'),
		legal: judged('No law on water; animal welfare law stands.'),
		treats: {
			neobenedenia: published(
				'2 minutes cured tilapia; flukes turn white and fall off.',
				cite.melleniTilapia1988
			),
			benedenia: published('2 to 5 minutes.', cite.daneshyari),
			flukes: published(
				'2 to 5 minutes for skin flukes; not for those of the gills that hold tighter.',
				cite.daneshyari
			),
			amyloodinium: published(
				'An hour looked promising, far beyond a dip; cysts still divide after 6 weeks in fresh water (Bower & Turner).',
				cite.dipTexts
			)
		},
		doesNotTreat: {
			cryptocaryon: published('Trophonts in the skin survive 18 hours.', cite.colorni1985),
			worms: judged('It does not reach the gut.'),
			bacteria: judged('No cure for bacterial disease.'),
			fungus: judged('No cure for fungus.')
		},
		uses: [
			{
				of: 'dip, Neobenedenia melleni on tilapia',
				level: null,
				minutes: { low: 2, high: 2 },
				result: 'cured',
				mark: 'P',
				source: cite.melleniTilapia1988
			},
			{
				of: 'dip, skin flukes',
				level: null,
				minutes: { low: 2, high: 5 },
				mark: 'P',
				source: cite.daneshyari
			},
			{
				of: 'under 2 ppt',
				level: null,
				minutes: { low: 90, high: 90 },
				result: 'works, very hard on the fish',
				mark: 'P',
				source: cite.dipTexts
			}
		]
	},
	other: {
		...plain,
		...labels.other,
		margin: judged('narrow', 'the careful choice'),
		window: null,
		ceiling: null,
		removedBy: judged(['change'], 'only a change is sure'),
		harmsFilter: judged(true, 'taken as harmful until shown otherwise'),
		howToGive: judged('By the label of the bottle.'),
		cautions: cautionsFor('poison', 'eyesAndSkin', 'invertebrates'),
		notes: [judged('Nothing is known of it here: every number comes from your bottle and your veterinarian.')]
	}
} as const satisfies Partial<Record<string, MedicineRow>>;
