import { carcassNitrogenShare } from '../formulary/index.ts';
import { readLog, type Lot, type Run } from '../run/index.ts';

/** A dead fish in the water of one tank. */
export interface Body {
	massG: number;
	/** false: nobody wrote what these fish weigh, and it is counted as 25 g */
	known: boolean;
	volumeL: number;
	/** total ammonia nitrogen, mg/L, if all of it rots in this tank: the most that can come of it */
	mgNPerL: number;
}

/** What the share was given for; stands in where no mass was written. */
const EXAMPLE_G = 25;

/** One fish of a lot, at the lot's mean mass, in so many litres; null where the volume is not known. */
export function bodyOf(lot: Pick<Lot, 'massG' | 'count'> | undefined, volumeL: number | null): Body | null {
	if (volumeL === null || volumeL <= 0) return null;
	const known = lot !== undefined && lot.massG !== null && lot.massG > 0 && lot.count > 0;
	const massG = known ? (lot.massG ?? 0) / lot.count : EXAMPLE_G;
	return { massG, known, volumeL, mgNPerL: (massG * 1000 * carcassNitrogenShare.value) / volumeL };
}

/** A lot of the run by its id, one that joined later included. */
export function lotOf({ lots, log }: Run, id: string): Lot | undefined {
	const joined = readLog(log).flatMap((fact) => (fact.kind === 'fish' && fact.lot ? [fact.lot] : []));
	return [...lots, ...joined].find((lot) => lot.id === id);
}
