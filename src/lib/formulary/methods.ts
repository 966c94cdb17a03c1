import { cite } from './citations.ts';
import type { Band, Sourced, UseRow } from './row.ts';
import { judged, practice, published, remembered } from './sourced.ts';
import type { Target } from './vocabulary.ts';

/** Treatments without a bottle. */
export type Method = 'low-salinity' | 'transfer';

export interface MethodRow {
	method: Method;
	name: string;
	short: string;
	/** low salinity: the band held, ppt */
	holdPpt: Sourced<Band> | null;
	/** days count while salinity is at or under this, ppt */
	creditPpt: Sourced<number> | null;
	/** never under this, ppt */
	stopPpt: Sourced<number> | null;
	/** how fast salinity may move */
	downPptPerStep: Sourced<number> | null;
	downOverHours: Sourced<Band> | null;
	upPptPerDay: Sourced<number> | null;
	courseDays: Sourced<number> | null;
	/** transfers: how many, how far apart, when too late, when the series starts again */
	moves: Sourced<number> | null;
	hoursApart: Sourced<number> | null;
	graceHours: Sourced<number> | null;
	restartHours: Sourced<number> | null;
	howTo: Sourced<string>;
	treats: Partial<Record<Target, Sourced<string>>>;
	doesNotTreat: Partial<Record<Target, Sourced<string>>>;
	uses: readonly UseRow[];
	notes: readonly Sourced<string>[];
	disagreements: readonly { about: string; says: string; source: string }[];
}

const blank = {
	holdPpt: null,
	creditPpt: null,
	stopPpt: null,
	downPptPerStep: null,
	downOverHours: null,
	upPptPerDay: null,
	courseDays: null,
	moves: null,
	hoursApart: null,
	graceHours: null,
	restartHours: null
} as const satisfies Partial<MethodRow>;

export const methods: Readonly<Record<Method, MethodRow>> = {
	'low-salinity': {
		...blank,
		method: 'low-salinity',
		name: 'Low salinity',
		short: 'Low S',
		holdPpt: practice({ low: 12, high: 14 }),
		creditPpt: published(16, cite.cheung1979),
		stopPpt: published(10, cite.wu1983, 'half the species tried did not live through 5 ppt'),
		downPptPerStep: practice(8),
		downOverHours: practice({ low: 48, high: 72 }),
		upPptPerDay: practice(2),
		courseDays: practice(28),
		howTo: practice(
			'Change with fresh water of the same temperature and pH; refractometer checked near 14 ppt; pH every day.'
		),
		treats: {
			cryptocaryon: published('At 16 ppt and less cysts burst.', cite.cheung1979),
			neobenedenia: published('15 g/L: worms gone in 2 days, eggs dead in 5.', cite.ellis1993),
			flukes: published('15 g/L: worms gone in 2 days, eggs dead in 5 (Neobenedenia).', cite.ellis1993)
		},
		doesNotTreat: {
			amyloodinium: published('A pool in brackish water was lost to it.', cite.ellis1993),
			brooklynella: remembered('No effect worth counting on.'),
			uronema: published('Grows from 10 ppt up.', cite.jee2001),
			worms: judged('It does not reach the gut.'),
			bacteria: judged('No cure for bacterial disease.'),
			fungus: judged('No cure for fungus.')
		},
		uses: [
			{ of: 'Cryptocaryon, clinical guidance', level: { low: 16, high: 18 }, mark: 'P', source: cite.merck },
			{
				of: 'Cryptocaryon, four baths',
				level: { low: 10, high: 10 },
				hours: { low: 3, high: 3 },
				doses: { low: 4, high: 4 },
				gapDays: { low: 3, high: 3 },
				mark: 'P',
				source: cite.colorni1985
			},
			{
				of: 'Neobenedenia melleni, eggs',
				level: { low: 15, high: 15 },
				days: { low: 5, high: 5 },
				result: 'dead',
				mark: 'P',
				source: cite.ellis1993
			},
			{
				of: 'Neobenedenia melleni, juveniles and adults',
				level: { low: 15, high: 15 },
				days: { low: 2, high: 2 },
				result: 'gone',
				mark: 'P',
				source: cite.ellis1993
			},
			{
				of: 'Neobenedenia melleni, eggs',
				level: { low: 18, high: 18 },
				days: { low: 7, high: 7 },
				result: 'dead; some worms live',
				mark: 'P',
				source: cite.ellis1993
			}
		],
		notes: [
			remembered('Bony fish only: no sharks, rays or invertebrates.'),
			published(
				'At 15 ppt about 14 % more of the ammonia is toxic NH3 than at 35.',
				'Bell et al. 2007, Environ. Chem. 4:183-186, at 25 °C'
			),
			judged('No copper while salinity is low.')
		],
		disagreements: [
			{
				about: 'salinity',
				says: 'Guidance says 16 to 18 ppt; cysts burst at 16 and under, so this shelf counts from 16.',
				source: cite.merck
			},
			{
				about: 'salinity',
				says: 'A strain of the yellow croaker hatched at 5 and 10 ppt.',
				source: cite.yellowCroaker
			},
			{ about: 'salinity', says: 'A low-salinity form is known from Taiwan.', source: cite.yambot2003 }
		]
	},
	transfer: {
		...blank,
		method: 'transfer',
		name: 'Tank transfer',
		short: 'Move',
		moves: published(4, cite.colorni1985),
		hoursApart: published(72, cite.colorni1985),
		graceHours: judged(6),
		restartHours: judged(86, 'cysts may open from day 3 on'),
		howTo: practice(
			'Move the fish with as little water as can be; strip, disinfect and dry the left tank. Two tanks are enough if each is dried between.'
		),
		treats: { cryptocaryon: published('Fish leave their cysts behind before they open.', cite.colorni1985) },
		doesNotTreat: {
			amyloodinium: remembered('Swimmers live too long, and stages stay on the fish.'),
			brooklynella: judged('It never leaves the fish.'),
			uronema: judged('It lives in tissue.'),
			flukes: remembered('The worms move with the fish.'),
			neobenedenia: remembered('The worms move with the fish.'),
			benedenia: remembered('The worms move with the fish.'),
			worms: judged('They move with the fish.'),
			bacteria: judged('They move with the fish.'),
			fungus: judged('It moves with the fish.')
		},
		uses: [
			{
				of: 'Cryptocaryon, moves into clean tanks',
				level: null,
				doses: { low: 4, high: 4 },
				gapDays: { low: 3, high: 3 },
				mark: 'P',
				source: cite.colorni1985
			},
			{
				of: 'Cryptocaryon at 22 to 32 °C',
				level: null,
				doses: { low: 2, high: 3 },
				gapDays: { low: 2, high: 3 },
				mark: 'P',
				source: cite.rotation2018
			}
		],
		notes: [
			published(
				'At 18 to 20 °C cysts open later: the moves may be more than 4 days apart there.',
				cite.rotation2018
			)
		],
		disagreements: [
			{
				about: 'number of moves',
				says: '2 to 3 moves every 2 to 3 days sufficed at 22 to 32 °C.',
				source: cite.rotation2018
			}
		]
	}
};
