/** Water and what stands in it; levels are total ammonia as N, mg/L. */
export interface Fouled {
	tanMgNPerL: number;
	/** at or under this it is bearable again */
	allowedMgNPerL: number;
	/** what new water brings along */
	sourceMgNPerL: number;
}

/** Share of the water that brings ammonia back to what is allowed; half of it where new water gains nothing. */
export function shareAway({ tanMgNPerL, allowedMgNPerL, sourceMgNPerL }: Fouled): number {
	const apart = tanMgNPerL - sourceMgNPerL;
	return apart > 0 ? Math.min(1, Math.max(0, tanMgNPerL - allowedMgNPerL) / apart) : 0.5;
}

/** The same in litres, rounded up to whole ones: what is poured off lands at or under what is allowed. */
export const litresAway = (volumeL: number, fouled: Fouled): number =>
	Math.min(volumeL, Math.ceil(shareAway(fouled) * volumeL - 1e-9));
