import {
	read,
	readFraction,
	readLengthCm,
	readNumber,
	readQuantity,
	readStrength,
	readTemperatureC,
	readVolumeL,
	unreadable,
	type Quantity,
	type Read,
	type Strength
} from '../../units/index.ts';
import { readReferencePair, readSalinityCell, type ReferencePair } from '../gravity.ts';
import type { Input } from './question.ts';

/** Fields that many questions share. */
export const temperature: Input<number> = {
	label: 'Temperature',
	example: '26 C',
	usExample: '79 F',
	read: readTemperatureC
};
export const salinity: Input<number> = {
	label: 'Salinity',
	example: '35 ppt',
	read: readSalinityCell,
	gravity: true
};
export const pH: Input<number> = { label: 'pH', example: '8.1', read: readPh };
export const reference: Input<ReferencePair> = {
	label: 'Reference pair',
	example: '25C/25C',
	read: readReferencePair
};
export const fraction: Input<number> = { label: 'Fraction changed', example: '20%', read: readFraction };
export const strength: Input<Strength> = { label: 'Strength', example: '2 mg/mL', read: readStrength };
export const water: Input<number> = {
	label: 'Water volume',
	example: '112 L',
	usExample: '30 gal',
	read: positive(readVolumeL, 'a volume above zero, such as 112 L')
};

/** A salinity field with its own label. */
export const salinityOf = (label: string, example: string, otherwise?: string): Input<number> => ({
	...salinity,
	label,
	example,
	otherwise
});

export const length = (label: string, example: string, usExample: string): Input<number> => ({
	label,
	example,
	usExample,
	read: positive(readLengthCm, `a length above zero, such as ${example}`)
});

/** A reader that also refuses zero. */
export function positive(
	reader: (text: string) => Read<number>,
	expected: string
): (text: string) => Read<number> {
	return (text) => {
		const number = reader(text);
		return number.ok && !(number.value > 0) ? unreadable('out-of-range', text, expected) : number;
	};
}

/** A pH: `8.1` or `pH 8.1`. */
function readPh(text: string): Read<number> {
	const number = readNumber(text.replace(/^\s*pH\s*/i, ''));
	return number.ok ? number : unreadable(number.problem.code, text, 'a pH such as 8.1');
}

/** A level: by mass, as whole liquid or as salinity; `ppm` is left to whoever knows how the medicine is counted. */
export const level = (label: string, example: string): Input<Quantity> => ({
	label,
	example,
	read: (text) => readQuantity(text, ['concentration', 'volumeShare', 'salinity'])
});

/** Whole number, one or more. */
export const count = (label: string, example: string): Input<number> => ({
	label,
	example,
	read: (text) => {
		const number = readNumber(text);
		if (number.ok && Number.isInteger(number.value) && number.value >= 1) return number;
		return unreadable('count', text, `a whole number such as ${example}`);
	}
});

/** Litres taken away by what stands in the tank: a volume. */
export const displacement: Input<number> = {
	label: 'Displacement',
	example: '5 L',
	usExample: '1.3 gal',
	read: readVolumeL,
	otherwise: '0 L'
};

/**
 * Two levels that measure the same thing. `ppm` goes with its partner: beside uL/L it is by volume. A problem when
 * the two cannot be compared.
 */
export function samePair(from: Quantity, to: Quantity): Read<{ from: Quantity; to: Quantity }> {
	if (from.dimension === to.dimension) return read({ from, to });
	const asFrom = readQuantity(to.text, from.dimension);
	if (asFrom.ok) return read({ from, to: asFrom.value });
	const asTo = readQuantity(from.text, to.dimension);
	if (asTo.ok) return read({ from: asTo.value, to });
	return unreadable('unit', to.text, `the same kind of unit as ${from.text}`);
}
