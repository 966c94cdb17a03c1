import { plain, splitNumber } from './number.ts';
import { composed, composedScale, simpleUnits, type Dimension, type Ratio } from './ratios.ts';

/** A unit as a share of its dimension's canonical unit: `times / over`. */
export interface Scale {
	unit: string;
	times: number;
	over: number;
}

const byName = new Map<Dimension, Map<string, Ratio>>();

function table(dimension: Dimension): Map<string, Ratio> {
	let names = byName.get(dimension);
	if (names) return names;
	names = new Map();
	for (const row of simpleUnits[dimension]) for (const name of [row.unit, ...row.names]) names.set(name, row);
	for (const row of simpleUnits[dimension]) {
		for (const name of [row.unit, ...row.names])
			if (!names.has(name.toLowerCase())) names.set(name.toLowerCase(), row);
	}
	byName.set(dimension, names);
	return names;
}

/** A capital M before g, L, S or m is mega: a thousand-million-fold slip, so it is never taken for milli. */
const mega = /^M[gGlLsSm]($|[ /])/;

function simple(dimension: Dimension, text: string): Scale | null {
	const names = table(dimension);
	const exact = names.get(text);
	if (exact) return exact;
	if (mega.test(text)) return null;
	return names.get(text.toLowerCase()) ?? drop(dimension, text);
}

/** `drops (20/mL)`, `drops of 0.05 mL`: a drop has no size of its own. */
function drop(dimension: Dimension, text: string): Scale | null {
	if (dimension !== 'volume') return null;
	const perMl = /^drops? ?\(?(?:at |of )?([\d.,]+) ?(?:\/ ?ml|drops?\/ml|per ml)\)?$/i.exec(text)?.[1];
	if (perMl !== undefined) {
		const count = sizeOf(perMl);
		return count === null ? null : { unit: `drop (${count}/mL)`, times: 1, over: 1000 * count };
	}
	const size = /^drops? ?\(?(?:of |at )?([\d.,]+ ?[a-z]+)(?: each)?\)?$/i.exec(text)?.[1];
	if (size === undefined) return null;
	const split = splitNumber(plain(size));
	if (!split.ok || !(split.value.value > 0)) return null;
	const unit = simple('volume', split.value.rest);
	return unit && { unit: `drop of ${size}`, times: split.value.value * unit.times, over: unit.over };
}

function sizeOf(text: string): number | null {
	const split = splitNumber(text);
	return split.ok && split.value.rest === '' && split.value.value > 0 ? split.value.value : null;
}

/** Looks a unit up in a dimension; null when it does not fit. Composed units (`mg/L`, `mL per 10 gal`) are built from two. */
export function scaleOf(dimension: Dimension, unitText: string): Scale | null {
	const text = plain(unitText);
	const known = simple(dimension, text);
	if (known) return known;
	const parts = composed[dimension];
	if (!parts) return null;
	const cut = /^(.+?)(?: ?\/ ?| per )(.+)$/i.exec(text);
	if (!cut) return null;
	const above = simple(parts[0], cut[1] ?? '');
	const below = counted(parts[1], cut[2] ?? '');
	if (!above || !below) return null;
	const [times, over] = composedScale[dimension] ?? [1, 1];
	return {
		unit: `${above.unit}/${below.unit}`,
		times: above.times * below.over * times,
		over: above.over * below.times * over
	};
}

/** A unit that may have a count before it, as below a fraction stroke: `10 gal`. */
function counted(dimension: Dimension, text: string): Scale | null {
	const bare = simple(dimension, text);
	if (bare) return bare;
	const split = splitNumber(text);
	if (!split.ok || !(split.value.value > 0)) return null;
	const unit = simple(dimension, split.value.rest);
	if (!unit) return null;
	return {
		unit: `${split.value.value} ${unit.unit}`,
		times: unit.times * split.value.value,
		over: unit.over
	};
}
