import { cite } from './citations.ts';
import type { ParasiteRow, StageRow } from './row.ts';
import { judged, practice, published, remembered } from './sourced.ts';
import type { Target } from './vocabulary.ts';

const seen = (
	stage: string,
	low: number,
	high: number,
	temperatureC: StageRow['temperatureC'],
	source: string
): StageRow => ({
	stage,
	days: { low, high },
	temperatureC,
	mark: 'P',
	source
});

const recalled = (
	stage: string,
	low: number,
	high: number,
	temperatureC: StageRow['temperatureC'] = null
): StageRow => ({
	stage,
	days: { low, high },
	temperatureC,
	mark: 'M',
	source: 'from memory'
});

const girellaeStages: readonly StageRow[] = [
	seen('egg to hatching', 5, 6, 25, cite.girellae1995),
	seen('hatching to laying', 10, 11, 25, cite.girellae1995),
	seen('egg to laying', 15, 17, 25, cite.girellae1995),
	seen('whole cycle', 15, 16, { low: 22, high: 24 }, cite.brazenor2015),
	seen('whole cycle', 10, 13, { low: 26, high: 32 }, cite.brazenor2015)
];

const seriolaeStages: readonly StageRow[] = [
	seen('egg to first hatching', 5, 5, 28, cite.ernst2005),
	seen('egg to first hatching', 16, 16, 14, cite.ernst2005)
];

