import { convert } from './quantity.ts';
import { canonicalUnit, type Dimension } from './ratios.ts';

export type UnitSystem = 'metric' | 'us';

/**
 * `5.0 mL`, `280 mg`, `0.18 mg/L`. With `digits`, that many decimals; without, six significant digits at most and no
 * trailing noise. Never uses an exponent between 1e-6 and 1e15.
 */
export function print(value: number, unit: string, digits?: number): string {
	const number = digits === undefined ? trimmed(value) : withoutMinusZero(value.toFixed(digits));
	if (unit === '' || unit === '1') return number;
	return unit === '%' ? `${number} %` : `${number} ${printedUnit(unit)}`;
}

const printedUnit = (unit: string): string =>
	unit === 'C' || unit === 'F' ? `°${unit}` : unit.replace(/^u(?=[LgS])/, 'µ');

const withoutMinusZero = (text: string): string => (/^-0(\.0*)?$/.test(text) ? text.slice(1) : text);

const trimmed = (value: number): string => String(Number(value.toPrecision(6)) + 0);

/** Decimals that show every multiple of a measuring step: 0.1 takes one, 10 none, 0.25 two. */
export function decimalsOfStep(step: number): number {
	for (let decimals = 0; decimals < 9; decimals++) {
		if (Math.abs(step * 10 ** decimals - Math.round(step * 10 ** decimals)) < 1e-9 * 10 ** decimals * step)
			return decimals;
	}
	return 9;
}

interface Shown {
	unit: string;
	/** decimals when the number is at least `from`, the first row that fits */
	decimals: readonly (readonly [from: number, decimals: number])[];
	/** below this number the next unit of the list is tried */
	atLeast: number;
}

const fine = [
	[100, 0],
	[10, 1],
	[1, 2],
	[0.02, 3],
	[0, 4]
] as const;
const coarse = [
	[100, 0],
	[0, 1]
] as const;

/** Units a person sees, largest first; the first whose number is not too small is used, else the last. */
const shown: Record<Dimension, Record<UnitSystem, readonly Shown[]>> = {
	volume: {
		metric: [
			{ unit: 'L', decimals: coarse, atLeast: 1 },
			{ unit: 'mL', decimals: coarse, atLeast: 0 }
		],
		us: [
			{ unit: 'gal', decimals: coarse, atLeast: 1 },
			{ unit: 'fl oz', decimals: coarse, atLeast: 1 },
			{ unit: 'mL', decimals: coarse, atLeast: 0 }
		]
	},
	mass: {
		metric: [
			{ unit: 'kg', decimals: fine, atLeast: 1 },
			{ unit: 'g', decimals: fine, atLeast: 1 },
			{ unit: 'mg', decimals: coarse, atLeast: 0 }
		],
		us: [
			{ unit: 'lb', decimals: fine, atLeast: 1 },
			{ unit: 'oz', decimals: fine, atLeast: 1 },
			{ unit: 'g', decimals: fine, atLeast: 1 },
			{ unit: 'mg', decimals: coarse, atLeast: 0 }
		]
	},
	concentration: both({ unit: 'mg/L', decimals: fine, atLeast: 0 }),
	volumeShare: both({ unit: 'uL/L', decimals: coarse, atLeast: 0 }),
	strength: both({ unit: 'mg/mL', decimals: fine, atLeast: 0 }),
	temperature: {
		metric: [{ unit: 'C', decimals: [[0, 1]], atLeast: 0 }],
		us: [{ unit: 'F', decimals: [[0, 1]], atLeast: 0 }]
	},
	temperatureStep: {
		metric: [{ unit: 'C', decimals: [[0, 1]], atLeast: 0 }],
		us: [{ unit: 'F', decimals: [[0, 1]], atLeast: 0 }]
	},
	salinity: both({ unit: 'ppt', decimals: [[0, 1]], atLeast: 0 }),
	gravity: both({ unit: '', decimals: [[0, 4]], atLeast: 0 }),
	conductivity: both({ unit: 'mS/cm', decimals: [[0, 2]], atLeast: 0 }),
	duration: both(
		{ unit: 'd', decimals: coarse, atLeast: 2 },
		{ unit: 'h', decimals: coarse, atLeast: 2 },
		{ unit: 'min', decimals: [[0, 0]], atLeast: 0 }
	),
	volumePerDay: {
		metric: [{ unit: 'L/d', decimals: coarse, atLeast: 0 }],
		us: [{ unit: 'gal/d', decimals: coarse, atLeast: 0 }]
	},
	massPerDay: both(
		{ unit: 'g/d', decimals: fine, atLeast: 1 },
		{ unit: 'mg/d', decimals: coarse, atLeast: 0 }
	),
	salinityPerDay: both({ unit: 'ppt/d', decimals: [[0, 1]], atLeast: 0 }),
	fraction: both({ unit: '%', decimals: coarse, atLeast: 0 }),
	length: {
		metric: [{ unit: 'cm', decimals: coarse, atLeast: 0 }],
		us: [{ unit: 'in', decimals: coarse, atLeast: 0 }]
	}
};

function both(...rows: Shown[]): Record<UnitSystem, readonly Shown[]> {
	return { metric: rows, us: rows };
}

/** A canonical value (litres, mg, mg/L, °C ...) as people of one system read it, rounded to what they can use. */
export function displayIn(system: UnitSystem, dimension: Dimension, canonicalValue: number): string {
	const choices = shown[dimension][system];
	for (const [index, choice] of choices.entries()) {
		const value = convert(
			canonicalValue,
			canonicalUnit[dimension],
			choice.unit || canonicalUnit[dimension],
			dimension
		);
		if (Math.abs(value) < choice.atLeast && index < choices.length - 1) continue;
		const decimals = choice.decimals.find(([from]) => Math.abs(value) >= from)?.[1] ?? 0;
		return print(value, choice.unit, decimals);
	}
	throw new Error(`nothing shows ${dimension}`);
}
