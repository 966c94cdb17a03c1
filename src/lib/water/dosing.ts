import { read, unreadable, type Read, type Strength } from '../units/index.ts';

/** Copper in copper sulfate pentahydrate by mass, 63.546/249.685 = 25.45 %: standard atomic weights (IUPAC). */
export const copperShareOfPentahydrate = 63.546 / 249.685;

/** Formaldehyde in formalin, g per mL of liquid, by the label's pair 100 uL/L = 37 mg/L. */
export const formaldehydeGPerMl = 0.37;

/** Stock solution from a salt: mg of the active part per mL. `activeShare` is by mass of the salt. */
export const stockFromSaltMgPerMl = (saltG: number, activeShare: number, stockMl: number): number =>
	(saltG * 1000 * activeShare) / stockMl;

/** C1 V1 = C2 V2: how much concentrate makes an amount at a lower strength (same units on both sides). */
export function concentrateNeeded(
	finalAmount: number,
	finalStrength: number,
	strength: number
): Read<number> {
	if (!(strength > 0) || finalStrength > strength) {
		return unreadable(
			'order',
			`${finalStrength} from ${strength}`,
			'a concentrate at least as strong as what is made from it'
		);
	}
	return read((finalAmount * finalStrength) / strength);
}

export interface DoseWish {
	volumeL: number;
	/** level now and wanted: mg/L, or uL/L for a liquid counted whole */
	from: number;
	to: number;
	strength: Strength;
}

export interface Dose {
	value: number;
	unit: 'mL' | 'mg';
}

/**
 * What to measure out of the bottle to lift a volume from one level to another: (to - from) V / strength. Nothing is
 * rounded. The added liquid's own volume is left out (under 1 % for usual stocks). A problem when there is nothing to
 * add because the water holds more than is wanted.
 */
export function doseFor(wish: DoseWish): Read<Dose> {
	const { volumeL, from, to, strength } = wish;
	if (to < from)
		return unreadable(
			'order',
			`${from} to ${to}`,
			'a level to reach that is not below the present one: change water to lower it'
		);
	const amount = (to - from) * volumeL;
	if (strength.form === 'liquid') return read({ value: amount / strength.mgPerMl, unit: 'mL' });
	if (strength.form === 'powder') return read({ value: amount / strength.gPerG, unit: 'mg' });
	return read({ value: amount / 1000 / strength.mlPerMl, unit: 'mL' });
}

/** How far a measured amount lifts the level, the way back of `doseFor`: mg/L, or uL/L for a liquid counted whole. */
export function raisedBy(amount: number, strength: Strength, volumeL: number): number {
	if (strength.form === 'liquid') return (amount * strength.mgPerMl) / volumeL;
	if (strength.form === 'powder') return (amount * strength.gPerG) / volumeL;
	return (amount * strength.mlPerMl * 1000) / volumeL;
}

/** Make-up for the new water of a change alone: the water taken out carried `level` away. */
export const makeUpFor = (newWaterL: number, level: number, strength: Strength): Read<Dose> =>
	doseFor({ volumeL: newWaterL, from: 0, to: level, strength });

/** Tolerance of a rounding down, in steps: 2.9999999999 steps are three. */
export const stepTolerance = 1e-9;

/** The largest multiple of the measuring tool's step that is not above the amount; without a step, the amount. */
export function floorToStep(amount: number, step: number | null): number {
	if (step === null || !(step > 0)) return amount;
	const steps = Math.floor(amount / step + stepTolerance);
	// 3 x 0.1 is 0.30000000000000004: dividing by a whole count of steps per unit gives the number as written.
	const perUnit = Math.round(1 / step);
	return perUnit >= 1 && Math.abs(perUnit * step - 1) < 1e-12 ? steps / perUnit : steps * step;
}

/**
 * The dose as the tool can measure it, rounded down and never lifting the level past the ceiling: one step less where
 * the tolerance of the rounding would.
 */
export function measuredDose(wish: DoseWish & { step: number | null; ceiling: number }): Read<Dose> {
	const dose = doseFor({ ...wish, to: Math.min(wish.to, wish.ceiling) });
	if (!dose.ok) return dose;
	let value = floorToStep(dose.value.value, wish.step);
	const over = (amount: number): boolean =>
		wish.from + raisedBy(amount, wish.strength, wish.volumeL) > wish.ceiling;
	if (over(value))
		value =
			wish.step === null ? value * (1 - 4 * Number.EPSILON) : floorToStep(value - wish.step / 2, wish.step);
	return read({ value: Math.max(0, value), unit: dose.value.unit });
}

/** Formaldehyde in mg/L behind a level of formalin in uL/L. Only to compare with papers: doses count the whole liquid. */
export const formaldehydeMgPerL = (formalinUlPerL: number): number => formalinUlPerL * formaldehydeGPerMl;
