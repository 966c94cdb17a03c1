import type { Phase } from '../run/index.ts';
import type { Job } from './job.ts';
import { amountText, figure } from './words.ts';

/** Toxic ammonia as N that is an emergency, mg/L (judgment, no source). */
export const EMERGENCY_MG_N_PER_L = 0.1;
/** More than this in one go has to be matched in temperature, salinity and pH (common practice, no source). */
export const MOST_AT_ONCE = 0.5;

interface Wanted {
	phase: Phase;
	n: string;
	litres: number;
	/** toxic ammonia as N that was found, and the limit it is brought under, mg/L */
	level: number;
	limit: number;
}

/** So much water now. */
export function emergencyChange({ phase, n, litres, level, limit }: Wanted): Job {
	return {
		phase: phase.id,
		kind: phase.kind === 'washout' ? 'washout' : 'change',
		n,
		act: ({ central }, water) => {
			const fraction = Math.min(1, litres / central.volumeL);
			const amount = { value: litres, unit: 'L' as const };
			return {
				effects: [{ does: 'change', fraction, water }],
				amount,
				scale: ({ value }, { central: found }) => [
					{ does: 'change', fraction: Math.min(1, value / found.volumeL), water }
				],
				words: () => ({
					text: `Change ${amountText(amount)} at once`,
					because: `${figure(fraction * 100, 0)} % brings toxic ammonia from ${figure(level, 3)} to its limit of ${figure(limit, 3)} mg/L NH3-N, and goes before any dose that acts; give back only what the change took, no food, strong air, read again within hours.`,
					fraction,
					urgent: true,
					cautions: cautionsFor(fraction, level)
				})
			};
		}
	};
}

const cautionsFor = (fraction: number, level: number): string[] => [
	...(level >= EMERGENCY_MG_N_PER_L - 1e-9 ? ['Air first: at this level it is an emergency.'] : []),
	fraction > MOST_AT_ONCE
		? 'New water matched in temperature, salinity and pH: so much is a shock otherwise. Drain in one go and fill slowly: the same litres in several steps take out less.'
		: 'New water matched in temperature, salinity and pH: a pH that rises makes more of the ammonia toxic.',
	'Heater and pump out of the water before hands go in.'
];
