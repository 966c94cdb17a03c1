import { displayIn, print, type UnitSystem } from '$lib/units';
import type { Line } from '$lib/water';

/** One line of an answer in the keeper's units. */
export function lineText(line: Line, system: UnitSystem): string {
	if ('text' in line) return line.text;
	return 'number' in line
		? print(line.number, '', line.decimals)
		: displayIn(system, line.dimension, (system === 'us' ? line.us?.value : undefined) ?? line.value);
}

/** What a line is called, in the keeper's units where its name has one. */
export const labelIn = (line: Line, system: UnitSystem): string =>
	(system === 'us' && 'dimension' in line ? line.us?.label : undefined) ?? line.label;
