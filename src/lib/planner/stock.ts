import type { Appetite, Lot, Run } from '../run/index.ts';
import { dayNumber } from '../run/index.ts';

/** mg N excreted per gram of protein eaten: central, and the published spread (Timmons & Ebeling, from memory; 25 to 144 in other texts). */
const MG_N_PER_G_PROTEIN = { central: 92, low: 55, high: 144 } as const;
/** mg N per kg of fish and day that even a fish that eats nothing gives off (judgment, no source). */
const MG_N_PER_KG_FLOOR = { central: 100, low: 50, high: 200 } as const;

/**
 * mg N in a gram of protein (16 %): of food that nobody eats all of it rots. Left lying in the forecast and at its
 * worst; at best it was taken out at once (judgment, no source).
 */
const MG_N_PER_G_REFUSED = { central: 160, low: 0, high: 160 } as const;
/** Share of the day's food that is left lying (judgment, no source). */
const LEFT: Record<Appetite, number> = { eaten: 0, picked: 0.5, refused: 1 };

type Side = keyof typeof MG_N_PER_G_PROTEIN;

/** The fish of one lot in the tank now. */
export interface Stock {
	lot: Lot;
	/** first day in the tank, days since 1970-01-01 */
	arrives: number;
	count: number;
	/** what was last seen of its appetite; it speaks for that day, days since 1970-01-01 */
	fed?: { day: number; word: Appetite };
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

/** Ammonia given off by one lot at full count, mg N/day: stated, or by protein eaten with a floor by mass, and what rots of the rest. */
export function lotProduction(lot: Lot, side: Side, word: Appetite = 'eaten'): number {
	if (lot.tanMgPerDay !== null) return lot.tanMgPerDay;
	const proteinG = (lot.feedGPerDay ?? 0) * (lot.protein ?? 0);
	const eaten = (1 - LEFT[word]) * proteinG * MG_N_PER_G_PROTEIN[side];
	const floor = ((lot.massG ?? 0) / 1000) * MG_N_PER_KG_FLOOR[side];
	return Math.max(eaten, floor) + LEFT[word] * proteinG * MG_N_PER_G_REFUSED[side];
}

/** What all fish present on `day` give off, mg N/day. */
export const production = (stock: readonly Stock[], day: number, side: Side): number =>
	stock.reduce(
		(sum, { lot, arrives, count, fed }) =>
			day < arrives || lot.count === 0
				? sum
				: sum + (lotProduction(lot, side, fed?.day === day ? fed.word : 'eaten') * count) / lot.count,
		0
	);
