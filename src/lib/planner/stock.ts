import type { Lot, Run } from '../run/index.ts';
import { dayNumber } from '../run/index.ts';

/** mg N excreted per gram of protein eaten: central, and the published spread (Timmons & Ebeling, from memory; 25 to 144 in other texts). */
const MG_N_PER_G_PROTEIN = { central: 92, low: 55, high: 144 } as const;
/** mg N per kg of fish and day that even a fish that eats nothing gives off (judgment, no source). */
const MG_N_PER_KG_FLOOR = { central: 100, low: 50, high: 200 } as const;

type Side = keyof typeof MG_N_PER_G_PROTEIN;

/** The fish of one lot in the tank now. */
export interface Stock {
	lot: Lot;
	/** first day in the tank, days since 1970-01-01 */
	arrives: number;
	count: number;
}

export const stockOf = (run: Run, begins: number): Stock[] =>
	run.lots.map((lot) => ({
		lot,
		arrives: lot.arrived ? Math.max(begins, dayNumber(lot.arrived)) : begins,
		count: lot.count
	}));

/** A lot whose production nothing in the file tells, or that says how much it eats but not of what. */
export const unknownProduction = ({ tanMgPerDay, massG, feedGPerDay, protein }: Lot): boolean => {
	if (tanMgPerDay !== null) return false;
	if (feedGPerDay !== null) return protein === null;
	return massG === null;
};

/** Ammonia given off by one lot at full count, mg N/day: stated, or by protein eaten with a floor by mass. */
export function lotProduction(lot: Lot, side: Side): number {
	if (lot.tanMgPerDay !== null) return lot.tanMgPerDay;
	const eaten = (lot.feedGPerDay ?? 0) * (lot.protein ?? 0) * MG_N_PER_G_PROTEIN[side];
	const floor = ((lot.massG ?? 0) / 1000) * MG_N_PER_KG_FLOOR[side];
	return Math.max(eaten, floor);
}

/** What all fish present on `day` give off, mg N/day. */
export const production = (stock: readonly Stock[], day: number, side: Side): number =>
	stock.reduce(
		(sum, { lot, arrives, count }) =>
			day < arrives || lot.count === 0 ? sum : sum + (lotProduction(lot, side) * count) / lot.count,
		0
	);
