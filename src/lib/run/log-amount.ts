import {
	print,
	read,
	readDoseAmount,
	readIn,
	readMassMg,
	readVolumeL,
	unreadable,
	type Read
} from '../units/index.ts';
import type { LoggedAmount } from './log.ts';
import type { Medicine, Tank } from './run.ts';

/** What a job is measured out in, and how much of it there can be. */
export interface Takes {
	/** litres of water, millilitres of a liquid, milligrams of a powder; null: nobody knows which */
	unit: 'L' | 'mL' | 'mg' | null;
	/** water of the tank, litres: of nothing goes more into it; null: unknown, or it goes elsewhere */
	mostL: number | null;
}

/** A tank is measured to half a per cent at best (judgment, no source). */
const TANK_SLACK = 1.005;

const NOTHING_POURED = 'more than nothing: what was not done is skipped, with a reason';

/** Kinds of jobs whose amount is water. */
const waterJobs: readonly string[] = ['change', 'washout', 'topoff', 'salinity'];

/** What comes out of a bottle: what it holds decides. */
export function unitOf(bottle: Pick<Medicine, 'strength'> | null | undefined): 'mL' | 'mg' | null {
	if (!bottle?.strength) return null;
	return bottle.strength.form === 'powder' ? 'mg' : 'mL';
}

/** What a job of a kind is measured out in; `bottle` is the one of its phase. */
export function takesOf(
	kind: string,
	bottle: Pick<Medicine, 'strength'> | null | undefined,
	mostL: number | null
): Takes {
	if (waterJobs.includes(kind)) return { unit: 'L', mostL };
	return { unit: unitOf(bottle), mostL: kind === 'dose' ? mostL : null };
}

/** The water of the tank, or of the second one where that is larger, litres; null: unknown. */
export function mostWaterL(tanks: readonly (Pick<Tank, 'netL'> | null)[]): number | null {
	const volumes = tanks.flatMap((tank) => tank?.netL ?? []);
	return volumes.length > 0 ? Math.max(...volumes) : null;
}

/**
 * An amount that was measured out, in the unit that the job takes: another unit has to measure the same. Nothing poured
 * is a job that was skipped, and nobody pours more water than the tank holds.
 */
export function readPouredAmount(text: string, { unit, mostL }: Takes, example = ''): Read<LoggedAmount> {
	const amount = inUnitOf(text, unit);
	if (!amount.ok)
		return unreadable(
			amount.problem.code,
			text,
			unit
				? `an amount in ${unit}, such as ${example || examples[unit]}`
				: 'what was measured out, such as 5.0 mL'
		);
	if (amount.value.value <= 0) return unreadable('out-of-range', text, NOTHING_POURED);
	const { value, unit: measured } = amount.value;
	if (mostL !== null && value / perLitre[measured] > mostL * TANK_SLACK)
		return unreadable(
			'out-of-range',
			text,
			`at most the ${print(Number(mostL.toFixed(1)), 'L')} in the tank`
		);
	return amount;
}

/** Of a litre of water, or of what weighs as much. */
const perLitre = { L: 1, mL: 1000, g: 1000, mg: 1_000_000 } as const;

const examples = { L: '30 L', mL: '3.0 mL', mg: '280 mg' } as const;

/** Without a bottle to go by, litres and gallons are water, smaller volumes and masses come out of a bottle. */
function inUnitOf(text: string, unit: Takes['unit']): Read<LoggedAmount> {
	if (unit === null) {
		const isWater = /\d ?(l|litres?|liters?|(us |imp\.? )?gal)$/i.test(text.trim());
		const litres = isWater ? readVolumeL(text) : null;
		return litres?.ok ? read({ value: litres.value, unit: 'L' }) : readDoseAmount(text);
	}
	const value = unit === 'mg' ? readMassMg(text) : readIn(text, 'volume', unit);
	return value.ok ? read({ value: value.value, unit }) : value;
}
