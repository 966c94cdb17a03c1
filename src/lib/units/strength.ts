import { plain, splitNumber } from './number.ts';
import { read, unreadable, type Read } from './problem.ts';
import { convert, inUnit, readQuantity } from './quantity.ts';
import { scaleOf } from './unit.ts';

/** What is in the bottle: a solution, a powder, or a liquid that is counted whole (v/v). */
export type Strength =
	| { form: 'liquid'; mgPerMl: number }
	| { form: 'powder'; gPerG: number }
	| { form: 'whole'; mlPerMl: number };

const expected =
	'2 mg/mL, 1 g/g, 1 mL/mL, 10 % w/v, 98 % w/w, 100 % v/v or a rate such as 1 mL per 40 L gives 0.25 mg/L';

/**
 * A bottle's strength. Percent must say by what (`w/v`, `w/w`, `v/v`): 37 % alone may be three different liquids.
 * A label rate (`1 mL per 40 L gives 0.25 mg/L`) is turned into strength.
 */
export function readStrength(text: string): Read<Strength> {
	const source = plain(text);
	const rate = labelRate(source);
	if (rate) return sound(rate, text);
	if (rateWithoutLevel(source))
		return unreadable(
			'strength',
			text,
			'the level that it gives as well, such as 1 mL per 40 L gives 0.25 mg/L'
		);
	const split = splitNumber(source);
	if (!split.ok) return unreadable('strength', text, expected);
	const { value, rest } = split.value;
	if (rest.startsWith('%')) return percent(value, rest.slice(1), text);
	const cut = /^(.+?)(?: ?\/ ?| per )(.+)$/i.exec(rest);
	const strength = cut && ratio(value, rest, cut[1] ?? '', cut[2] ?? '');
	return strength ? sound(strength, text) : unreadable('strength', text, expected);
}

function percent(value: number, by: string, text: string): Read<Strength> {
	const kind = by.replace(/[() .]/g, '').toLowerCase();
	if (kind === 'w/v' || kind === 'm/v') return sound({ form: 'liquid', mgPerMl: value * 10 }, text);
	if (kind === 'w/w' || kind === 'm/m') return sound({ form: 'powder', gPerG: value / 100 }, text);
	if (kind === 'v/v') return sound({ form: 'whole', mlPerMl: value / 100 }, text);
	return unreadable('strength', text, 'percent with its kind: % w/v, % w/w or % v/v');
}

function ratio(value: number, unit: string, above: string, below: string): Strength | null {
	if (scaleOf('strength', unit))
		return { form: 'liquid', mgPerMl: convert(value, unit, 'mg/mL', 'strength') };
	if (scaleOf('volumeShare', unit))
		return { form: 'whole', mlPerMl: convert(value, unit, 'L/L', 'volumeShare') };
	const top = scaleOf('mass', above);
	const bottom = scaleOf('mass', below);
	return (
		top && bottom && { form: 'powder', gPerG: (value * top.times * bottom.over) / (top.over * bottom.times) }
	);
}

/** A drop size in brackets has a slash of its own, so brackets are read as one. */
const rateForm =
	/^((?:\([^)]*\)|[^(])+?)(?: ?\/ ?| per | treats | in | into )(.+?)(?: gives | to | makes | ?= ?|: ?)(.+)$/i;

function labelRate(source: string): Strength | null {
	const parts = rateForm.exec(source);
	if (!parts) return null;
	const amount = readQuantity(parts[1] ?? '', ['volume', 'mass']);
	// `per gal` is per one of them
	const water = readQuantity((parts[2] ?? '').replace(/^(?=[a-z])/i, '1 '), 'volume');
	const level = readQuantity(parts[3] ?? '', ['concentration', 'volumeShare']);
	if (!amount.ok || !water.ok || !level.ok || amount.value.value === 0) return null;
	const waterL = inUnit(water.value, 'L');
	if (level.value.dimension === 'volumeShare') {
		if (amount.value.dimension === 'mass') return null;
		return {
			form: 'whole',
			mlPerMl: (inUnit(level.value, 'uL/L') * waterL) / 1000 / inUnit(amount.value, 'mL')
		};
	}
	const activeMg = inUnit(level.value, 'mg/L') * waterL;
	return amount.value.dimension === 'volume'
		? { form: 'liquid', mgPerMl: activeMg / inUnit(amount.value, 'mL') }
		: { form: 'powder', gPerG: activeMg / inUnit(amount.value, 'mg') };
}

/** `1 mL per 40 L`: how much goes into how much water, but not what that comes to. */
function rateWithoutLevel(source: string): boolean {
	const parts = /^(.+?)(?: ?\/ ?| per | treats | in | into )(?=\d)(.+)$/i.exec(source);
	return readQuantity(parts?.[1] ?? '', 'volume').ok && readQuantity(parts?.[2] ?? '', 'volume').ok;
}

/** Weaker than this no bottle is sold: it is a level of the tank, or a unit slipped (judgment, no source). */
const weakestMgPerMl = 0.01;

/** More active part than bottle, or none, is a slip. The hair above 1 is for rounding of a rate. */
function sound(strength: Strength, text: string): Read<Strength> {
	const share =
		strength.form === 'powder' ? strength.gPerG : strength.form === 'whole' ? strength.mlPerMl : 0.5;
	if (share > 1 + 1e-9) return unreadable('out-of-range', text, 'a share of at most 100 %');
	if (strength.form === 'liquid' && strength.mgPerMl > 0 && strength.mgPerMl < weakestMgPerMl)
		return unreadable(
			'out-of-range',
			text,
			`a strength of at least ${weakestMgPerMl} mg/mL: less is the level of a tank, not of a bottle`
		);
	const amount = strength.form === 'liquid' ? strength.mgPerMl : share;
	return amount > 0 ? read(strength) : unreadable('out-of-range', text, `a strength above zero: ${expected}`);
}

/** Does a label say that the bottle holds the whole liquid? 37 % formaldehyde is what the trade calls formalin. */
export const isFormalin = (text: string): boolean =>
	/^37 ?% ?(\(?w\/[vw]\)? ?)?(formaldehyde|formalin)?$/i.test(text.trim());
