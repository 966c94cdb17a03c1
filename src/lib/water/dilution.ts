import { read, unreadable, type Read } from '../units/index.ts';
import { outside, outsideAny, type Range } from './range.ts';

/** A share of the water replaced at once, 0 to 1. */
export const fractionRange: Range = { name: 'fraction', unit: '', low: 0, high: 1 };
const positive = (name: string, unit: string): Range => ({ name, unit, low: 0, high: Number.MAX_VALUE });

/** Counts that differ from a whole number by rounding alone are that number. */
const countTolerance = 1e-9;

/** Level after one change of a fraction, the new water holding `source` of the same. */
export const dilute = (level: number, fraction: number, source = 0): number =>
	level + (source - level) * fraction;

/** Level after several equal changes: source + (level - source) (1 - f)^n. */
export const afterChanges = (level: number, fraction: number, count: number, source = 0): number =>
	source + (level - source) * (1 - fraction) ** count;

/**
 * How many equal changes bring a level down to a target, and what is then left (same unit as given).
 * n = ceil(ln((target - source)/(level - source)) / ln(1 - f)). A problem when no number of changes does it.
 */
export function changesNeeded(wish: {
	from: number;
	to: number;
	fraction: number;
	source?: number;
}): Read<{ changes: number; residual: number }> {
	const { from, to, fraction, source = 0 } = wish;
	const problem = outsideAny(
		[fractionRange, fraction],
		[positive('level', ''), from],
		[positive('target', ''), to]
	);
	if (problem) return problem;
	if (from <= to) return read({ changes: 0, residual: from });
	if (fraction === 0)
		return unreadable('no-change', '0', 'a fraction above 0: no number of empty changes lowers a level');
	if (fraction < 1 ? to <= source : to < source) {
		return unreadable(
			'never',
			String(to),
			`a target above ${source}, what the new water itself holds: changes only come near it`
		);
	}
	if (fraction === 1) return read({ changes: 1, residual: source });
	const exact = Math.log((to - source) / (from - source)) / Math.log1p(-fraction);
	const changes = Math.max(1, Math.ceil(exact - countTolerance));
	return read({ changes, residual: afterChanges(from, fraction, changes, source) });
}

/** How large each of n equal changes must be, 0 to 1. */
export function fractionNeeded(wish: {
	from: number;
	to: number;
	changes: number;
	source?: number;
}): Read<number> {
	const { from, to, changes, source = 0 } = wish;
	const problem = outside({ name: 'number of changes', unit: '', low: 1, high: 1e6 }, changes);
	if (problem) return problem;
	if (from <= to) return read(0);
	if (to < source)
		return unreadable('never', String(to), `a target not under ${source}, what the new water itself holds`);
	return read(1 - ((to - source) / (from - source)) ** (1 / changes));
}

/** Share replaced by dripping water through: 1 - exp(-flow t / V), well mixed. Kraul et al. 1985, Prog. Fish-Cult. 47:69-70. */
export const replacedByFlow = (turnovers: number): number => -Math.expm1(-turnovers);

/** Turnovers (flow x time / volume) that replace a share of the water: -ln(1 - F). A problem at 1: never wholly. */
export function turnoversToReplace(share: number): Read<number> {
	const problem = outside({ name: 'share replaced', unit: '', low: 0, high: 1 - Number.EPSILON }, share);
	return problem ?? read(-Math.log1p(-share));
}

/** Level after dripping: source + (level - source) exp(-turnovers). */
export const afterFlow = (level: number, turnovers: number, source = 0): number =>
	source + (level - source) * Math.exp(-turnovers);
