import { displayIn, print, type UnitSystem } from '$lib/units';
import type { Line } from '$lib/water';

/** One line of an answer in the keeper's units. */
export function lineText(line: Line, system: UnitSystem): string {
	if ('text' in line) return line.text;
	return 'number' in line
		? print(line.number, '', line.decimals)
		: displayIn(system, line.dimension, line.value);
}
