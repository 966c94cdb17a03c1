import type { Phase } from '../run/index.ts';
import { activeIn, isUnlabelled, measureOut, UNLABELLED, type Bottle } from './bottle.ts';
import type { Deed, Job } from './job.ts';
import type { Amount } from './plan.ts';
import type { Bench } from './phase-kind.ts';
import { needsStepMore } from './portion.ts';
import { levelOf, mostOf, type Forecast } from './tank-water.ts';
import { amountText, figure, levelText, underText } from './words.ts';

/** Levels are sums of masses. */
const NEAR_LEVEL = 1e-9;

export interface DoseWish {
	phase: Phase;
	n: string;
	bottle: Bottle;
	bench: Bench;
	/** level wanted above what is there, at the dose's turn; mg/L or uL/L. Null: the sheet gives no level */
	raise(water: Forecast): number | null;
	/** no instant may see more than this, judged at least loss; null: no ceiling is known */
	ceiling: number | null;
	/** under this nothing is earned: no rounding may end there */
	floor?: number;
	/** most that one service may raise; absent: no such rule */
	raiseMost?: number;
	because(from: number, to: number): string;
	/** why no level can be raised to, where it is not simply missing */
	lacks?: string | undefined;
	applied?(atMs: number): void;
	/** told when its turn came and nothing was left to give */
	spared?(): void;
}

/** A dose whose amount is worked out when its turn comes: rounded down unless only a step more holds the floor, and never past the ceiling. */
export function doseJob(wish: DoseWish): Job {
	const { phase, n, bottle } = wish;
	return {
		phase: phase.id,
		kind: 'dose',
		n,
		bottle,
		applied: wish.applied,
		act: (water) => {
			const wanted = wish.raise(water);
			if (isUnlabelled(bottle)) return nameless(wish, UNLABELLED);
			if (wanted === null) return nameless(wish, wish.lacks ?? 'its level is missing');
			const held = wish.bench.withheld(bottle);
			const raise = Math.min(wanted, room(wish, water));
			if (raise <= 0) return spare(wish);
			if (held) return nameless(wish, held);
			return give(wish, water, raise);
		}
	};
}

function room({ bottle, bench, ceiling }: DoseWish, water: Forecast): number {
	const free = ceiling === null ? Infinity : ceiling - mostOf(water, bottle);
	return Math.min(free, bench.unconfirmedRoom(bottle, water) ?? Infinity);
}

function spare(wish: DoseWish): null {
	wish.spared?.();
	return null;
}

function give(wish: DoseWish, water: Forecast, raise: number): Deed | null {
	const { bottle, bench } = wish;
	const volumeL = water.central.volumeL;
	const amount = bench.netL === null ? null : portioned(wish, water, raise);
	if (amount?.value === 0) return spare(wish);
	// Without volume or strength nobody can measure it; the days still follow from the level being reached.
	const active = amount ? activeIn(bottle, amount) : raise * volumeL;
	const from = levelOf(water.central, bottle);
	const to = from + active / volumeL;
	const dose = (mg: number): Deed['effects'] => [{ does: 'dose', medicine: bottle.index, active: mg }];
	const missing =
		bench.netL === null ? 'the tank volume is missing' : 'the strength of the bottle is missing';
	return {
		// what nobody can measure out is not forecast either
		effects: amount ? dose(active) : [],
		amount,
		scale: (done) => dose(activeIn(bottle, done)),
		words: () => ({
			text: amount ? `${bottle.row.name} ${amountText(amount)}` : `${bottle.row.name}: no amount, ${missing}`,
			because: amount
				? [wish.because(from, to), ...unsure(wish, water, to), howToGive(bottle, amount)].join(' ')
				: `From ${levelText(bottle, from)} to ${levelText(bottle, to)} is wanted, but ${missing}.`,
			medicine: bottle.id,
			...(amount ? { raises: { from, to, unit: bottle.row.unit } } : {}),
			cautions: [...bottle.row.cautions]
		})
	};
}

function portioned(wish: DoseWish, water: Forecast, raise: number): Amount | null {
	const { bottle, floor, raiseMost = Infinity } = wish;
	const { volumeL } = water.central;
	const rounded = measureOut(bottle, raise * volumeL);
	const { measure } = bottle.medicine;
	if (!rounded || measure === null || measure === undefined) return rounded;
	const more = needsStepMore(activeIn(bottle, rounded), {
		step: activeIn(bottle, { value: measure, unit: rounded.unit }),
		toFloor: floor === undefined ? null : (floor - levelOf(water.central, bottle)) * volumeL,
		wanted: raise * volumeL,
		room: Math.min(room(wish, water), raiseMost) * volumeL
	});
	return more ? { ...rounded, value: rounded.value + measure } : rounded;
}

/** Said where a low reading that nobody has confirmed holds the dose back; `to`: what this amount comes to by that reading. */
function unsure({ bench, bottle, floor = 0 }: DoseWish, water: Forecast, to: number): string[] {
	const room = bench.unconfirmedRoom(bottle, water);
	if (room === null) return [];
	const held = 'The low reading is not confirmed: no more than this now';
	if (to >= floor - NEAR_LEVEL)
		return [`${held}, test again tonight, and the rest once a second reading agrees.`];
	return [
		`${held}, though by that reading it comes to ${underText(to, floor)} ${bottle.row.unit}, under the floor of ${figure(floor, 3)}. Test again: the second reading decides, and the rest is given once it agrees.`
	];
}

/** How it gets into the water: what dissolves badly is stirred up in enough of it, the rest as its row says. */
function howToGive({ row }: Bottle, { value, unit }: Amount): string {
	const grams = unit === 'g' ? value : unit === 'mg' ? value / 1000 : null;
	if (!row.dissolvesGPerL || grams === null) return row.howToGive.value;
	const litres = Math.ceil((grams / row.dissolvesGPerL.value) * 10 - 1e-9) / 10;
	return `Stir it up in at least ${figure(litres, 1)} L of tank water first, then pour it in; stir what settles.`;
}

/** A dose that is due and cannot be figured: it stands in the plan without a number. */
function nameless({ bottle }: DoseWish, why: string): Deed {
	return {
		effects: [],
		amount: null,
		scale: (done) => [{ does: 'dose', medicine: bottle.index, active: activeIn(bottle, done) }],
		words: () => ({
			text: `${bottle.row.name}: no amount, ${why}`,
			because: `No dose can be justified: ${why}.`,
			medicine: bottle.id,
			cautions: [...bottle.row.cautions]
		})
	};
}
