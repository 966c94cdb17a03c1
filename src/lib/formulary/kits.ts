import { judged, practice, published, remembered } from './sourced.ts';
import type { Sourced } from './row.ts';

export interface KitRow {
	id: string;
	name: string;
	/** the plan file's word for what is read */
	what: 'NH3' | 'NO2' | 'NO3' | 'Cu' | 'pH' | 'S' | 'T' | 'O2';
	/** what the number means */
	reports: Sourced<string>;
	/** the `as` of a reading, where the word needs one */
	as: 'tan' | 'nh3-total' | 'nh3-free' | 'ionic' | 'chelated' | null;
	/** smallest step it tells apart, in `unit` */
	step: Sourced<number>;
	unit: string;
	disturbedBy: readonly Sourced<string>[];
}

const dyes = remembered('dyes in the water hide its colours');
const formaldehyde = remembered('formaldehyde turns it false');
const binder = practice('a conditioner that binds ammonia or metals');

/** Kits by how they work, never by name. Steps are those of the usual colour cards; a keeper states the own kit's. */
export const kits: readonly KitRow[] = [
	{
		id: 'ammonia-salicylate',
		name: 'Ammonia, salicylate drops',
		what: 'NH3',
		as: 'tan',
		reports: practice('total ammonia, as N or as NH3 by the card; look it up on the leaflet'),
		step: remembered(0.25),
		unit: 'mg/L',
		disturbedBy: [binder, formaldehyde, dyes]
	},
	{
		id: 'ammonia-nessler',
		name: 'Ammonia, Nessler drops',
		what: 'NH3',
		as: 'nh3-total',
		reports: remembered('total ammonia; sea water clouds it, and it holds mercury'),
		step: remembered(0.25),
		unit: 'mg/L',
		disturbedBy: [binder, formaldehyde, dyes]
	},
	{
		id: 'ammonia-gas',
		name: 'Free ammonia, gas disc',
		what: 'NH3',
		as: 'nh3-free',
		reports: remembered('the toxic share alone, as NH3'),
		step: remembered(0.02),
		unit: 'mg/L',
		disturbedBy: [remembered('slow: hours behind a change')]
	},
	{
		id: 'copper-free',
		name: 'Copper, free',
		what: 'Cu',
		as: 'ionic',
		reports: remembered('ionic copper; chelated copper hardly shows'),
		step: remembered(0.05),
		unit: 'mg/L',
		disturbedBy: [binder, remembered('reducing conditioners'), remembered('hydrogen peroxide'), dyes]
	},
	{
		id: 'copper-total',
		name: 'Copper, total',
		what: 'Cu',
		as: 'chelated',
		reports: remembered('all dissolved copper, held or free'),
		step: remembered(0.05),
		unit: 'mg/L',
		disturbedBy: [remembered('reducing conditioners'), dyes]
	},
	{
		id: 'copper-photometer',
		name: 'Copper, photometer',
		what: 'Cu',
		as: 'ionic',
		reports: remembered('free copper by its colour; the leaflet says whether a chelate shows'),
		step: remembered(0.01),
		unit: 'mg/L',
		disturbedBy: [binder, remembered('cloudy water and fingerprints on the glass'), dyes]
	},
	{
		id: 'nitrite',
		name: 'Nitrite drops',
		what: 'NO2',
		as: null,
		reports: remembered('nitrite, as NO2 or as N by the card'),
		step: remembered(0.1),
		unit: 'mg/L',
		disturbedBy: [dyes]
	},
	{
		id: 'nitrate',
		name: 'Nitrate drops',
		what: 'NO3',
		as: null,
		reports: remembered('nitrate, as NO3 or as N by the card (1 mg N is 4.43 mg NO3)'),
		step: remembered(5),
		unit: 'mg/L',
		disturbedBy: [remembered('nitrite shows as nitrate'), dyes]
	},
	{
		id: 'ph-electrode',
		name: 'pH electrode',
		what: 'pH',
		as: null,
		reports: judged('pH by ordinary buffers, about 0.1 above the total scale of oceanography'),
		step: remembered(0.01),
		unit: '',
		disturbedBy: [practice('buffers past their date')]
	},
	{
		id: 'ph-drops',
		name: 'pH drops',
		what: 'pH',
		as: null,
		reports: remembered('pH by colour'),
		step: remembered(0.2),
		unit: '',
		disturbedBy: [dyes]
	},
	{
		id: 'refractometer',
		name: 'Refractometer',
		what: 'S',
		as: null,
		reports: remembered('salinity by refraction; one made for brine reads sea water too high'),
		step: remembered(1),
		unit: 'ppt',
		disturbedBy: [practice('checked only with fresh water: check it near the salinity that counts')]
	},
	{
		id: 'hydrometer',
		name: 'Hydrometer',
		what: 'S',
		as: null,
		reports: published(
			'specific gravity against its own pair of temperatures',
			'UNESCO Tech. Pap. Mar. Sci. 44 (1983)',
			'a reading of 1.025 is 32.6 to 37.2 ppt by the pair'
		),
		step: remembered(0.001),
		unit: 'gravity',
		disturbedBy: [practice('bubbles and salt on the float')]
	},
	{
		id: 'conductivity',
		name: 'Conductivity meter',
		what: 'S',
		as: null,
		reports: remembered('salinity by conductivity'),
		step: remembered(0.1),
		unit: 'ppt',
		disturbedBy: []
	},
	{
		id: 'thermometer',
		name: 'Thermometer',
		what: 'T',
		as: null,
		reports: practice('temperature'),
		step: remembered(0.1),
		unit: '°C',
		disturbedBy: []
	},
	{
		id: 'oxygen-probe',
		name: 'Oxygen probe',
		what: 'O2',
		as: null,
		reports: remembered('dissolved oxygen, once salinity is set'),
		step: remembered(0.1),
		unit: 'mg/L',
		disturbedBy: [remembered('salinity not set')]
	}
];
