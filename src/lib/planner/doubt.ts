/** What a medicine's doses must wait for. */
export interface Doubt {
	/** task id of a dose that nobody answered for */
	unanswered: string | null;
	/** a reading that cannot be believed or is unsafe: no dose until a retest */
	implausible: string | null;
	/** that reading was ten times over this forecast, or more; null: it was not */
	tenfold: number | null;
	/** an unconfirmed low reading, the forecast that it contradicts (mg/L or uL/L), the volume they were in, and when */
	unconfirmed: { read: number; forecast: number; volumeL: number; wall: number } | null;
}

export const noDoubt = (): Doubt => ({
	unanswered: null,
	implausible: null,
	tenfold: null,
	unconfirmed: null
});
