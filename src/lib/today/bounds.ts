import { bottlesOf, type Sample } from '../planner/index.ts';
import type { Phase, Run } from '../run/index.ts';
import { oxygenFloorMgPerL } from '../water/index.ts';
import type { Bound } from './ask.ts';

/** Toxic ammonia as N, mg/L: act, change whatever acts, emergency (rules of long-time keepers; judgment, no source). */
const ammoniaSteps = { act: 0.02, override: 0.05, emergency: 0.1 } as const;

/** The run's own limit is where one acts; the graver steps stay. */
export const limitsOf = (run: Run) => ({ ...ammoniaSteps, act: run.limits.nh3MgNPerL });

/** Nitrate alone is never worse than a note up to here, mg/L (common practice, no source). */
const NITRATE_NOTE_TO = 50;

/** What the tank may differ by before it is said (judgment, no source). */
const off = { pH: 0.2, salinityPpt: 1, temperatureC: 1 } as const;

/** A course in low salinity counts at or under this, ppt, and may never go under that (common practice, no source). */
const lowSalinity = { counts: 16, least: 10 } as const;

interface Seen {
	run: Run;
	water: Sample | null;
	phases: readonly Phase[];
}

/** The bounds of what has no dose behind it, the gravest first. */
export function boundsOf(what: string, seen: Seen): Bound[] {
	switch (what) {
		case 'pH':
			return pHBounds(seen);
		case 'S':
			return salinityBounds(seen);
		case 'T':
			return temperatureBounds(seen);
		case 'NO3':
			return nitrateBounds(seen.run.limits.nitrateMgPerL);
		case 'NO2':
			return [nitriteSeen];
		case 'O2':
			return [
				{
					above: false,
					at: oxygenFloorMgPerL,
					tone: 'stop',
					text: `under ${oxygenFloorMgPerL}. Air first, as much as there is; no food, no dose.`
				}
			];
		default:
			return [];
	}
}

function pHBounds({ run, phases }: Seen): Bound[] {
	const least = dosed(run, phases).flatMap(({ row }) =>
		row.pH && row.pH.value.min !== null
			? [
					{
						above: false,
						at: row.pH.value.min,
						tone: 'caution' as const,
						text: `under ${row.pH.value.min}, where ${row.name.toLowerCase()} is not used. No dose before it is raised.`
					}
				]
			: []
	);
	const usual = run.tank.pH;
	if (usual === null) return least;
	return [
		...least,
		{
			above: true,
			at: usual + off.pH,
			tone: 'caution',
			text: `more than ${off.pH} over the usual ${usual}: more of the ammonia is toxic. Read ammonia.`
		},
		{
			above: false,
			at: usual - off.pH,
			tone: 'note',
			text: `more than ${off.pH} under the usual ${usual}: a change that lifts it lifts toxic ammonia too. Small steps.`
		}
	];
}

function salinityBounds({ run, water, phases }: Seen): Bound[] {
	if (phases.some(({ kind }) => kind === 'low-salinity'))
		return [
			{
				above: false,
				at: lowSalinity.least,
				tone: 'stop',
				text: `under ${lowSalinity.least} ppt. Raise it now, by at most 2 ppt a day.`
			},
			{
				above: true,
				at: lowSalinity.counts,
				tone: 'caution',
				text: `over ${lowSalinity.counts} ppt, days at this level do not count.`
			}
		];
	const usual = water?.salinityPpt ?? run.tank.salinityPpt;
	if (usual === null) return [];
	const wanted = run.tank.salinityPpt ?? usual;
	return [
		{
			above: true,
			at: wanted + off.salinityPpt,
			tone: 'caution',
			text: `more than ${off.salinityPpt} ppt over ${wanted}. Top off with fresh water, never salt water.`
		},
		{
			above: false,
			at: wanted - off.salinityPpt,
			tone: 'caution',
			text: `more than ${off.salinityPpt} ppt under ${wanted}. Raise it by at most 2 ppt a day.`
		}
	];
}

function temperatureBounds({ run, phases }: Seen): Bound[] {
	const hottest = dosed(run, phases).flatMap(({ row }) =>
		row.temperatureC && row.temperatureC.value.max !== null
			? [
					{
						above: true,
						at: row.temperatureC.value.max,
						tone: 'stop' as const,
						text: `above ${row.temperatureC.value.max} °C, where ${row.name.toLowerCase()} is not used. No dose, more air.`
					}
				]
			: []
	);
	const usual = run.tank.temperatureC;
	if (usual === null) return hottest;
	return [
		...hottest,
		{
			above: true,
			at: usual + off.temperatureC,
			tone: 'caution',
			text: `more than ${off.temperatureC} °C over ${usual} °C. Bring it back by at most 1 °C per hour.`
		},
		{
			above: false,
			at: usual - off.temperatureC,
			tone: 'caution',
			text: `more than ${off.temperatureC} °C under ${usual} °C. Look at the heater; back by at most 1 °C per hour.`
		}
	];
}

/** No limit is on record for sea water; what is known is said (from memory). */
const nitriteSeen: Bound = {
	above: true,
	at: 0,
	tone: 'note',
	text: 'no limit is given. In salt water fish bear far more nitrite than in fresh water, in low salinity less of it (from memory). It tells of a filter that is not ripe: read ammonia too.'
};

const nitrateBounds = (limit: number): Bound[] => [
	...(limit < NITRATE_NOTE_TO
		? [
				{
					above: true,
					at: NITRATE_NOTE_TO,
					tone: 'caution' as const,
					text: `over ${NITRATE_NOTE_TO}: change more.`
				}
			]
		: []),
	{ above: true, at: limit, tone: 'note', text: `over the ${limit} that is aimed at.` }
];

/** Medicines that go into the water in these phases. */
const dosed = (run: Run, phases: readonly Phase[]) =>
	bottlesOf(run).filter(({ id }) =>
		phases.some(({ medicine, kind }) => medicine === id && ['hold', 'pulse', 'daily', 'dip'].includes(kind))
	);
