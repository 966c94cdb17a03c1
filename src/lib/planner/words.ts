import type { Amount } from './plan.ts';
import type { Bottle } from './bottle.ts';
import type { Outage } from './credit.ts';

/** At most `digits` decimals, no trailing noise. */
export const figure = (value: number, digits = 2): string => String(Number(value.toFixed(digits)));

const decimals: Record<Amount['unit'], number> = { L: 1, mL: 1, mg: 0, g: 0 };

/** An amount as the keeper reads it; enough digits that a small one never shows as nothing. */
export function amountText({ value, unit }: Amount): string {
	const digits = value > 0 && value < 1 ? decimals[unit] + 2 : decimals[unit];
	const shown = unit === 'mL' && value >= 1 ? value.toFixed(digits) : figure(value, digits);
	return `${shown} ${unit}`;
}

/** A moment of the keeper's clock, in days: the time, and the day where it is not the one it is said on. */
export function momentText(moment: number, today: number): string {
	const [day = '', time = ''] = new Date(Math.floor(moment * 1440 + 1e-6) * 60_000).toISOString().split('T');
	return `${time.slice(0, 5)}${Math.floor(moment) === Math.floor(today) ? '' : ` on ${day}`}`;
}

/** What hangs on a level that is low; the moments in words, the level with its unit. */
export const outageSays = {
	pause: (by: string) => `Back inside by ${by}, the course only pauses; later it begins again.`,
	late: (since: string) =>
		`It may have been out since ${since}, more than a day and two hours: the course begins again whatever is given.`,
	deep: (under: string) => `Under ${under} the course begins again whatever is given.`
};

/** The same of an outage, said on the day of `today`. */
export function outageText(outage: Outage, today: number, unit: string): string {
	switch (outage.is) {
		case 'pause':
			return outageSays.pause(momentText(outage.by, today));
		case 'late':
			return outageSays.late(momentText(outage.since, today));
		case 'deep':
			return outageSays.deep(`${figure(outage.under, 3)} ${unit}`);
	}
}

export const levelText = (bottle: Bottle, value: number): string => `${figure(value, 3)} ${bottle.row.unit}`;

/** A level that lies under a floor, never rounded up to it. */
export function underText(value: number, floor: number): string {
	const shown = figure(value, 3);
	return Number(shown) < floor ? shown : String(Math.floor(value * 10_000) / 10_000);
}

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
