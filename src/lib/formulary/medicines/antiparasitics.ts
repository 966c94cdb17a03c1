import { cautionsFor } from '../cautions.ts';
import { cite } from '../citations.ts';
import { labels } from '../labels.ts';
import type { MedicineRow } from '../row.ts';
import { judged, practice, published, remembered } from '../sourced.ts';
import { plain } from './plain.ts';

/** Praziquantel, chloroquine and metronidazole. */
export const antiparasiticRows = {
	praziquantel: {
		...plain,
		...labels.praziquantel,
		margin: practice('wide', 'five times the usual level is on record (Forwood et al., 48 h in fresh water)'),
		window: practice({ low: 2, high: 2.5 }, '2 mg/L is published (Neobenedenia melleni 2019, dhufish 2003)'),
		aim: practice(2.5),
		ceiling: judged(
			10,
			'the highest bath on record here (Forwood et al., 48 h in fresh water); no lethal level is known to us'
		),
		clear: judged(0.2),
		contactHours: published(30, cite.dhufish2003),
		loss: judged(
			{ leastHalfLifeDays: null, greatestHalfLifeDays: 0.35 },
			'Thomas et al. 2016: whole for 15 days in sterile water; gone after 8 ± 1 days the first time, after 2 days the second (taken as a fiftieth left)'
		),
		course: practice({ doses: 2, gapDays: 7 }, 'the gap follows the worm and the temperature'),
		removedBy: remembered(['carbon', 'change']),
		harmsFilter: remembered(false),
		foams: remembered(true, 'when it is brought in with a solvent; skimmer off'),
		howToGive: judged(
			'Stir the powder up in plenty of tank water (at most 0.4 g per litre), then pour it in; stir what settles.'
		),
		dissolvesGPerL: judged(0.4),
		cautions: cautionsFor('eyesAndSkin', 'dust', 'invertebrates'),
		legal: remembered(
			'On prescription in some countries, free for ornamental fish in others. Ask a veterinarian.'
		),
		harmsInvertebrates: remembered(true, 'kills tube worms and flatworms; others vary'),
		treats: {
			neobenedenia: published('Kills worms; eggs survive, so it is given twice.', cite.melleniBrazil2019),
			benedenia: published(
				'More sensitive to it than Neobenedenia; eggs survive, so it is given twice.',
				cite.hirazawa2013
			),
			flukes: published(
				'Kills worms on skin and gills; eggs survive, so it is given twice.',
				cite.dhufish2003
			),
			worms: remembered('Tapeworms and flukes of the gut when eaten; not roundworms.')
		},
		doesNotTreat: {
			cryptocaryon: judged('A worm medicine; it does not touch ciliates.'),
			amyloodinium: judged('A worm medicine; it does not touch dinoflagellates.'),
			brooklynella: judged('A worm medicine; it does not touch ciliates.'),
			uronema: judged('A worm medicine; it does not touch ciliates.'),
			bacteria: judged('A worm medicine.'),
			fungus: judged('A worm medicine.')
		},
		uses: [
			{
				of: 'bath, marine ornamentals, Neobenedenia melleni',
				level: { low: 2, high: 2 },
				doses: { low: 2, high: 2 },
				gapDays: { low: 4, high: 4 },
				result: 'cleared',
				mark: 'P',
				source: cite.melleniBrazil2019
			},
			{
				of: 'bath, marine gill fluke',
				level: { low: 2, high: 2 },
				hours: { low: 30, high: 30 },
				result: 'best of those tried',
				mark: 'P',
				source: cite.dhufish2003
			},
			{
				of: 'bath, fresh-water gill fluke',
				level: { low: 10, high: 10 },
				hours: { low: 48, high: 48 },
				result: '99 % gone',
				mark: 'P',
				source: cite.forwood
			},
			{
				of: 'loss in 650 L of running sea water, first treatment: none found from day',
				level: { low: 2, high: 2 },
				days: { low: 8, high: 8 },
				mark: 'P',
				source: cite.thomas2016
			},
			{
				of: 'loss, second treatment: none found from day',
				level: { low: 2, high: 2 },
				days: { low: 2, high: 2 },
				mark: 'P',
				source: cite.thomas2016
			},
			{
				of: 'loss, third treatment: none found from day',
				level: { low: 2, high: 2 },
				days: { low: 2, high: 2 },
				mark: 'P',
				source: cite.thomas2016
			},
			{
				of: 'short bath',
				level: { low: 2, high: 10 },
				hours: { low: 3, high: 24 },
				mark: 'M',
				source: 'from memory'
			}
		],
		notes: [
			published('Borne by sharks and rays, and given to them on arrival.', cite.hadfield2011),
			published(
				'The level decides, not the clock: in a tank that has met it a dose may last 2 days only.',
				cite.thomas2016
			)
		],
		disagreements: [
			{
				about: 'gap',
				says: 'Two doses 4 days apart cleared the fish, sooner than eggs hatch: it holds only while the first dose is still in the water.',
				source: cite.melleniBrazil2019
			},
			{
				about: 'effect',
				says: '5 to 20 mg/L did nothing to the flukes of tambaqui in the dish.',
				source: cite.alves2019
			},
			{
				about: 'effect',
				says: 'Neobenedenia girellae is far less sensitive than Benedenia seriolae.',
				source: cite.hirazawa2013
			}
		]
	},
	chloroquine: {
		...plain,
		...labels.chloroquine,
		margin: practice('narrow'),
		window: remembered({ low: 10, high: 20 }, '15 raised to 20 is published (Gili et al. 1998)'),
		aim: published(15, cite.gili1998),
		ceiling: published(20, cite.gili1998),
		clear: judged(1),
		loss: judged(
			{ leastHalfLifeDays: null, greatestHalfLifeDays: 5 },
			'eaten by some filters, untouched in others; no rate at hand'
		),
		course: published({ days: 28 }, cite.gili1998, '4 weeks, into a new tank after the second'),
		removedBy: remembered(['carbon', 'light', 'change']),
		harmsFilter: judged(true, 'taken as harmful until shown otherwise'),
		lightSensitive: published(true, cite.gili1998, 'the tank stands in the dark'),
		notFor: remembered([]),
		sensitive: remembered({ groups: ['wrasse', 'hawkfish', 'dragonet'], aim: 10, rampDays: null }),
		howToGive: practice(
			'Dissolve the weighed powder fully in a litre of tank water, then spread it over the tank, lights off.'
		),
		cautions: cautionsFor('heart', 'poison', 'dust', 'eyesAndSkin', 'invertebrates'),
		legal: remembered('A human medicine, on prescription nearly everywhere. Only with a veterinarian.'),
		prescriptionOnly: true,
		harmsInvertebrates: remembered(true, 'and algae'),
		treats: {
			cryptocaryon: published('Used against it on marine fish; cysts outlive it.', cite.gili1998),
			amyloodinium: published('Stops the swimmers in the dish.', cite.bower)
		},
		doesNotTreat: {
			flukes: judged('Not a worm medicine.'),
			neobenedenia: judged('Not a worm medicine.'),
			benedenia: judged('Not a worm medicine.'),
			worms: judged('Not a worm medicine.'),
			bacteria: judged('Not an antibiotic.'),
			fungus: judged('No report of use.')
		},
		uses: [
			{
				of: 'bath in the dark, marine, as diphosphate; 30 % change on day 3',
				level: { low: 15, high: 20 },
				days: { low: 28, high: 28 },
				mark: 'P',
				source: cite.gili1998
			},
			{
				of: 'bath',
				level: { low: 10, high: 15 },
				days: { low: 10, high: 21 },
				mark: 'M',
				source: 'from memory'
			}
		],
		notes: [
			published(
				'No substrate, no filter of silica or carbonate; read it by spectrophotometer and adjust on day 2.',
				cite.gili1998
			),
			published('A 30 % change on day 3 of each bath; a new tank after the second week.', cite.gili1998)
		]
	},
	metronidazole: {
		...plain,
		...labels.metronidazole,
		margin: practice('wide'),
		window: remembered({ low: 10, high: 25 }),
		aim: remembered(25),
		ceiling: judged(50, 'twice the usual dose; no harmful level at hand'),
		clear: judged(1),
		course: remembered({ doses: 3, gapDays: 2 }),
		removedBy: remembered(['carbon', 'change']),
		harmsFilter: judged(false, 'works on germs without oxygen'),
		howToGive: remembered(
			'Dissolves badly: stir it up in warm tank water first. Reaches the gut far better in food.'
		),
		dissolvesGPerL: judged(5),
		cautions: cautionsFor('carcinogen', 'dust', 'resistance', 'food', 'invertebrates'),
		legal: published(
			'Antimicrobial: on prescription in many countries; none is approved for ornamental fish in the US.',
			cite.cir84
		),
		prescriptionOnly: true,
		treats: {
			worms: remembered('Flagellates of the gut, which give the same stringy faeces; not worms themselves.')
		},
		doesNotTreat: {
			amyloodinium: published('Did not kill the swimmers.', cite.bower),
			cryptocaryon: remembered('No effect worth counting on.'),
			flukes: judged('Not a worm medicine.'),
			neobenedenia: judged('Not a worm medicine.'),
			benedenia: judged('Not a worm medicine.'),
			fungus: judged('No report of use.')
		},
		uses: [
			{
				of: 'bath, alternate days',
				level: { low: 25, high: 25 },
				doses: { low: 3, high: 3 },
				gapDays: { low: 2, high: 2 },
				mark: 'M',
				source: 'from memory'
			}
		]
	}
} as const satisfies Partial<Record<string, MedicineRow>>;