/** Who lives on the fish, how it shows and how fast it turns over. Stage times in days, at the temperature given. */
export const parasites: Readonly<Record<Target, ParasiteRow>> = {
	cryptocaryon: {
		target: 'cryptocaryon',
		name: 'Cryptocaryon irritans (white spot)',
		signs: ['white-spots', 'flashing', 'fast-breathing', 'off-feed'],
		first: judged(
			'Begin within a day or two with something that lasts through the cysts, which open for weeks; fish that stay in the same water need the long course.'
		),
		stages: [
			seen('on the fish (trophont)', 3, 7, null, cite.colorni1985),
			seen('cyst to release (tomont)', 3, 28, null, cite.colorni1985),
			seen('free swimmer (tomite)', 1, 2, null, cite.colorni1985),
			seen('cyst: half open', 5, 5, 30, cite.cheung1979),
			seen('cyst: all open', 7, 7, 30, cite.cheung1979),
			seen('cyst: 60 % open', 8, 8, 25, cite.cheung1979),
			seen('cyst: 70 % open', 9, 9, 25, cite.cheung1979),
			seen('cyst: 10 % open', 9, 9, 20, cite.cheung1979),
			seen('cyst: 40 % open', 10, 10, 20, cite.cheung1979),
			seen('cyst: longest on record', 3, 72, null, cite.colorni1997)
		],
		notes: [
			published('No cyst opened at 7 or 37 °C.', cite.cheung1979),
			published(
				'Encysted within 16 h: 70 % at 30 °C, 77 % at 25 °C, 64 % at 20 °C, 10 % at 7 °C.',
				cite.cheung1979
			),
			published('Longer on the fish and slower to open at 20 than at 25 °C.', cite.diggles1996),
			published('Natural range 15 to 30 °C.', cite.fa164),
			published(
				'At 15 °C none hatched in 14 days; 27 °C hatched most, 30 °C gave most swimmers.',
				'yellow croaker study, abstract'
			),
			published(
				'Short of oxygen (1.4 to 1.7 mg/L) cysts slept and woke after a month.',
				'quoted second-hand'
			),
			published('A Korean strain lived at 12 to 16 °C.', 'Jee 2000'),
			published('At 16 ppt and less cysts burst; none developed.', cite.cheung1979),
			published(
				'A strain of the yellow croaker encysted and hatched at 5 and 10 ppt: low salinity may fail.',
				cite.yellowCroaker
			),
			published('A low-salinity form is known from Taiwan.', cite.yambot2003),
			remembered('Swimmers infect mostly within their first 6 to 12 hours.'),
			remembered('A display stands without fish for about 76 days to be sure; 6 to 8 weeks is common.')
		]
	},
	amyloodinium: {
		target: 'amyloodinium',
		name: 'Amyloodinium ocellatum (velvet)',
		signs: ['gold-dust', 'fast-breathing', 'into-flow', 'flashing', 'piping', 'off-feed'],
		first: judged(
			'Today, without days to settle in: copper or chloroquine within a day, air at its most. Low salinity and moving between tanks do not stop it.'
		),
		stages: [
			seen('whole cycle', 7, 20, null, cite.vce600),
			seen('cyst still dividing, fresh water', 42, 42, null, cite.bower),
			seen('cyst still dividing, sea water', 63, 63, 10, cite.bower),
			seen('cyst still dividing, sea water', 84, 84, 15, cite.bower),
			recalled('free swimmer (dinospore)', 6, 15)
		],
		notes: [
			published('One cyst gives up to 256 swimmers.', cite.vce600),
			published('The cycle takes less than a week in warm water that suits it.', cite.beraldo2022),
			published('Outbreaks to 40 °C and 46 ppt: neither heat nor salinity keeps it away.', cite.kuperman1999),
			published(
				'Fish in brackish water died of it (17.8 % lived): low salinity does not protect.',
				cite.ellis1993
			),
			judged('Fast: copper or chloroquine within a day of the first suspicion.')
		]
	},
	brooklynella: {
		target: 'brooklynella',
		name: 'Brooklynella hostilis (ciliate skin disease)',
		signs: ['haze', 'mucus', 'fast-breathing', 'lethargy', 'off-feed'],
		first: judged(
			'A bath today, with somebody beside it; copper does not reach it, and waiting for a culture costs the fish.'
		),
		stages: [],
		notes: [
			published(
				'Divides in two on the fish; no cyst, so a bath reaches all of it.',
				'encyclopaedia citing textbooks'
			),
			practice('Clownfish above all; kills within days.')
		]
	},
	uronema: {
		target: 'uronema',
		name: 'Uronema and kin (scuticociliates)',
		signs: ['sore', 'blisters', 'lethargy', 'off-feed'],
		first: judged(
			'Clean water and a bath today. Copper and low salinity do not stop it, and a bath does not reach what is under the skin: ask a veterinarian early.'
		),
		stages: [],
		notes: [
			published('Grows at 6 to 30 °C and 10 to 35 ppt: low salinity does not stop it.', cite.jee2001),
			published(
				'Formalin and fresh water hold it back on the skin, not in organs; at least 4 days running.',
				cite.jee2002
			),
			remembered('Lives on bacteria in dirty water: cleanliness is half the cure.')
		]
	},
	neobenedenia: {
		target: 'neobenedenia',
		name: 'Neobenedenia (skin flukes)',
		signs: ['flashing', 'cloudy-eye', 'mucus', 'haze', 'off-feed'],
		first: practice(
			'A dip in fresh water shows them: they turn white and drop. Then a treatment that is given twice, the second time by their life cycle.'
		),
		stages: girellaeStages,
		notes: [
			published('12 to 35 eggs an hour; none hatch at 15 °C.', cite.girellae1995),
			published(
				'15 g/L: worms gone in 2 days, eggs dead in 5; at 18 g/L eggs need 7 and some worms live.',
				cite.ellis1993
			),
			published('Far less sensitive to praziquantel than Benedenia.', cite.hirazawa2013),
			practice('Rarely seen until a dip makes them drop.')
		]
	},
	benedenia: {
		target: 'benedenia',
		name: 'Benedenia (skin flukes)',
		signs: ['flashing', 'cloudy-eye', 'mucus', 'off-feed'],
		first: practice(
			'A dip in fresh water shows them: they turn white and drop. Then a treatment that is given twice, the second time by their life cycle.'
		),
		stages: seriolaeStages,
		notes: [
			published(
				'More than 70 % of eggs hatch at 14 to 28 °C, none at 30 °C; few at 10 to 15 ppt.',
				cite.ernst2005
			),
			published('Eggs die of 3 minutes of drying or 30 seconds at 50 °C.', cite.ernst2005)
		]
	},
	flukes: {
		target: 'flukes',
		name: 'Flukes of skin or gills, not told apart',
		signs: ['flashing', 'pale-gills', 'fast-breathing', 'cloudy-eye', 'mucus', 'black-spots'],
		first: practice(
			'A dip in fresh water shows those of the skin; those of the gills need a scrape under a microscope. Then a treatment that is given twice, by the stricter life cycle.'
		),
		stages: [...girellaeStages, ...seriolaeStages],
		notes: [
			judged('Not told apart means the stricter bound of both genera.'),
			practice('Rarely seen until a dip makes them drop.')
		]
	},
	worms: {
		target: 'worms',
		name: 'Worms and flagellates of the gut',
		signs: ['stringy-faeces', 'thin'],
		first: judged(
			'Keep fresh faeces for a microscope before anything is given: worms and flagellates take different medicines, and both take them with the food.'
		),
		stages: [],
		notes: [
			published('Roundworms: the medicine is given again after 2 to 3 weeks.', cite.ufNematode),
			judged('Faeces under a microscope tell worms from flagellates; the medicines differ.')
		]
	},
	bacteria: {
		target: 'bacteria',
		name: 'Bacterial disease',
		signs: ['ragged-fins', 'sore', 'cloudy-eye', 'swollen', 'blisters'],
		first: judged(
			'Test and change water first. An antibiotic needs a veterinarian, best with a swab; half a course is worse than none.'
		),
		stages: [],
		notes: [practice('Clean water first; a swab tells which antibiotic, a guess does not.')]
	},
	fungus: {
		target: 'fungus',
		name: 'Fungus',
		signs: ['ragged-fins', 'sore'],
		first: judged(
			'Clean water first, and look for the wound it sits on; ask a veterinarian where it spreads.'
		),
		stages: [],
		notes: [practice('Fuzzy tufts; mostly on a wound that something else made.')]
	}
};
