import { medicines } from '../formulary/index.ts';
import type { Sample } from '../planner/index.ts';
import type { Fact, Run } from '../run/index.ts';
import { convert, print, type UnitSystem } from '../units/index.ts';
import { tanFromKit } from '../water/index.ts';

export type ReadingFact = Extract<Fact, { kind: 'reading' }>;

/** Something that can be read off a tank, and what the forecast says of it. */
export interface Measure {
	/** as the log writes it: `NH3`, `Cu`, ..., or a medicine's id */
	what: string;
	name: string;
	/** the unit it is shown in, and of a figure typed without one; empty for pH */
	unit: string;
	/** what a kit may count; empty where there is nothing to choose */
	forms: readonly ('tan' | 'nh3-total' | 'nh3-free' | 'ionic' | 'chelated')[];
	/** the forecast has this level; else a reading stands alone */
	forecast: boolean;
}

const water: readonly Measure[] = [
	{ what: 'NH3', name: 'Ammonia', unit: 'mg/L', forms: ['tan', 'nh3-total', 'nh3-free'], forecast: true },
	{ what: 'NO2', name: 'Nitrite', unit: 'mg/L', forms: [], forecast: false },
	{ what: 'NO3', name: 'Nitrate', unit: 'mg/L', forms: [], forecast: true },
	{ what: 'pH', name: 'pH', unit: '', forms: [], forecast: false },
	{ what: 'S', name: 'Salinity', unit: 'ppt', forms: [], forecast: true },
	{ what: 'T', name: 'Temperature', unit: '°C', forms: [], forecast: true },
	{ what: 'O2', name: 'Oxygen', unit: 'mg/L', forms: [], forecast: false }
];

const isCopper = ({ active }: Run['medicines'][number]) => active.startsWith('copper');

/** A measure as people of one system read it: of all that is read off a tank only degrees differ. */
export const measureIn = (system: UnitSystem, measure: Measure): Measure =>
	system === 'us' && measure.unit === '°C' ? { ...measure, unit: '°F' } : measure;

/** A value of the forecast or the log, which keep degrees Celsius, in the unit of its measure. */
export const shownValue = ({ unit }: Measure, value: number): number =>
	unit === '°F' ? convert(value, 'C', 'F', 'temperature') : value;

/** A difference of two such values: that of two temperatures has no zero of its own. */
export const shownStep = ({ unit }: Measure, step: number): number =>
	unit === '°F' ? convert(step, 'C', 'F', 'temperatureStep') : step;

/** What can be read in this run, in the units of one system: its medicines first, then the water. */
export function measuresOf(run: Run, system: UnitSystem = 'metric'): Measure[] {
	const copper = run.medicines.some(isCopper);
	const bottles = run.medicines
		.filter((medicine) => !isCopper(medicine))
		.map(({ id, active }): Measure => ({
			what: id,
			name: medicines[active].name,
			unit: active.startsWith('formalin') ? 'µL/L' : 'mg/L',
			forms: [],
			forecast: true
		}));
	return [
		...(copper
			? [
					{
						what: 'Cu',
						name: 'Copper',
						unit: 'mg/L',
						forms: ['ionic', 'chelated'] as const,
						forecast: true
					}
				]
			: []),
		...bottles,
		...water.map((measure) => measureIn(system, measure))
	];
}

/** The measure a reading speaks of; one of a medicine that has left the run keeps its id. */
export const measureOf = (run: Run, what: string, system: UnitSystem = 'metric'): Measure =>
	measuresOf(run, system).find((measure) => measure.what === what) ?? {
		what,
		name: what === 'Cu' ? 'Copper' : what,
		unit: 'mg/L',
		forms: [],
		forecast: false
	};

/** The forecast of a measure at a sample; null where the plan has none. Ammonia is TAN as N. */
export function forecastOf(run: Run, what: string, sample: Sample | undefined): number | null {
	if (!sample) return null;
	switch (what) {
		case 'NH3':
			return sample.tanMgNPerL;
		case 'NO3':
			return sample.nitrateMgPerL;
		case 'S':
			return sample.salinityPpt;
		case 'T':
			return sample.temperatureC;
		default: {
			const id = what === 'Cu' ? run.medicines.find(isCopper)?.id : what;
			return id === undefined ? null : (sample.medicinesMgPerL[id] ?? null);
		}
	}
}

/** The value of a reading on the scale of the forecast: ammonia as TAN. Null where temperature or pH is missing for it. */
export function onForecastScale(run: Run, fact: ReadingFact, sample: Sample | undefined): number | null {
	if (fact.what !== 'NH3') return fact.value;
	const form = fact.as === 'nh3-total' || fact.as === 'nh3-free' ? fact.as : 'tan';
	const { temperatureC, pH } = run.tank;
	const warm = sample?.temperatureC ?? temperatureC;
	if (form === 'nh3-free' && (warm === null || pH === null)) return null;
	const tan = tanFromKit(fact.value, form, {
		temperatureC: warm ?? 25,
		pH: pH ?? 8,
		salinityPpt: sample?.salinityPpt ?? run.tank.salinityPpt ?? 34
	});
	return tan.ok ? tan.value : null;
}

export const formWords: Readonly<Record<string, string>> = {
	tan: 'total, as N (TAN)',
	'nh3-total': 'total, as NH₃',
	'nh3-free': 'free NH₃',
	ionic: 'ionic scale',
	chelated: 'chelated scale'
};

/** A value with its unit, as the ledger shows it: three figures, never more than matter. */
export const valueText = (value: number, unit: string): string => print(Number(value.toPrecision(3)), unit);
