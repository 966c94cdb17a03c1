/** What a quantity measures. A column of the sheet takes one of these, never a look-alike. */
export type Dimension =
	| 'volume'
	| 'mass'
	| 'concentration'
	| 'volumeShare'
	| 'strength'
	| 'temperature'
	| 'temperatureStep'
	| 'salinity'
	| 'gravity'
	| 'conductivity'
	| 'duration'
	| 'volumePerDay'
	| 'massPerDay'
	| 'salinityPerDay'
	| 'fraction'
	| 'length';

/** One unit is `times / over` of its dimension's canonical unit; both are exact by definition of the unit. */
export interface Ratio {
	/** as printed */
	unit: string;
	times: number;
	over: number;
	/** other spellings, lower case unless the case decides */
	names: readonly string[];
}

/** The unit every number of a dimension is kept in. `volumeShare` counts a whole liquid in water (v/v). */
export const canonicalUnit: Record<Dimension, string> = {
	volume: 'L',
	mass: 'mg',
	concentration: 'mg/L',
	volumeShare: 'uL/L',
	strength: 'mg/mL',
	temperature: 'C',
	temperatureStep: 'C',
	salinity: 'ppt',
	gravity: 'sg',
	conductivity: 'mS/cm',
	duration: 'd',
	volumePerDay: 'L/d',
	massPerDay: 'mg/d',
	salinityPerDay: 'ppt/d',
	fraction: '1',
	length: 'cm'
};

/** Litres. Gallon and its parts: US gallon 231 cubic inches, imperial gallon 4.54609 L, both exact (NIST SP 811, App. B). */
const volume: readonly Ratio[] = [
	{ unit: 'L', times: 1, over: 1, names: ['l', 'litre', 'litres', 'liter', 'liters', 'ltr', 'dm3'] },
	{
		unit: 'mL',
		times: 1,
		over: 1000,
		names: ['ml', 'millilitre', 'millilitres', 'milliliter', 'milliliters', 'cc', 'cm3']
	},
	{ unit: 'cL', times: 1, over: 100, names: ['cl', 'centilitre', 'centiliter'] },
	{ unit: 'dL', times: 1, over: 10, names: ['dl', 'decilitre', 'deciliter'] },
	{
		unit: 'uL',
		times: 1,
		over: 1e6,
		names: ['ul', 'microlitre', 'microlitres', 'microliter', 'microliters']
	},
	{
		unit: 'm3',
		times: 1000,
		over: 1,
		names: ['m^3', 'cubic metre', 'cubic metres', 'cubic meter', 'cubic meters']
	},
	{
		unit: 'gal',
		times: 3785411784,
		over: 1e9,
		names: [
			'us gal',
			'gal us',
			'gal (us)',
			'gals',
			'us gals',
			'gallon',
			'gallons',
			'us gallon',
			'us gallons',
			'gal.'
		]
	},
	{
		unit: 'imp gal',
		times: 454609,
		over: 1e5,
		names: [
			'uk gal',
			'gal imp',
			'gal uk',
			'gal (imp)',
			'gal (uk)',
			'imp. gal',
			'imperial gal',
			'imperial gallon',
			'imperial gallons',
			'imp gallon',
			'imp gallons',
			'uk gallon',
			'uk gallons'
		]
	},
	{ unit: 'qt', times: 946352946, over: 1e9, names: ['us qt', 'quart', 'quarts'] },
	{ unit: 'pt', times: 473176473, over: 1e9, names: ['us pt', 'pint', 'pints'] },
	{ unit: 'cup', times: 2365882365, over: 1e10, names: ['cups', 'us cup', 'us cups'] },
	{
		unit: 'fl oz',
		times: 295735295625,
		over: 1e13,
		names: [
			'us fl oz',
			'floz',
			'fl. oz',
			'fl. oz.',
			'fl.oz.',
			'fluid ounce',
			'fluid ounces',
			'us fluid ounce'
		]
	},
	{
		unit: 'imp fl oz',
		times: 284130625,
		over: 1e10,
		names: ['uk fl oz', 'imperial fl oz', 'imperial fluid ounce', 'imperial fluid ounces']
	},
	{ unit: 'tbsp', times: 1478676478125, over: 1e14, names: ['us tbsp', 'tablespoon', 'tablespoons'] },
	{ unit: 'tsp', times: 492892159375, over: 1e14, names: ['us tsp', 'teaspoon', 'teaspoons', 'tsps'] },
	{ unit: 'metric tsp', times: 5, over: 1000, names: ['metric teaspoon', 'metric teaspoons'] },
	{ unit: 'in3', times: 16387064, over: 1e9, names: ['in^3', 'cu in', 'cubic inch', 'cubic inches'] },
	{ unit: 'ft3', times: 28316846592, over: 1e9, names: ['ft^3', 'cu ft', 'cubic foot', 'cubic feet'] }
];

/** Milligrams. Avoirdupois pound 0.45359237 kg, exact (NIST SP 811, App. B). */
const mass: readonly Ratio[] = [
	{ unit: 'mg', times: 1, over: 1, names: ['milligram', 'milligrams', 'milligramme', 'milligrammes'] },
	{ unit: 'g', times: 1000, over: 1, names: ['gram', 'grams', 'gramme', 'grammes', 'gr.', 'gm', 'gms'] },
	{ unit: 'kg', times: 1e6, over: 1, names: ['kilo', 'kilos', 'kilogram', 'kilograms', 'kilogramme'] },
	{ unit: 'ug', times: 1, over: 1000, names: ['mcg', 'microgram', 'micrograms'] },
	{ unit: 'oz', times: 28349523125, over: 1e6, names: ['oz.', 'ounce', 'ounces'] },
	{ unit: 'lb', times: 45359237, over: 100, names: ['lbs', 'lb.', 'lbs.', 'pound', 'pounds'] }
];

