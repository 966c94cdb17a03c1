import { actives, labels, type Active } from '../formulary/index.ts';
import {
	isFormalin,
	read,
	readConcentration,
	readConcentrationBand,
	readDurationDays,
	readMassMg,
	readStrength,
	readVolumeL,
	unreadable,
	type Counted,
	type Read
} from '../units/index.ts';
import type { Json, Reader } from './reader.ts';
import type { Medicine, Strength } from './run.ts';

const ML_PER_L = 1000;
const HOURS_PER_DAY = 24;

/** How levels of an active ingredient are counted: mg/L, or uL/L of the whole liquid. */
export const countedOf = (active: Active): Counted => (labels[active].unit === 'uL/L' ? 'whole' : 'mass');

/** One bottle. Its own values win over the shelf's and stay visible as such. */
export function readMedicine(reader: Reader, place: string, bottle: Json, id: string): Medicine {
	const at = (key: string) => `${place}.${key}`;
	const cell = <T>(key: string, grammar: (text: string) => Read<T>) =>
		reader.cell(at(key), bottle[key], grammar);
	const active = reader.word(at('active'), bottle.active, actives) ?? 'other';
	const counted = countedOf(active);
	const strength = cell('strength', (text) => strengthFor(text, active));
	const halfLife = cell('halfLife', (text): Read<{ days: number | null }> => {
		if (/^none$/i.test(text.trim())) return read({ days: null });
		const days = positiveDays(text);
		return days.ok ? read({ days: days.value }) : days;
	});
	const level = cell('level', (text) => readConcentrationBand(text, counted));
	const ceiling = cell('ceiling', (text) => readConcentration(text, counted));
	const gap = cell('gap', positiveDays);
	const course = cell('course', positiveDays);
	const contact = cell('contact', readDurationDays);
	return {
		id,
		active,
		strength,
		measure: cell('measure', (text) => measureFor(text, strength)),
		...(level ? { level } : {}),
		...(ceiling === null ? {} : { ceiling }),
		...(halfLife ? { halfLifeDays: halfLife.days } : {}),
		...(gap === null ? {} : { gapDays: gap }),
		...(course === null ? {} : { courseDays: course }),
		...(contact === null ? {} : { contactHours: contact * HOURS_PER_DAY }),
		prescribed: reader.flag(at('prescribed'), bottle.prescribed)
	};
}

function positiveDays(text: string): Read<number> {
	const days = readDurationDays(text);
	return days.ok && days.value <= 0
		? unreadable('out-of-range', text, 'a time over nothing, such as 7 d')
		: days;
}

/** A strength that fits how the ingredient is counted: formalin as the whole liquid, never by its formaldehyde. */
function strengthFor(text: string, active: Active): Read<Strength> {
	const whole = countedOf(active) === 'whole';
	if (whole && isFormalin(text)) return read({ form: 'whole', mlPerMl: 1 });
	const strength = readStrength(text);
	if (!strength.ok) return strength;
	if (whole && strength.value.form !== 'whole')
		return unreadable(
			'strength',
			text,
			'1 mL/mL of the whole liquid (about 37 % formaldehyde); ask about any other strength'
		);
	if (!whole && strength.value.form === 'whole')
		return unreadable('strength', text, 'mg/mL, g/g, % w/v or % w/w of the active ingredient');
	return strength;
}

/** The measuring tool's smallest step, mL for liquids, mg for powders. */
function measureFor(text: string, strength: Strength | null): Read<number> {
	const powder = strength?.form === 'powder';
	const tried = powder ? [readMassMg] : strength ? [millilitres] : [millilitres, readMassMg];
	const found = tried.map((grammar) => grammar(text)).find((result) => result.ok);
	if (!found?.ok || found.value <= 0)
		return unreadable(
			'measure',
			text,
			powder ? 'a mass over nothing, such as 10 mg' : 'a volume over nothing, such as 0.1 mL'
		);
	return found;
}

function millilitres(text: string): Read<number> {
	const litres = readVolumeL(text);
	return litres.ok ? read(litres.value * ML_PER_L) : litres;
}
