import { cautionsFor } from '../cautions.ts';
import { cite } from '../citations.ts';
import { labels } from '../labels.ts';
import type { MedicineRow } from '../row.ts';
import { judged, practice, published, remembered } from '../sourced.ts';
import type { Group } from '../vocabulary.ts';
import { plain, tenthADayHalfLifeDays } from './plain.ts';

const copperSensitive: readonly Group[] = [
	'dwarf-angelfish',
	'anthias',
	'blenny',
	'boxfish',
	'dragonet',
	'eel',
	'frogfish',
	'jawfish',
	'lionfish',
	'pipefish',
	'puffer',
	'seahorse',
	'wrasse'
];

const shared = {
	margin: published(
		'narrow',
		cite.frese1994,
		'the lowest lethal level on record is less than twice the window'
	),
	clear: practice(0.02, 'and the kit shows none, twice a day apart before invertebrates return'),
	rampDays: practice(3, 'sensitive fish 5 to 7'),
	loss: judged(
		{ leastHalfLifeDays: null, greatestHalfLifeDays: tenthADayHalfLifeDays },
		'none without calcareous matter (Angel et al. 2021); sponge, film and waste may take up to 10 % a day'
	),
	testWithinHours: practice(48),
	harmsFilter: remembered(false, 'a new or thin filter may slow for some days; test ammonia'),
	salinityPpt: judged({ min: 30 }, 'copper bites harder in dilute and soft water'),
	pH: judged({ min: 7.8 }, 'low pH and low alkalinity free more copper and release what was bound'),
	notFor: published(['shark', 'ray'], cite.copperTexts, 'many sharks and rays die of it'),
	harmsInvertebrates: published(true, cite.copperTexts, 'plants too'),
	legal: remembered(
		'Sold for ornamental fish in most countries; not for fish that are eaten without a label for it.'
	),
	doesNotTreat: {
		brooklynella: remembered('Copper does not stop this ciliate; it needs formalin.'),
		uronema: remembered('It lives in tissue and on bacteria, out of reach of copper.'),
		neobenedenia: judged('Worms outlive the window that fish stand.'),
		benedenia: judged('Worms outlive the window that fish stand.'),
		flukes: judged('Worms outlive the window that fish stand; use praziquantel.'),
		worms: judged('It does not reach the gut.'),
		bacteria: judged("It is no cure for bacterial disease, and it lowers the fish's own defence."),
		fungus: judged('Not at a level that fish stand.')
	}
} as const satisfies Partial<MedicineRow>;

