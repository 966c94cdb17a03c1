import { medicines, type MedicineRow } from '../formulary/index.ts';
import type { Band, Medicine, Run } from '../run/index.ts';
import { floorToStep } from '../water/index.ts';
import type { Amount } from './plan.ts';

/** First-order loss, per day. */
export interface Loss {
	central: number;
	least: number;
	greatest: number;
}

/** A medicine of the run with its formulary row and its own overrides, ready for arithmetic. */
export interface Bottle {
	/** place in the run's list, and in `medicinesMg` of the water */
	index: number;
	id: string;
	medicine: Medicine;
	row: MedicineRow;
	/** useful window, mg/L (uL/L where the row counts whole liquid) */
	window: Band | null;
	aim: number | null;
	ceiling: number | null;
	/** at or under this it counts as gone; 0 where nobody can say, so that it never does by itself */
	clear: number;
	contactDays: number;
	loss: Loss;
	/** what a kit calls it: `Cu`, or the medicine's id */
	measuredAs: string;
}

const perDay = (halfLifeDays: number | null) => (halfLifeDays === null ? 0 : Math.LN2 / halfLifeDays);

/** The upper end of a range typed with the bottle stands for its ceiling where nothing else is said. */
const labelTop = ({ level }: Medicine): number | null =>
	level && level.low < level.high ? level.high : null;

/**
 * Only the label can say what fish bear of it, and nothing of the label was typed: a level in a row of the sheet
 * alone justifies no dose.
 */
export const isUnlabelled = ({ medicine, ceiling }: Bottle): boolean =>
	ceiling === null && medicine.level === undefined && medicine.active !== 'fresh-water';

/** Said where a dose then has no amount. */
export const UNLABELLED = 'the ceiling on the label of its bottle was not typed';

/** The most a row may ask for; null: nothing is known. */
export const mostAllowed = ({ ceiling, medicine }: Bottle): number | null =>
	ceiling ?? medicine.level?.high ?? null;

/** All medicines of a run, in its order. */
export const bottlesOf = (run: Run): Bottle[] => run.medicines.map(toBottle);

function toBottle(medicine: Medicine, index: number): Bottle {
	const row = medicines[medicine.active];
	const { leastHalfLifeDays, greatestHalfLifeDays } = row.loss.value;
	const stated = medicine.halfLifeDays;
	return {
		index,
		id: medicine.id,
		medicine,
		row,
		window: medicine.level ?? row.window?.value ?? null,
		aim: row.aim?.value ?? null,
		ceiling: medicine.ceiling ?? row.ceiling?.value ?? labelTop(medicine),
		clear: row.clear?.value ?? (medicine.level?.low ?? row.window?.value.low ?? 0) / 10,
		contactDays: (medicine.contactHours ?? row.contactHours.value) / 24,
		// The forecast takes the least loss: a wash-out is then never called clear too early.
		loss:
			stated === undefined
				? {
						central: perDay(leastHalfLifeDays),
						least: perDay(leastHalfLifeDays),
						greatest: perDay(greatestHalfLifeDays)
					}
				: { central: perDay(stated), least: perDay(stated), greatest: perDay(stated) },
		measuredAs: medicine.active.startsWith('copper') ? 'Cu' : medicine.id
	};
}

/**
 * What to measure out of the bottle to put `active` (mg, or uL of whole liquid) into the water, rounded down to
 * the measuring tool's step. Null without a strength.
 */
export function measureOut(bottle: Bottle, active: number): Amount | null {
	const { strength, measure } = bottle.medicine;
	if (!strength) return null;
	switch (strength.form) {
		case 'liquid':
			return { value: floorToStep(active / strength.mgPerMl, measure), unit: 'mL' };
		case 'powder':
			return { value: floorToStep(active / strength.gPerG, measure), unit: 'mg' };
		case 'whole':
			return { value: floorToStep(active / 1000 / strength.mlPerMl, measure), unit: 'mL' };
	}
}

/** The active substance (mg, or uL of whole liquid) in an amount measured from the bottle; 0 without a strength. */
export function activeIn(bottle: Bottle, amount: Pick<Amount, 'value' | 'unit'>): number {
	const { strength } = bottle.medicine;
	if (!strength) return 0;
	switch (strength.form) {
		case 'liquid':
			// a mass is what the bottle holds, not the liquid around it
			if (amount.unit === 'mg' || amount.unit === 'g') return inMg(amount);
			return inMl(amount) * strength.mgPerMl;
		case 'powder':
			return inMg(amount) * strength.gPerG;
		case 'whole':
			return inMl(amount) * 1000 * strength.mlPerMl;
	}
}

const inMg = ({ value, unit }: Pick<Amount, 'value' | 'unit'>) => (unit === 'g' ? value * 1000 : value);
const inMl = ({ value, unit }: Pick<Amount, 'value' | 'unit'>) => (unit === 'L' ? value * 1000 : value);
