import { displayIn, type UnitSystem } from './display.ts';
import type { Dimension } from './ratios.ts';

const figure = String.raw`-?\d+(?:\.\d+)?`;

/** `12 to 15`, `106 of 112`: figures that share the unit behind the last. */
const quantity = new RegExp(
	String.raw`(?<![\d.,])(?:(${figure})( to | of | or | than at |–))?(${figure}) (°C|L\/d|L|cm)(?![\p{L}\d/-])`,
	'gu'
);

/** A label quoted in its own degrees, with the same in Celsius behind it. */
const quoted = new RegExp(String.raw`(${figure} °F) \(${figure} °C\)`, 'gu');

/** A difference of temperatures has no zero of its own; these words, before it or after it, say that one is meant. */
const stepBefore = /\b(by|within|than|at most)(?: about)? $/i;
const stepAfter = /^ (off|per hour|an hour|is the most|at once)\b/i;

const dimensions: Record<string, Dimension> = {
	L: 'volume',
	'L/d': 'volumePerDay',
	'°C': 'temperature',
	cm: 'length'
};

/**
 * A metric sentence as people of one system read it: litres, degrees and lengths are put in their units, everything else
 * stays. What is measured out in mL or mg stays too, since the tools are metric, and so do mg/L and ppt.
 */
export function sentenceIn(system: UnitSystem, sentence: string): string {
	if (system === 'metric') return sentence;
	return sentence
		.replace(quoted, '$1')
		.replace(
			quantity,
			(
				seen: string,
				first: string | undefined,
				between: string | undefined,
				last: string,
				unit: string,
				at: number
			) => {
				const step =
					stepBefore.test(sentence.slice(0, at)) || stepAfter.test(sentence.slice(at + seen.length));
				const dimension = unit === '°C' && step ? 'temperatureStep' : (dimensions[unit] ?? 'volume');
				const shown = (value: string) => displayIn(system, dimension, Number(value));
				if (first === undefined) return shown(last);
				const [a, b] = [shown(first), shown(last)];
				const unitOf = (text: string) => text.slice(text.indexOf(' '));
				const bare = unitOf(a) === unitOf(b) ? a.slice(0, a.indexOf(' ')) : a;
				return `${bare}${between ?? ''}${b}`;
			}
		);
}