/** Ionic and chelated copper. */
export const copperRows = {
	'copper-ionic': {
		...plain,
		...shared,
		...labels['copper-ionic'],
		window: published({ low: 0.15, high: 0.2 }, cite.copperTexts, 'as free copper, not as the salt'),
		aim: practice(0.18),
		ceiling: published(0.2, cite.copperTexts),
		raisePerService: practice(0.1),
		hurry: judged({ steps: 2, hoursApart: 12 }, 'only with velvet suspected'),
		course: published(
			{ days: 28 },
			cite.colorni1985,
			'tomonts release from day 3 to 28; 14 days only before a move'
		),
		removedBy: published(
			['carbon', 'resin', 'calcareous', 'change'],
			cite.angel2021,
			'carbon is slow; zeolite quick but soon spent; UV and skimmer leave it alone (common practice, no source)'
		),
		sensitive: judged(
			{ groups: copperSensitive, aim: 0.165, rampDays: 6 },
			'aim 0.16 to 0.17, raised over 5 to 7 days; the groups are from memory'
		),
		howToGive: practice('Thin the dose in a jug of tank water and pour it into the flow over some minutes.'),
		disturbs: remembered([
			'a conditioner that binds metals hides copper from the kit',
			'reducing agents spoil the copper kit'
		]),
		cautions: cautionsFor('poison', 'eyesAndSkin', 'invertebrates'),
		treats: {
			cryptocaryon: published(
				'Kills the free swimmers; trophonts in the skin and cysts outlive it.',
				cite.merck
			),
			amyloodinium: published('Kills the free swimmers and slows the division of cysts.', cite.merck)
		},
		uses: [
			{
				of: 'prolonged bath, free copper, marine fish',
				level: { low: 0.15, high: 0.2 },
				mark: 'P',
				source: cite.copperTexts
			},
			{
				of: 'prolonged bath at the upper end',
				level: { low: 0.18, high: 0.2 },
				days: { low: 0, high: 21 },
				mark: 'P',
				source: cite.merck
			},
			{ of: 'water of 5 to 35 ppt', level: { low: 0.1, high: 0.2 }, mark: 'P', source: cite.copperTexts },
			{
				of: 'held inside the window',
				level: { low: 0.15, high: 0.2 },
				days: { low: 14, high: 21 },
				mark: 'M',
				source: 'from memory'
			}
		],
		toxicity: [
			{
				of: 'juvenile red drum, half of them dead (LC50), copper sulfate test',
				level: { low: 0.28, high: 0.88 },
				hours: 96,
				mark: 'P',
				source: cite.frese1994
			}
		],
		notes: [
			published(
				'Copper sulfate pentahydrate is 25.45 % copper by mass; dose the copper, not the salt.',
				'IUPAC atomic masses: 63.546/249.685'
			),
			published(
				'0.4 mg/L of copper sulfate, met in the literature, is the salt: about 0.10 mg/L of copper.',
				'IUPAC atomic masses: 63.546/249.685'
			),
			published('Harms gills and weakens the defence of fish.', cite.fa165),
			published(
				'0.5 mg/L stayed dissolved for 28 days in sea water of pH 8.15 at 22 °C without calcareous matter.',
				cite.angel2021
			),
			practice('Not before the fish eat, unless signs of disease are logged.'),
			judged('Fish are never dropped into full strength.')
		],
		disagreements: [
			{
				about: 'velvet swimmers',
				says: 'Copper sulfate alone, with citrate or with EDTA did not kill dinospores in the dish.',
				source: cite.bower
			},
			{
				about: 'velvet swimmers',
				says: 'Copper sulfate is called effective on dinospores.',
				source: cite.beraldo2022
			},
			{
				about: 'flukes',
				says: 'Copper is listed for some flukes; this shelf does not rely on it.',
				source: cite.merck
			},
			{
				about: 'dilute water',
				says: 'A window of 0.1 to 0.2 is given for water of 5 to 35 ppt; this shelf stops at 30 ppt.',
				source: cite.copperTexts
			}
		]
	},
	'copper-chelated': {
		...plain,
		...shared,
		...labels['copper-chelated'],
		window: null,
		ceiling: null,
		course: published({ days: 28 }, cite.colorni1985, 'the parasite sets the length, as with ionic copper'),
		removedBy: remembered(
			['carbon', 'resin', 'uv', 'ozone', 'change'],
			'UV and ozone break the complex and free the copper at once'
		),
		sensitive: judged({ groups: copperSensitive, aim: null, rampDays: 6 }, 'the groups are from memory'),
		howToGive: practice(
			'By the label of the bottle, thinned in tank water, into the flow over some minutes.'
		),
		disturbs: remembered([
			'a kit for free copper reads far too low',
			'reducing conditioners break the complex'
		]),
		cautions: cautionsFor('poison', 'eyesAndSkin', 'invertebrates'),
		treats: {
			cryptocaryon: published(
				'Kills the free swimmers; trophonts in the skin and cysts outlive it.',
				cite.merck
			),
			amyloodinium: published('Kills the free swimmers.', cite.merck)
		},
		uses: [
			{
				of: 'total copper, by the chelator; the label decides',
				level: { low: 1.5, high: 2.5 },
				mark: 'M',
				source: 'from memory'
			}
		],
		notes: [
			published('Stays dissolved longer than ionic copper.', cite.merck),
			remembered(
				'Its scale is total copper, several times the ionic one. Never compare or mix the two scales.'
			)
		]
	}
} as const satisfies Partial<Record<string, MedicineRow>>;
