import type { Amount } from './plan.ts';
import type { Bottle } from './bottle.ts';

/** At most `digits` decimals, no trailing noise. */
export const figure = (value: number, digits = 2): string => String(Number(value.toFixed(digits)));

const decimals: Record<Amount['unit'], number> = { L: 1, mL: 1, mg: 0, g: 0 };

/** An amount as the keeper reads it; enough digits that a small one never shows as nothing. */
export function amountText({ value, unit }: Amount): string {
	const digits = value > 0 && value < 1 ? decimals[unit] + 2 : decimals[unit];
	const shown = unit === 'mL' && value >= 1 ? value.toFixed(digits) : figure(value, digits);
	return `${shown} ${unit}`;
}

/** A moment of the keeper's clock, in days: the time, and the day where it is not the one of `wall`. */
function momentText(moment: number, wall: number): string {
	const [day = '', time = ''] = new Date(Math.floor(moment * 1440 + 1e-6) * 60_000).toISOString().split('T');
	return `${time.slice(0, 5)}${Math.floor(moment) === Math.floor(wall) ? '' : ` on ${day}`}`;
}

/** What hangs on the hour by which a level that was read as low is back inside; `day`: the one it is said on. */
export const pauseText = (by: number, day: number): string =>
	`Back inside by ${momentText(by, day)}, the course only pauses; later it begins again.`;

export const levelText = (bottle: Bottle, value: number): string => `${figure(value, 3)} ${bottle.row.unit}`;

/** What a measurable is called in a sentence. */
export const measurableName: Record<string, string> = {
	NH3: 'ammonia',
	NO2: 'nitrite',
	NO3: 'nitrate',
	Cu: 'copper',
	pH: 'pH',
	S: 'salinity',
	T: 'temperature',
	O2: 'oxygen'
};
