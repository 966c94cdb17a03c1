const NEAR = 1e-9;

/** What bounds a dose, all in active substance that is put in (mg, or uL of whole liquid). */
export interface Portion {
	/** one step of the measuring tool; null: nothing is rounded */
	step: number | null;
	/** up to the floor of the window; null: there is none */
	toFloor: number | null;
	/** what was wanted before rounding, and the most there is room for */
	wanted: number;
	room: number;
}

/**
 * Is a step more than the amount rounded down to be given? Only where that amount stays under the floor which the wanted
 * one would have reached, and a step more still fits: rounding for a syringe starts no course anew.
 */
export function needsStepMore(rounded: number, { step, toFloor, wanted, room }: Portion): boolean {
	if (step === null || toFloor === null) return false;
	const short = rounded < toFloor - NEAR && wanted >= toFloor - NEAR;
	return short && rounded + step <= room + NEAR;
}
