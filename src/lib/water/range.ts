import { unreadable, type Problem } from '../units/index.ts';

/** Where a formula holds. Both ends are inside. */
export interface Range {
	name: string;
	unit: string;
	low: number;
	high: number;
}

/** A problem that names the range when a number lies outside it (or is no number), else null. */
export function outside(range: Range, value: number): { ok: false; problem: Problem } | null {
	if (value >= range.low && value <= range.high) return null;
	return unreadable(
		'out-of-range',
		said(range, value),
		`${range.name} from ${range.low} to ${said(range, range.high)}`
	);
}

const said = (range: Range, value: number): string =>
	range.unit === '' ? figure(value) : `${figure(value)} ${range.unit}`;

const figure = (value: number): string => String(Number(value.toPrecision(6)));

/** The first problem among several numbers, else null. */
export function outsideAny(
	...pairs: readonly (readonly [Range, number])[]
): { ok: false; problem: Problem } | null {
	for (const [range, value] of pairs) {
		const problem = outside(range, value);
		if (problem) return problem;
	}
	return null;
}

/** `temperature 0 to 40 °C, salinity 0 to 42 ppt`, for the page and the command line. */
export const rangeText = (...ranges: readonly Range[]): string =>
	ranges
		.map(
			({ name, unit, low, high }) =>
				`${name} ${low} to ${high === Infinity ? 'any' : high}${unit === '' ? '' : ` ${unit}`}`
		)
		.join(', ');
