import { integrate } from '../../../../tests/integrate.ts';

/**
 * A tank that does not exist, for the tests of the fit: its true rates are drawn from ranges, its water is integrated
 * by odex, its kits err by a tenth and read to a whole step. Nothing here is the planner's arithmetic.
 */
export interface SyntheticTank {
	seed: number;
	volumeL: number;
	feedGPerDay: number;
	/** what the plan file says the filter clears, L/day; 0: none */
	statedClearsLPerDay: number;
	active: 'copper-ionic' | 'chloroquine' | 'praziquantel';
	/** days that were logged before now */
	days: number;
	truth: { mgNPerGProtein: number; clearsLPerDay: number; lossPerDay: number };
	kit: { ammoniaStep: number; medicineStep: number };
}

export const PROTEIN = 0.09;
const NO_CHANGE_DAYS = 4;
const CHANGE_SHARE = 0.25;
const KIT_SHARE = 0.1;
const DAY_TO_DAY = 0.1;
const DOSE_ERROR = 0.03;

/** Level a dose is meant to reach, greatest loss per day on record, the level that stalls a filter: each as its shelf row has it. */
export const medicine = {
	'copper-ionic': { level: 0.18, greatest: -Math.log(0.9), steps: [0.01, 0.05], stallsAbove: Infinity },
	chloroquine: { level: 10, greatest: Math.LN2 / 5, steps: [0.5, 1], stallsAbove: 1 },
	praziquantel: { level: 2.5, greatest: Math.LN2 / 0.35, steps: [0.1, 0.25], stallsAbove: Infinity }
} as const;

export type Chance = () => number;

/** mulberry32 (public domain, T. Ettinger), from memory. */
export function chanceOf(seed: number): Chance {
	let state = seed >>> 0;
	return () => {
		state = (state + 0x6d2b79f5) >>> 0;
		let t = Math.imul(state ^ (state >>> 15), 1 | state);
		t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
		return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
	};
}

const between = (chance: Chance, low: number, high: number) => low + (high - low) * chance();
const normal = (chance: Chance) => Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance());

export function drawTank(seed: number): SyntheticTank {
	const chance = chanceOf(seed);
	const pick = <T>(of: readonly T[]) => of[Math.floor(chance() * of.length)] as T;
	const volumeL = Math.round(between(chance, 60, 300));
	const madeMgPerL = Math.exp(between(chance, Math.log(0.06), Math.log(0.25)));
	const active = pick(['copper-ionic', 'chloroquine', 'praziquantel'] as const);
	const filtered = chance() < 0.5;
	return {
		seed,
		volumeL,
		feedGPerDay: Number(((madeMgPerL * volumeL) / 92 / PROTEIN).toFixed(3)),
		statedClearsLPerDay: filtered ? volumeL : 0,
		active,
		days: Math.floor(between(chance, 10, 21)),
		truth: {
			mgNPerGProtein: between(chance, 55, 144),
			clearsLPerDay: filtered ? volumeL * Math.exp(between(chance, Math.log(0.5), Math.log(3))) : 0,
			lossPerDay: between(chance, 0, medicine[active].greatest)
		},
		kit: { ammoniaStep: pick([0.05, 0.1, 0.25]), medicineStep: pick(medicine[active].steps) }
	};
}

/** What a kit shows: within a tenth, read to its step. */
export const shown = (chance: Chance, level: number, step: number): number =>
	Math.max(0, Math.round((level * (1 + KIT_SHARE * normal(chance))) / step)) * step;

export interface TrueLevels {
	tan: number;
	medicine: number;
}

/** One day of the life of the tank, as its keeper sees it: read, change, dose. */
export interface SyntheticDay {
	found: TrueLevels;
	readings: TrueLevels;
	/** share of the water changed */
	changed: number;
	/** mg that the keeper wrote down; what went in is within a few percent of it */
	dosedMg: number;
}

/** All days up to `until`; the ones past `tank.days` are what the forecast is about: nobody does anything. */
export function live(tank: SyntheticTank, until: number): SyntheticDay[] {
	const chance = chanceOf(tank.seed * 7919 + 1);
	const { volumeL, truth, kit, active } = tank;
	const { level, stallsAbove } = medicine[active];
	let [tanMg, medicineMg] = [0, 0];
	return Array.from({ length: until }, (_, day) => {
		if (day > 0) {
			const made =
				tank.feedGPerDay * PROTEIN * truth.mgNPerGProtein * Math.max(0, 1 + DAY_TO_DAY * normal(chance));
			const clears = medicineMg / volumeL > stallsAbove ? 0 : truth.clearsLPerDay / volumeL;
			const flow = (_t: number, [n = 0, m = 0]: number[]) => [made - clears * n, -truth.lossPerDay * m];
			[tanMg = 0, medicineMg = 0] = integrate(flow, [tanMg, medicineMg], 1, 1e-10);
		}
		const found = { tan: tanMg / volumeL, medicine: medicineMg / volumeL };
		const readings = {
			tan: shown(chance, found.tan, kit.ammoniaStep),
			medicine: shown(chance, found.medicine, kit.medicineStep)
		};
		const future = day >= tank.days;
		const changed = !future && day > 0 && day % NO_CHANGE_DAYS === 0 ? CHANGE_SHARE : 0;
		// three steps up to the level, what a change took, and on the last day all of it
		const share = future ? 0 : day === tank.days - 1 ? 0.5 : day < 3 ? 1 / 3 : changed;
		const dosedMg = share * level * volumeL;
		tanMg *= 1 - changed;
		medicineMg = medicineMg * (1 - changed) + dosedMg * (1 + DOSE_ERROR * normal(chance));
		return { found, readings, changed, dosedMg };
	});
}
