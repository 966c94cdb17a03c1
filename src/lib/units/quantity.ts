import { plain, splitNumber } from './number.ts';
import { read, unreadable, type Read } from './problem.ts';
import { canonicalUnit, zeroCelsiusK, type Dimension } from './ratios.ts';
import { scaleOf } from './unit.ts';

/** A number with its unit, as typed. `value` is in `unit`; `text` is what the keeper wrote and is never lost. */
export interface Quantity {
	value: number;
	unit: string;
	dimension: Dimension;
	text: string;
}

/** What to write instead, by dimension; used in messages. */
export const expectedFor: Record<Dimension, string> = {
	volume: 'a volume such as 112 L, 500 mL, 30 gal, 2 fl oz or 12 drops (20/mL)',
	mass: 'a mass such as 280 mg, 1.6 g or 2 oz',
	concentration: 'a concentration such as 0.18 mg/L, 180 ug/L or 2 ppm',
	volumeShare: 'a share of the whole liquid such as 25 uL/L, 25 ppm (v/v) or 1 mL per 10 gal',
	strength: 'a strength such as 2 mg/mL',
	temperature: 'a temperature such as 26 C, 79 F or 299 K',
	temperatureStep: 'a difference of temperature such as 1 C or 2 F',
	salinity: 'a salinity such as 34 ppt or 34 psu',
	gravity: 'a specific gravity such as 1.025',
	conductivity: 'a conductivity such as 53 mS/cm',
	duration: 'a duration such as 28 d, 30 h, 45 min or 2 weeks',
	volumePerDay: 'a flow such as 40 L/d or 2 gal/h',
	massPerDay: 'a daily mass such as 1.6 g/d',
	salinityPerDay: 'a daily change of salinity such as 2 ppt/d',
	fraction: 'a fraction such as 20% or 0.2',
	length: 'a length such as 60 cm, 24 in or 2 ft'
};

/** Sentences for units that are near misses: they look right and are not. */
const nearMisses: readonly { dimension: Dimension; unit: RegExp; says: string }[] = [
	{
		dimension: 'volume',
		unit: /^(oz\.?|ounces?)$/i,
		says: 'a volume: write fl oz for fluid ounces, oz is a mass'
	},
	{
		dimension: 'volume',
		unit: /^drops?$/i,
		says: 'the size of a drop, such as 12 drops (20/mL) or 12 drops of 0.05 mL'
	},
	{
		dimension: 'mass',
		unit: /sp(oon)?s?$/i,
		says: 'a mass such as 280 mg: a spoon is a volume, weigh the powder'
	},
	{
		dimension: 'concentration',
		unit: /^([um]?l) ?\/ ?l$/i,
		says: 'a concentration by mass such as 0.18 mg/L'
	},
	{
		dimension: 'concentration',
		unit: /^ppt$/i,
		says: 'a concentration such as 0.18 mg/L: ppt is parts per thousand here, kept for salinity'
	},
	{
		dimension: 'salinity',
		unit: /^(sg|s\.g\.|)$/i,
		says: 'a salinity such as 34 ppt, or a gravity with its reference pair such as 1.025 (25C/25C)'
	},
	{
		dimension: 'salinity',
		unit: /^[mu]s(\/c?m)?$/i,
		says: 'a salinity such as 34 ppt: a conductivity needs its temperature'
	},
	{
		dimension: 'salinity',
		unit: /^g ?\/ ?l$/i,
		says: 'a salinity such as 34 ppt: g/L counts per litre, not per kilogram'
	},
	{
		dimension: 'duration',
		unit: /^m$/i,
		says: 'a duration with min, h or d: m alone may mean several things'
	}
];

const sayMega = /(^|\/)M[gGlLsSm]\b/;

function expected(dimensions: readonly Dimension[], unit: string): string {
	if (sayMega.test(unit)) return `${expectedFor[dimensions[0] ?? 'volume']}, with a small m for milli`;
	for (const row of nearMisses)
		if (dimensions.includes(row.dimension) && row.unit.test(unit)) return row.says;
	return dimensions.map((dimension) => expectedFor[dimension]).join(', or ');
}