/** Days. */
const duration: readonly Ratio[] = [
	{ unit: 'd', times: 1, over: 1, names: ['day', 'days'] },
	{ unit: 'h', times: 1, over: 24, names: ['hr', 'hrs', 'hour', 'hours'] },
	{ unit: 'min', times: 1, over: 1440, names: ['mins', 'minute', 'minutes'] },
	{ unit: 's', times: 1, over: 86400, names: ['sec', 'secs', 'second', 'seconds'] },
	{ unit: 'wk', times: 7, over: 1, names: ['w', 'wks', 'week', 'weeks'] }
];

/** Centimetres. Inch 25.4 mm, exact. */
const length: readonly Ratio[] = [
	{ unit: 'cm', times: 1, over: 1, names: ['centimetre', 'centimetres', 'centimeter', 'centimeters'] },
	{ unit: 'mm', times: 1, over: 10, names: ['millimetre', 'millimetres', 'millimeter', 'millimeters'] },
	{ unit: 'm', times: 100, over: 1, names: ['metre', 'metres', 'meter', 'meters'] },
	{ unit: 'in', times: 254, over: 100, names: ['in.', 'inch', 'inches', '"', '″'] },
	{ unit: 'ft', times: 3048, over: 100, names: ['ft.', 'foot', 'feet', "'", '′'] }
];

/** Practical salinity has no unit; keepers write ppt. Held equal by convention of the trade. */
const salinity: readonly Ratio[] = [
	{ unit: 'ppt', times: 1, over: 1, names: ['‰', 'o/oo', 'parts per thousand'] },
	{ unit: 'psu', times: 1, over: 1, names: ['pss', 'pss-78'] },
	{ unit: 'g/kg', times: 1, over: 1, names: [] }
];

/** mS/cm. */
const conductivity: readonly Ratio[] = [
	{ unit: 'mS/cm', times: 1, over: 1, names: ['ms/cm'] },
	{ unit: 'uS/cm', times: 1, over: 1000, names: ['us/cm'] },
	{ unit: 'S/m', times: 10, over: 1, names: ['s/m'] },
	{ unit: 'S/cm', times: 1000, over: 1, names: ['s/cm'] },
	{ unit: 'mS/m', times: 1, over: 100, names: ['ms/m'] }
];

/** mg/L. In water this thin, parts per million are taken as mg/L (nominal density 1), as kits and labels do. */
const concentration: readonly Ratio[] = [
	{ unit: 'ppm', times: 1, over: 1, names: ['parts per million'] },
	{ unit: 'ppb', times: 1, over: 1000, names: ['parts per billion'] }
];

/** uL/L. For a liquid counted whole, ppm is v/v by convention of the trade. */
const volumeShare: readonly Ratio[] = [
	{ unit: 'ppm', times: 1, over: 1, names: ['ppm v/v', 'ppmv', 'parts per million'] },
	{ unit: 'ppb', times: 1, over: 1000, names: ['ppb v/v'] }
];

const temperatureStep: readonly Ratio[] = [
	{ unit: 'C', times: 1, over: 1, names: ['°c', 'degc', 'deg c', 'degrees c', 'celsius', 'degrees celsius'] },
	{ unit: 'K', times: 1, over: 1, names: ['kelvin'] },
	{
		unit: 'F',
		times: 5,
		over: 9,
		names: ['°f', 'degf', 'deg f', 'degrees f', 'fahrenheit', 'degrees fahrenheit']
	}
];

const gravity: readonly Ratio[] = [
	{ unit: 'sg', times: 1, over: 1, names: ['', 's.g.', 'specific gravity'] }
];

const fraction: readonly Ratio[] = [
	{ unit: '1', times: 1, over: 1, names: [''] },
	{ unit: '%', times: 1, over: 100, names: ['percent', 'per cent', 'pct'] }
];

/** Units that stand alone, by dimension; the rest are composed of two of these (see unit.ts). */
export const simpleUnits: Record<Dimension, readonly Ratio[]> = {
	volume,
	mass,
	duration,
	length,
	salinity,
	conductivity,
	concentration,
	volumeShare,
	temperatureStep,
	temperature: temperatureStep,
	gravity,
	fraction,
	strength: [],
	volumePerDay: [],
	massPerDay: [],
	salinityPerDay: []
};

/** Dimensions whose units are one unit over another, with the canonical pair. */
export const composed: Partial<Record<Dimension, readonly [Dimension, Dimension]>> = {
	concentration: ['mass', 'volume'],
	strength: ['mass', 'volume'],
	volumeShare: ['volume', 'volume'],
	volumePerDay: ['volume', 'duration'],
	massPerDay: ['mass', 'duration'],
	salinityPerDay: ['salinity', 'duration']
};

/** What a composed unit of canonical parts is in the canonical unit: L per L is a million uL/L. */
export const composedScale: Partial<Record<Dimension, readonly [number, number]>> = {
	strength: [1, 1000],
	volumeShare: [1e6, 1]
};

/** 0 °C in kelvin, exact by definition; 273 is a known trap. */
export const zeroCelsiusK = 273.15;
