import type { Chance } from '../chance.ts';

/** Share of the water that may be changed at one chance outside emergencies (common practice, no source). */
const MOST_CHANGED = 0.5;
/** A tank this many times larger is no advice any more. */
const LARGEST = 64;
const HALVINGS = 40;

export interface Scale {
	/** ammonia made, as a share of the plan's */
	made: number;
	/** volume, in times the plan's */
	size: number;
}

/** Which chances take a change: those of rows that plan their changes themselves, or every day somebody is there. */
export type Reach = 'automatic' | 'every';

const may = ({ auto, open, acting, barred }: Chance, reach: Reach): boolean =>
	open && !acting && !barred && (auto || reach === 'every');

/**
 * Does half the water at every open chance keep NH3-N inside its limit before each service, when the fish made this
 * share of their ammonia and the tank were so much larger? First-order clearance of Q L/d in V litres keeps
 * exp(-Q t/V), so a larger tank keeps `alpha ^ (1/size)`; what is made in between adds the mean of that.
 */
export function holds(
	chances: readonly Chance[],
	limitMgNPerL: number,
	{ made, size }: Scale,
	reach: Reach
): boolean {
	const [first] = chances;
	if (!first) return true;
	let tanMg = first.tanMg * size;
	return chances.every((chance, i) => {
		if (i > 0) {
			const kept = chance.alpha ** (1 / size);
			tanMg = tanMg * kept + chance.producedMg * made * meanKept(kept);
		}
		const limitMg = chance.toxicShare ? (limitMgNPerL / chance.toxicShare) * chance.beforeL * size : Infinity;
		const inside = i === 0 || tanMg <= limitMg * (1 + 1e-9);
		tanMg = tanMg * chance.keepTan + chance.addTanMg * size;
		if (may(chance, reach))
			tanMg = tanMg * (1 - MOST_CHANGED) + MOST_CHANGED * chance.volumeL * size * chance.source.tanMg;
		return inside;
	});
}

const meanKept = (kept: number): number => (kept >= 1 - 1e-12 ? 1 : (kept - 1) / Math.log(kept));

/** The largest share of the ammonia that the water can carry; 1 and more is never asked, 0 when none can. */
export function bearableShare(chances: readonly Chance[], limitMgNPerL: number, reach: Reach): number {
	if (holds(chances, limitMgNPerL, { made: 1, size: 1 }, reach)) return 1;
	return bisect((made) => holds(chances, limitMgNPerL, { made, size: 1 }, reach), 0, 1);
}

/** The smallest tank, in times the present one, that carries all of it; null when none does. */
export function bearableSize(chances: readonly Chance[], limitMgNPerL: number, reach: Reach): number | null {
	const enough = (size: number) => holds(chances, limitMgNPerL, { made: 1, size }, reach);
	if (enough(1)) return 1;
	if (!enough(LARGEST)) return null;
	return 1 / bisect((inverse) => enough(1 / inverse), 1 / LARGEST, 1);
}

/** The largest argument that still holds, between one that holds and one that does not. */
function bisect(works: (value: number) => boolean, good: number, bad: number): number {
	for (let i = 0; i < HALVINGS; i++) {
		const middle = (good + bad) / 2;
		if (works(middle)) good = middle;
		else bad = middle;
	}
	return good;
}