/**
 * Reads a number and its unit in one of the dimensions allowed, the first that fits. Spaces, case where it decides
 * nothing, a decimal comma, 1/4, µ and a typographic minus are forgiven; `1,200` (two readings), a missing or
 * unfitting unit, hex, NaN, infinities and negatives (except temperatures) are not.
 */
export function readQuantity(text: string, dimension: Dimension | readonly Dimension[]): Read<Quantity> {
	const allowed = typeof dimension === 'string' ? [dimension] : dimension;
	const source = plain(text);
	const split = splitNumber(source);
	if (!split.ok) {
		const says =
			split.problem.code === 'ambiguous-number' ? split.problem.expected : expected(allowed, source);
		return unreadable(source === '' ? 'empty' : split.problem.code, text, says);
	}
	const { value, rest } = split.value;
	for (const candidate of allowed) {
		const scale = scaleOf(candidate, rest);
		if (!scale) continue;
		const quantity = { value, unit: scale.unit, dimension: candidate, text };
		return inBounds(quantity) ? read(quantity) : unreadable('out-of-range', text, boundsOf(candidate));
	}
	const spans = allowed.includes('duration') ? readSpans(source, text) : null;
	return spans ?? unreadable(rest === '' ? 'unit-missing' : 'unit', text, expected(allowed, rest));
}

function inBounds(quantity: Quantity): boolean {
	if (quantity.dimension === 'temperature') return inUnit(quantity, 'K') >= 0;
	return quantity.dimension === 'temperatureStep' || quantity.value >= 0;
}

const boundsOf = (dimension: Dimension): string =>
	dimension === 'temperature'
		? 'a temperature above absolute zero'
		: `${expectedFor[dimension]}, zero or more`;

/** `1 d 12 h`: several spans added up, each in a smaller unit than the one before; `5 d35 d` is a slip of the keys. */
function readSpans(source: string, text: string): Read<Quantity> | null {
	const parts = source.match(/[\d.,]+ ?[a-z]+/gi);
	if (!parts || parts.length < 2 || parts.join('').replace(/ /g, '') !== source.replace(/ /g, ''))
		return null;
	let days = 0;
	let unitDays = Infinity;
	for (const part of parts) {
		const span = readQuantity(part, 'duration');
		if (!span.ok) return null;
		const smaller = convert(1, span.value.unit, 'd', 'duration');
		if (smaller >= unitDays) return null;
		unitDays = smaller;
		days += inUnit(span.value, 'd');
	}
	return read({ value: days, unit: 'd', dimension: 'duration', text });
}

/** A quantity's number in another unit of its dimension. Throws when the unit does not belong there: that is a bug. */
export function inUnit(quantity: Quantity, unit: string): number {
	return convert(quantity.value, quantity.unit, unit, quantity.dimension);
}

/** A bare number from one unit to another of the same dimension. Throws on a unit that does not belong there. */
export function convert(value: number, from: string, to: string, dimension: Dimension): number {
	const source = scaleOf(dimension, from);
	const target = scaleOf(dimension, to);
	if (!source || !target) throw new Error(`no way from ${from} to ${to} as ${dimension}`);
	if (source.unit === target.unit) return value;
	if (dimension === 'temperature') return fromCelsius(toCelsius(value, source.unit), target.unit);
	return (value * source.times * target.over) / (source.over * target.times);
}

function toCelsius(value: number, unit: string): number {
	if (unit === 'K') return value - zeroCelsiusK;
	return unit === 'F' ? ((value - 32) * 5) / 9 : value;
}

function fromCelsius(value: number, unit: string): number {
	if (unit === 'K') return value + zeroCelsiusK;
	return unit === 'F' ? (value * 9) / 5 + 32 : value;
}

/** Reads a quantity and gives its number in one unit (canonical unless named). */
export function readIn(text: string, dimension: Dimension, unit = canonicalUnit[dimension]): Read<number> {
	const quantity = readQuantity(text, dimension);
	return quantity.ok ? read(inUnit(quantity.value, unit)) : quantity;
}
