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
