import { read, unreadable, type Read } from './problem.ts';
import { inUnit, readQuantity, type Quantity } from './quantity.ts';
import { scaleOf } from './unit.ts';
import { plain, splitNumber } from './number.ts';

/** How a medicine is counted in water: by the mass of its active part, or as the whole liquid of the bottle (formalin). */
export type Counted = 'mass' | 'whole';

/** Levels of one medicine, in mg/L, or uL/L when it is counted whole. */
export interface Levels {
	low: number;
	high: number;
}

/** A level as a quantity. `ppm` is mg/L, but v/v (uL/L) for a liquid counted whole: the convention of the trade. */
export function readConcentrationQuantity(text: string, counted: Counted): Read<Quantity> {
	const quantity = readQuantity(text, counted === 'mass' ? 'concentration' : 'volumeShare');
	if (quantity.ok || quantity.problem.code !== 'unit') return quantity;
	const split = splitNumber(plain(text));
	const unit = split.ok ? split.value.rest : '';
	if (counted === 'whole' && scaleOf('concentration', unit)) {
		return unreadable(
			'unit',
			text,
			'a share by volume such as 25 uL/L or 25 ppm: this liquid is counted whole, not by mass'
		);
	}
	if (counted === 'mass' && scaleOf('volumeShare', unit)) {
		return unreadable(
			'unit',
			text,
			'a concentration by mass such as 0.18 mg/L: this medicine is counted by its mass'
		);
	}
	return quantity;
}

/** mg/L by mass, or uL/L for a liquid counted whole. */
export function readConcentration(text: string, counted: Counted): Read<number> {
	const quantity = readConcentrationQuantity(text, counted);
	return quantity.ok ? read(inUnit(quantity.value, counted === 'mass' ? 'mg/L' : 'uL/L')) : quantity;
}

const span = /^([\d.,]+)\s*(.*?)\s*(?:-|–|—|\bto\b|\.\.|…)\s*([\d.,]+\s*\D.*)$/i;

/** `0.15-0.20 mg/L`, `0.15 mg/L to 0.20 mg/L`, or one value standing for both ends. The low end comes first. */
export function readConcentrationBand(text: string, counted: Counted): Read<Levels> {
	const single = readConcentration(text, counted);
	if (single.ok) return read({ low: single.value, high: single.value });
	const ends = span.exec(text.trim());
	if (!ends) return single;
	const high = readConcentration(ends[3] ?? '', counted);
	if (!high.ok) return unreadable(high.problem.code, text, high.problem.expected);
	const unit = ends[2] ? ends[2] : plain(ends[3] ?? '').replace(/^[\d.,]+\s*/, '');
	const low = readConcentration(`${ends[1]} ${unit}`, counted);
	if (!low.ok) return unreadable(low.problem.code, text, low.problem.expected);
	if (low.value > high.value)
		return unreadable('order', text, 'the lower level first, such as 0.15-0.20 mg/L');
	return read({ low: low.value, high: high.value });
}
