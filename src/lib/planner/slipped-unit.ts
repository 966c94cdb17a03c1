import { figure } from './words.ts';

/** A unit a thousand times smaller, whose number was written as if it had the unit of the level. */
const smaller: Readonly<Record<string, string>> = { 'mg/L': 'µg/L', 'uL/L': 'nL/L' };

/**
 * What is said of a reading far over its forecast: a slip of the unit, the scale or the point is far likelier than so
 * much in the water. Without an end, and the level in the words before it.
 */
export function slippedUnit(value: number, forecast: number, unit: string): string {
	const likelier = 'a slip of unit, scale or point is far likelier than so much in the water';
	if (forecast <= 0) return `far over what was forecast, which is none: ${likelier}`;
	const times = `${Number((value / forecast).toPrecision(1))} times the forecast of ${figure(forecast, 3)}`;
	const thousandth = value / 1000 / forecast;
	const other = smaller[unit];
	// within half and double of it, the smaller unit explains the number
	if (!other || thousandth < 0.5 || thousandth > 2) return `${times}: ${likelier}`;
	return `${times}: ${likelier} (${figure(value, 0)} ${other} would be ${figure(value / 1000, 3)} ${unit})`;
}
