/** What a medicine's doses must wait for. */
export interface Doubt {
	/** task id of a dose that nobody answered for */
	unanswered: string | null;
	/** a reading that cannot be believed or is unsafe: no dose until a retest */
	implausible: string | null;
	/** that reading was ten times over this forecast, or more; null: it was not */
	tenfold: number | null;
	/** a low reading until a second look, also one to come, has agreed with it */
	unconfirmed: Unconfirmed | null;
	/** the same, until the next reading that is logged */
	asks: Unconfirmed | null;
}

/** A low reading (its entry), the level that was expected (mg/L or uL/L), the volume they were in, and when. */
export interface Unconfirmed {
	id: string;
	read: number;
	forecast: number;
	volumeL: number;
	wall: number;
}

export const noDoubt = (): Doubt => ({
	unanswered: null,
	implausible: null,
	tenfold: null,
	unconfirmed: null,
	asks: null
});

/** A low reading confirms the one before it while that one is a fresh test, days (common practice, no source). */
export const CONFIRMS_WITHIN_DAYS = 2;

/**
 * The level in a volume where the forecast was right and a low reading was not: what filled or thinned the water since
 * then did so to both.
 */
export function levelOtherwise(
	{ read, forecast, volumeL: then }: Pick<Unconfirmed, 'read' | 'forecast' | 'volumeL'>,
	level: number,
	volumeL: number
): number {
	const apart = ((forecast - read) * then) / volumeL;
	const thinned = read > 0 ? (level * forecast) / read : Infinity;
	return Math.min(level + apart, thinned);
}
